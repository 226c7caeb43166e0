import { describe, expect, test } from "vitest";
import { weighed } from "../store/careWorld.ts";
import { careStation } from "./careStation.ts";
import { file, run } from "./inProcess.ts";

/** The tests of this station pass 80, 60, 40 and 20 % of what was put on 1400, 1000, 710 and 500 um. */
const certified = (at1000: number) => ({
  schema: "sievewright.referenceMaterial/1",
  code: "TH-RM1",
  name: "invented sand",
  unit: "bottle 7",
  certificate: { number: "RM-1", day: "2026-01-10", laboratory: "invented" },
  points: [
    { apertureUm: 1400, passingPct: 80, expandedPct: 0.5 },
    { apertureUm: 1000, passingPct: at1000, expandedPct: 0.5 },
    { apertureUm: 710, passingPct: 40, expandedPct: 0.5 },
    { apertureUm: 500, passingPct: 20, expandedPct: 0.5 },
  ],
});
const TEST = weighed("t-1", "2026-11-21T08:00:00+01:00");
const material = (at1000 = 60) => file("rm.json", certified(at1000));
const SHEET = "aperture_um,net_g,sieve\n1400,20,S-1400-1\n1000,20,S-1000-1\n710,20,\n500,20,\npan,20,\n";

describe("reference", () => {
  test("judges each sieve by En and z, gives its effective aperture, and ends with 0 where all agree", async () => {
    const { at, last } = await careStation([TEST]);
    const before = await last();
    const { code, out, err } = await at(["reference", material(), "6"]);
    expect({ code, err }).toEqual({ code: 0, err: "" });
    expect(out).toMatch(
      /^TH-RM1 invented sand, run as test no\. 6\n +bottle 7, certificate RM-1, of 2026-01-10, invented$/m,
    );
    expect(out).toMatch(/^ +710 um +S-0710-1 +40\.00 +40\.00 +0\.00 +0\.00 +agrees ✓$/m);
    expect(out).toMatch(/^ +710 um +710\.0 um +\d+\.\d um +\d+\.\d um +\+\/- 24\.7 um$/m);
    expect(out).toContain("not recorded: add --record");
    for (const row of out.split("\n")) expect(row.length).toBeLessThanOrEqual(80);
    expect(await last()).toEqual(before);
  });

  test("ends with 1 where one disagrees, says what it sieves like, and --record asks for its inspection", async () => {
    const { at, json, last } = await careStation([TEST]);
    const ran = await at(["reference", material(64), "6", "--record", "--by", "ML", "--note", "first run"]);
    expect(ran.code).toBe(1);
    expect(ran.out).toMatch(/^ +1\.00 mm +S-1000-1 +60\.00 +64\.00 +-\d\.\d\d +-1\.67 +DISAGREES ✗$/m);
    expect(ran.out).toMatch(/^recorded as no\. 7$/m);
    expect(await last()).toMatchObject({
      kind: "care",
      by: "ML",
      care: { did: "reference check", testId: "t-1", note: "first run", material: { code: "TH-RM1" } },
    });
    const due = await json(["sieves", "--due"]);
    expect(due.sieves.map(({ serial }: { serial: string }) => serial)).toEqual(["S-1000-1"]);
    expect(due.sieves[0].advice[0]).toMatch(/by the reference material the 1\.00 mm sieve .* disagrees .*: inspect it/);
    expect((await at(["sieve", "show", "S-1000-1"])).out).toContain("run with TH-RM1");
  });

  test("takes a registered material by its code, and a weighing sheet with serials", async () => {
    const { at } = await careStation([TEST]);
    expect((await at(["register", material()])).code).toBe(0);
    const told = JSON.parse((await at(["reference", "TH-RM1", file("s.csv", SHEET), "--json"])).out);
    expect(told).toMatchObject({ schema: "sievewright.referenceCheck/1", material: "TH-RM1", recorded: null });
    expect(told.sieves.map(({ serial }: { serial?: string }) => serial)).toEqual([
      "S-1400-1",
      "S-1000-1",
      undefined,
      undefined,
    ]);
    expect(told.sieves[0].en).toEqual({ determinable: true, value: 0, unit: "1" });
    const wide = JSON.parse((await at(["reference", material(64), "6", "--uncertainty", "10", "--json"])).out);
    // (60 - 64) / sqrt(10^2 + 0.5^2), worked out by hand.
    expect(wide.sieves[1].en.value).toBeCloseTo(-0.3995, 4);
    expect(wide.sieves[1].result).toBe("agrees");
  });

  test.each([
    [["reference", "TH-9", "6"], 66, "TH-9 is no registered reference material: name its file"],
    [["reference", "none.json", "6"], 66, "none.json: there is no such file"],
    [["reference", file("bad.json", { schema: "sievewright.referenceMaterial/1" }), "6"], 65, "code is missing"],
    [["reference", file("s.json", { schema: "sievewright.sieve/1" }), "6"], 65, "schema must be"],
    [["reference", file("rm.json", certified(60)), "999"], 66, "test no. 999 is not in"],
    [["reference", file("rm.json", certified(60)), "6", "--uncertainty", "x"], 64, "--uncertainty x: give a number"],
  ])("%j ends with %i", async (argv, code, told) => {
    const { at } = await careStation([TEST]);
    const ran = await at(argv);
    expect(ran).toMatchObject({ code, out: "" });
    expect(ran.err).toContain(told);
  });

  test("records nothing of a run that tells no serial", async () => {
    const { at } = await careStation([TEST]);
    const bare = file("s.csv", SHEET.replaceAll(/S-\d+-1/g, ""));
    expect(await at(["reference", material(), bare, "--record"])).toMatchObject({ code: 65, out: "" });
    expect((await at(["reference", material(), bare])).code).toBe(0);
  });

  test("takes the sheet from standard input, without any station", async () => {
    const { code, out } = await run(["reference", material(), "-"], { stdin: SHEET });
    expect(code).toBe(0);
    expect(out).toContain("run as standard input");
  });
});
