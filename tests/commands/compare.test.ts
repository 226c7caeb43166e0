import { describe, expect, test } from "vitest";
import { weighed } from "../store/careWorld.ts";
import { careStation } from "./careStation.ts";
import { file, run } from "./inProcess.ts";

/** A sheet of three sieves and the pan; `moved` grams lie on the 710 um sieve instead of the 500 um one. */
const sheet = (moved = 0, keys = ""): string =>
  file(
    "s.csv",
    `${keys}aperture_um,net_g\n1000,${20}\n710,${(40 + moved).toFixed(2)}\n500,${(30 - moved).toFixed(2)}\npan,10\n`,
  );
const pairs = (offs: readonly number[]) => [
  "compare",
  "--working",
  ...offs.map((g) => sheet(g)),
  "--master",
  ...offs.map(() => sheet()),
];

describe("compare", () => {
  test("flags a bias where all pairs differ alike, with its range, and ends with 1", async () => {
    const { code, out, err } = await run(pairs([-1.9, -2.0, -2.1, -2.05, -1.95]));
    expect({ code, err }).toEqual({ code: 1, err: "" });
    expect(out).toMatch(/^working stack against master stack: BIASED ✗$/m);
    // d = 2.00, s = 0.0790569, t(4, 1 - 0.05/6) = 3.96 (Bonferroni over three apertures).
    expect(out).toMatch(/^ +710 um +5 +\+2\.00 +\+1\.86 +\+2\.14 +0\.21 +3 +BIASED ✗$/m);
    expect(out).toMatch(/^ +1\.00 mm +5 +\+0\.00 +\+0\.00 +\+0\.00 +0\.00 +2 +no bias shown ✓$/m);
    for (const row of out.split("\n")) expect(row.length).toBeLessThanOrEqual(80);
  });

  test("shows none where chance explains it and so many pairs would have shown the difference", async () => {
    const { code, out } = await run([...pairs([1, -1, 0.5, -0.5]), "--difference", "20"]);
    expect(code).toBe(0);
    expect(out).toMatch(/^working stack against master stack: no bias shown ✓$/m);
  });

  test("with too few pairs says so instead, what would have been visible, and how many pairs it takes", async () => {
    const { code, out } = await run([...pairs([1, -1, 0.5, -0.5]), "--difference", "0.5"]);
    expect(code).toBe(2);
    expect(out).toContain("working stack against master stack: too few pairs to tell ?");
    expect(out).toMatch(/^ +aperture +pairs +mean +from +to +visible +n for 0\.5 % /m);
    expect(out).toMatch(/^ +710 um +4 +\+0\.00 +-\d\.\d\d +\+\d\.\d\d +\d\.\d\d +\d+ +too few pairs \?$/m);
  });

  test.each([
    [2, "too few pairs to tell ?", 2],
    [3, "no bias shown ✓", 0],
  ])("%i pairs without any difference: %s", async (many, told, code) => {
    const ended = await run(pairs(Array.from({ length: many }, () => 0)));
    expect(ended.code).toBe(code);
    expect(ended.out).toContain(told);
  });

  test("refuses the same run on both sides, and says when both sides used the same sieves", async () => {
    const { at } = await careStation([1, 2, 3, 4].map((k) => weighed(`t-${k}`, `2026-11-2${k}T08:00:00+01:00`)));
    const itself = await at(["compare", "--working", "6", "7", "--master", "7", "6"]);
    expect(itself).toMatchObject({ code: 64, out: "" });
    expect(itself.err).toContain("6 stands on both sides: a test compared with itself shows nothing");
    expect(await at(["compare", "--working", "6", "#6", "--master", "7", "8"])).toMatchObject({ code: 65, out: "" });
    const { out } = await at(["compare", "--working", "6", "7", "--master", "8", "9"]);
    expect(out.replace(/\s+/g, " ")).toContain("! both sides used the same sieves");
  });

  test("as JSON has the figures in full and the names of the runs", async () => {
    const told = JSON.parse((await run([...pairs([-2, -2.1, -1.9]), "--json"])).out);
    expect(told).toMatchObject({ schema: "sievewright.comparison/1", alpha: 0.05, differencePct: 1, biased: true });
    expect(told.pairs).toHaveLength(3);
    const at710 = told.apertures.find(({ apertureUm }: { apertureUm: number }) => apertureUm === 710);
    expect(at710.meanPct).toBeCloseTo(2, 9);
    expect(at710.deviationPct).toBeCloseTo(0.1, 9);
  });

  test("takes recorded tests by their numbers, of two stations too", async () => {
    const testsOf = (name: string) => [1, 2, 3].map((k) => weighed(`${name}-${k}`, `2026-11-2${k}T08:00:00+01:00`));
    const [here, there] = [await careStation(testsOf("h")), await careStation(testsOf("t"))];
    const numbers = ["6", "7", "8"];
    const { code, out } = await here.at([
      "compare",
      "--working",
      ...numbers,
      "--master",
      ...numbers,
      "--master-data",
      there.data,
    ]);
    expect(code).toBe(0);
    expect(out).toContain("test no. 6 against test no. 6");
  });

  test("tells what is only on one of the stacks, and that a run was no valid test", async () => {
    const other = file("o.csv", "aperture_um,net_g\n710,60\n355,30\npan,10\n");
    const { out } = await run(["compare", "--working", sheet(), sheet(), "--master", other, other]);
    expect(out.replace(/\s+/g, " ")).toContain("only on one of the stacks, not compared: 1.00 mm, 500 um, 355 um");
  });

  test.each([
    [["--working", "1", "2", "--master", "3"], 64, "--working names 2 runs, --master 1: they go in pairs"],
    [["--working", "-", "--master", "-"], 64, "only one sheet can come from standard input"],
    [["--working", "1", "--master", "2", "--difference", "0"], 64, "--difference 0: give % passing"],
    [["--working", "1", "--master", "2", "--alpha", "50"], 64, "--alpha 50: give the chance of a false bias"],
    [["--working", "1", "--master", "2"], 66, "there is no station in"],
    [["--working", "none.csv", "--master", "x.csv"], 66, "none.csv: there is no such file"],
    [["--working", "1"], 64, "required option '--master <runs...>' not specified"],
  ])("%j ends with %i", async (argv, code, told) => {
    const ran = await run(["compare", ...argv]);
    expect(ran).toMatchObject({ code, out: "" });
    expect(ran.err).toContain(told);
  });

  test("refuses runs without an aperture in common, and a test that is not there", async () => {
    const other = file("o.csv", "aperture_um,net_g\n2000,60\npan,40\n");
    expect(await run(["compare", "--working", sheet(), "--master", other])).toMatchObject({
      code: 65,
      err: expect.stringContaining("have no aperture in common"),
    });
    const { at } = await careStation();
    expect(await at(["compare", "--working", "999", "--master", "998"])).toMatchObject({ code: 66, out: "" });
  });
});
