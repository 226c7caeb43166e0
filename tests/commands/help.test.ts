import { describe, expect, test } from "vitest";
import { CHARACTERISTIC_VALUES } from "../../src/grading/values/table.ts";
import { VALUE_IDS } from "../../src/record/valueIds.ts";
import { TOPICS } from "../../src/report/topics.ts";
import { valuePage } from "../../src/report/valuePage.ts";
import { run } from "./inProcess.ts";
import { builtRun } from "./realProcess.ts";

const help = (...name: string[]) => run(["help", ...name]);
const titleOf = async (...name: string[]) => (await help(...name)).out.split("\n")[0];

describe("help of a value", () => {
  test.each(CHARACTERISTIC_VALUES.map((row) => [row.id, row] as const))(
    "%s by its id and by its label is what the screen's value page tells",
    async (id, row) => {
      const { code, out, err } = await help(id);
      expect({ code, err }).toEqual({ code: 0, err: "" });
      expect(out.split("\n").slice(2, -1)).toEqual(valuePage(row, null, 80));
      expect((await help(...row.label.split(" "))).out).toBe(out);
      for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
    },
  );

  test.each([
    [["FM"], "Fineness modulus (finenessModulus)"],
    [["gfn"], "Grain fineness no. (grainFinenessNumber)"],
    [["SGN"], "Size guide number (sizeGuideNumber)"],
    [["UI"], "Uniformity index (uniformityIndex)"],
    [["Cu"], "Uniformity Cu (uniformityCoefficient)"],
    [["cc"], "Curvature Cc (curvatureCoefficient)"],
    [["sauter"], "Sauter mean D[3,2] (sauterMeanDiameterUm), in um"],
    [["D[4,3]"], "Mass mean D[4,3] (massMeanDiameterUm), in um"],
    [["effective", "size"], "Effective size d10 (effectiveSizeUm), in um"],
    [["span"], "Relative span (relativeSpan)"],
    [["FINENESS_MODULUS"], "Fineness modulus (finenessModulus)"],
  ])("%j is enough", async (name, title) => expect(await titleOf(...name)).toBe(title));

  test("a word that several values share is refused with their ids, 64", async () =>
    expect(await help("moment")).toEqual({
      code: 64,
      out: "",
      err:
        'sievewright: "moment" can be phiMomentMean, phiMomentSorting, phiMomentSkewness, phiMomentKurtosis: write which; ' +
        "sievewright help lists the names\n",
    }));
});

describe("help of a percentile", () => {
  test.each(["d50", "D50", "d 50", "percentileUm@50"])("%s", async (name) => {
    const { code, out } = await help(name);
    expect(code).toBe(0);
    expect(out).toContain("d50, the smallest size whose passing % by mass reaches 50");
    expect(out.replace(/\s+/g, " ")).toContain("never beyond the sieves");
  });

  test("takes any percentage there is, and no other", async () => {
    expect(await titleOf("d0,5")).toBe("d0.5, in um");
    expect(await titleOf("d100")).toBe("d100, in um");
    expect((await help("d0")).err).toContain("above 0 and up to 100");
    expect((await help("d101")).err).toContain("above 0 and up to 100");
  });
});

describe("help of a topic", () => {
  test.each(TOPICS.map(({ name, title, paragraphs }) => [name, title, paragraphs] as const))(
    "%s: %s",
    async (name, title, paragraphs) => {
      const { code, out } = await help(name);
      expect(code).toBe(0);
      expect(out.split("\n")[0]).toBe(`${name}: ${title}`);
      for (const text of paragraphs) expect(out.replace(/\s+/g, " ")).toContain(text.replace(/\s+/g, " "));
    },
  );

  test("no topic hides a command or a value, and none has the name of another", async () => {
    const names = TOPICS.map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
    for (const name of names) expect(VALUE_IDS).not.toContain(name);
    for (const name of names) expect((await help(name)).out).not.toMatch(/^Usage:/);
  });
});

describe("help alone", () => {
  test("lists every value and every topic", async () => {
    const { code, out } = await help();
    expect(code).toBe(0);
    for (const { id, label } of CHARACTERISTIC_VALUES) expect(out).toContain(`  ${id}`.padEnd(32) + label);
    for (const { name, title } of TOPICS) expect(out).toMatch(new RegExp(`^ {2}${name} +${title}$`, "m"));
    expect(out).not.toContain("in um, in um");
  });
});

describe("help of a command", () => {
  test("is its usage", async () => {
    for (const name of ["evaluate", "deck", "sieves", "shaker", "help"])
      expect(await help(name)).toEqual(await run([name, "--help"]));
  });

  test("every command is on the program's own help page with a summary", async () => {
    const { out } = await run(["--help"]);
    for (const name of ["deck", "sieves", "shaker", "help"])
      expect(out).toMatch(new RegExp(`^ {2}${name} .*\\w{3}`, "m"));
  });
});

describe("help refuses in one line, 64", () => {
  test.each([["zzz"], ["!!"], ["\u202eevil"], ["x".repeat(300)]])("%j", async (name) => {
    const { code, out, err } = await help(name);
    expect({ code, out }).toEqual({ code: 64, out: "" });
    expect(err).toMatch(/^sievewright: [^\n\u202e]+; sievewright help lists the names\n$/);
    expect(err.length).toBeLessThan(120);
  });
});

test("the built program tells about a value", () => {
  const { status, stdout, stderr } = builtRun(["help", "Fineness", "modulus"]);
  expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
  expect(stdout).toContain("sum of coarser % over the sieves of the series / 100");
  expect(builtRun(["help", "nothing-of-ours"])).toMatchObject({ status: 64, stdout: "" });
});
