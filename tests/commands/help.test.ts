import { spawnSync } from "node:child_process";
import { describe, expect, test } from "vitest";
import { CHARACTERISTIC_VALUES } from "../../src/grading/values/table.ts";
import { VALUE_IDS } from "../../src/record/valueIds.ts";
import { PLACES, placesOf } from "../../src/report/glossary/places.ts";
import { TERM_IDS, TERMS_BY_NAME, termOf } from "../../src/report/glossary/terms.ts";
import { roffText } from "../../src/report/manPage.ts";
import { permissionTable } from "../../src/report/permissionTable.ts";
import { STANDARD_IDS, standardsOf } from "../../src/report/standards/standards.ts";
import { sourceText } from "../../src/report/standards/told.ts";
import { TOPICS } from "../../src/report/topics.ts";
import { valuePage } from "../../src/report/valuePage.ts";
import { keyTablesOf } from "../../src/screens/help/keyTables.ts";
import { PLACE_NAMES } from "../../src/screens/rooms.ts";
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

describe("help of a term", () => {
  test.each(TERM_IDS.map((id) => [termOf(id).name, id] as const))(
    "%s: its meaning and where it is met",
    async (name, id) => {
      const { code, out } = await help("term", name);
      expect(code).toBe(0);
      expect(out.split("\n")[0]).toBe(name);
      expect(out.replace(/\s+/g, " ")).toContain(termOf(id).meaning);
      for (const place of placesOf(id)) expect(out.replace(/\s+/g, " ")).toContain(place);
    },
  );

  test.each([["charge"], ["Test", "portion"], ["hold"], ["end", "point"], ["cpk"], ["unproven"], ["guard", "bands"]])(
    "%s is found by its own and by other words, near ones are suggested",
    async (...name) => {
      const { code, out, err } = await help(...name);
      if (name.join(" ") === "guard bands")
        expect({ code, err: err.includes("near to it: guard band") }).toEqual({ code: 64, err: true });
      else expect({ code, lines: out.split("\n").length > 3 }).toEqual({ code: 0, lines: true });
    },
  );

  test("terms lists every one with its meaning", async () => {
    const { code, out } = await help("terms");
    expect(code).toBe(0);
    for (const { name, meaning } of TERMS_BY_NAME) {
      expect(out).toContain(name);
      expect(out.replace(/\s+/g, " ")).toContain(meaning);
    }
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });
});

test("help standards tells where every figure comes from, and what is only recalled", async () => {
  const { code, out } = await help("standards");
  const told = out.replace(/\s+/g, " ");
  expect(code).toBe(0);
  for (const id of STANDARD_IDS)
    for (const row of standardsOf(id).rows) expect(told).toContain(sourceText(row).replace(/\s+/g, " "));
  expect(told).toContain("check your copy");
  for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
});

describe("help keys", () => {
  test("tells every key of every place, from the tables that the screens work from", async () => {
    const { code, out } = await help("keys");
    const told = out.replace(/\s+/g, " ");
    expect(code).toBe(0);
    for (const name of PLACE_NAMES.filter((one) => one !== "help"))
      for (const { keys } of keyTablesOf(name)) for (const { help: what } of keys) expect(told).toContain(what);
    for (const { title } of Object.values(PLACES)) expect(out).toMatch(new RegExp(`^${title}$`, "m"));
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });

  test("of one place, by a word of its name", async () => {
    const { out } = await help("keys", "bench");
    expect(out.split("\n")[0]).toBe("the bench");
    expect(out).toContain("Set out a new test.");
    expect(out).not.toContain("Start the countdown");
    expect((await help("keys", "moon")).err).toMatch(/no place has "moon" in its name: the bench; a test in work;/);
  });
});

describe("the man page", () => {
  test("has every command, key, term, topic and source", async () => {
    const { code, out } = await help("--man");
    expect(code).toBe(0);
    for (const { meaning } of TERMS_BY_NAME) expect(out).toContain(roffText(meaning));
    for (const { name } of TOPICS) expect(out).toContain(`.SS "${roffText(name)}: `);
    for (const name of ["evaluate", "verify", "help"]) expect(out).toContain(`\\fB${name} `);
    expect(out).toContain(roffText("Set out a new test."));
    for (const row of permissionTable()) expect(out).toContain(roffText(row));
    expect(out).toContain("check your copy");
  });

  test.skipIf(spawnSync("groff", ["--version"]).status !== 0)("is formatted by groff without a warning", async () => {
    const { out } = await help("--man");
    const { status, stderr, stdout } = spawnSync("groff", ["-man", "-Tutf8", "-ww", "-z"], {
      input: out,
      encoding: "utf8",
    });
    expect({ status, stderr, stdout }).toEqual({ status: 0, stderr: "", stdout: "" });
    const page = spawnSync("groff", ["-man", "-Tutf8", "-P-cbou"], { input: out, encoding: "utf8" }).stdout;
    expect(page).toContain("PRACTICE".toLowerCase());
    expect(page).toMatch(/^SIEVEWRIGHT\(1\)/);
  });

  test("takes no text for an instruction", () => {
    expect(roffText(".so /etc/passwd")).toBe("\\&.so /etc/passwd");
    expect(roffText("a\n'b")).toBe("a\n\\&'b");
    expect(roffText("\\fBx - ±")).toBe("\\efBx \\- \\[u00B1]");
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
