import { beforeAll, describe, expect, test } from "vitest";
import { file, folder, run, shared } from "./inProcess.ts";

const data = folder();
const GRAVEL = {
  schema: "sievewright.product/1",
  code: "TH-GRV",
  name: "Gravel (invented)",
  revision: 1,
  stackUm: [8000, 4000, 2000],
  method: { chargeG: { min: 200, max: 400 }, procedure: { ruleSet: "own", load: { rule: "own", limitG: 150 } } },
  envelope: [
    { apertureUm: 8000, passingPct: { min: 92, max: 100 } },
    { apertureUm: 4000, passingPct: { min: 62, max: 66 } },
    { apertureUm: 2000, passingPct: { min: 30 } },
    { apertureUm: 1000, passingPct: { max: 10 } },
  ],
  material: { particleDensityKgM3: 2650 },
  uncertainty: { apertures: "none" },
};
const SHEET = "# charge_g: 300\naperture_um,net_g\n8000,18\n4000,90\n2000,120\npan,72\n";
const gravel = (...more: string[]) =>
  run(["plan", file("gravel.json", GRAVEL), "--sheet", file("gravel.csv", SHEET), ...more]);
const json = async (...argv: string[]) => {
  const { code, out, err } = await run([...argv, "--json"]);
  expect({ code, err }).toEqual({ code: 0, err: "" });
  return JSON.parse(out);
};

beforeAll(async () => {
  expect(await run(["demo", "--data", data, "--fill", "40", "--seed", "3"])).toMatchObject({ code: 0, err: "" });
}, 60_000);

describe("plan --json", () => {
  test("has every key that other programs rely on", async () => {
    const told = await json("plan", "TH-0510", "--data", data);
    expect(told).toMatchObject({ schema: "sievewright.plan/1", product: "TH-0510", revision: 3, riskPct: 5 });
    expect(told.typical).toMatchObject({ kind: "tests", since: expect.any(String), until: expect.any(String) });
    expect(told.typical.numbers.length).toBe(12);
    expect(told.limits.map(({ on }: { on: string }) => on)).toContain("passingPct@500");
    expect(Object.keys(told.limits[0])).toEqual(
      expect.arrayContaining(["min", "max", "verdict", "typical", "unit", "u", "U", "leastG", "chargeG", "portions"]),
    );
    expect(told.limits[0].crossTest).toMatchObject({ tooNarrow: false });
    expect(told.needed).toEqual({ chargeG: expect.any(Number), portions: expect.any(Number) });
    expect(told.components.map(({ id }: { id: string }) => id)).toContain("grains");
    expect(told.loadLimits).toMatchObject({ determinable: false });
  });

  test("from a sheet: charge and portions of each limit, or why there is none", async () => {
    const { code, out } = await gravel("--json");
    expect(code).toBe(0);
    const told = JSON.parse(out);
    expect(told).toMatchObject({
      chargeG: 300,
      largestPortionG: 375,
      fullestUm: 2000,
      allowedG: { min: 200, max: 400 },
    });
    const verdicts = told.limits.map(({ verdict }: { verdict: string }) => verdict);
    expect(verdicts).toEqual(["larger charge", "larger charge", "typical lies outside", "not planned"]);
    expect(told.limits[0]).toMatchObject({ portions: 2, grains: { side: "coarser" }, largest: { id: "grains" } });
    expect(told.limits[1].crossTest).toMatchObject({ widthPct: 4, tooNarrow: true });
    expect(told.limits[3].reason).toContain("1000 um");
  });
});

describe("plan as a page", () => {
  test("says what it takes in words, and that the method allows less", async () => {
    const { code, out, err } = await gravel();
    expect({ code, err }).toEqual({ code: 0, err: "" });
    expect(out).toContain("passing 8 mm, 92 to 100 %: 460 g in 2 portions; 300 g can't decide it");
    expect(out).toMatch(/About 16 grains are coarser than it; \d+ are needed\./);
    expect(out).toContain("! the method allows 400 g at most");
    expect(out).toContain("European cross-test");
    expect(out).toContain("the typical 24.0 % lies outside");
    for (const row of out.split("\n")) expect(row.length).toBeLessThanOrEqual(80);
  });

  test("another charge, risk and number of portions: what these decide, and which sieve they overload", async () => {
    const { out } = await gravel("--charge", "2000", "--risk", "1", "--portions", "2");
    expect(out).toContain("risk of a wrong acceptance 1 %: a typical result must be inside by 2.33 u");
    expect(out).toContain("! charge 2000 g in 2 portions: the 2.00 mm sieve takes 375 g at once, so that");
    expect(out).toContain("it takes 6 portions");
    expect(out).toMatch(/passing 8 mm .* ! not by the method/);
  });

  test.each([
    ["150", "which asks for 200 g at least"],
    ["2000", "which asks for 400 g at most"],
  ])(
    "a charge of %s g, which the method does not allow, is told first and never called enough",
    async (charge, told) => {
      const { out } = await gravel("--charge", charge, "--risk", "20");
      expect(out).toContain(told);
      expect(out.indexOf(told)).toBeLessThan(out.search(/of 4\s+limits/));
      expect(out).not.toMatch(/enough$/m);
      const parsed = JSON.parse((await gravel("--charge", charge, "--json")).out);
      expect(parsed.chargeOutsideMethod).toBe(charge === "150" ? "below" : "above");
    },
  );

  test("never names a charge below the least of the method", async () => {
    const told = JSON.parse((await gravel("--charge", "5", "--risk", "40", "--json")).out);
    const named = told.limits.flatMap(({ chargeG }: { chargeG: number | null }) => chargeG ?? []);
    expect(named.length).toBeGreaterThan(0);
    expect(Math.min(...named, told.needed.chargeG)).toBeGreaterThanOrEqual(200);
  });

  test("names the tests that it is drawn from", async () => {
    const { out } = await run(["plan", "TH-0510", "--data", data]);
    expect(out).toMatch(/from the mean of the 12 newest tests, no\. \d+ to \d+, 2026-11-\d\d to/);
  });

  test("a product without limits has nothing to plan", async () => {
    const { envelope: _envelope, ...bare } = GRAVEL;
    const { code, out } = await run(["plan", file("bare.json", bare), "--sheet", file("gravel.csv", SHEET)]);
    expect(code).toBe(0);
    expect(out).toContain("this product has no limits");
  });
});

describe("plan refuses", () => {
  test.each([
    [["--risk", "60"], 64, "--risk 60: give a number from 0.01 to 49"],
    [["--charge", "-3"], 64, "--charge -3: give a number from"],
    [["--portions", "1.5"], 64, "--portions 1.5: give a whole number"],
    [["--portions", "many"], 64, "--portions many: give a number"],
  ])("%j", async (more, code, told) => {
    const ended = await run(["plan", "TH-0510", "--data", data, ...more]);
    expect(ended).toMatchObject({ code, out: "" });
    expect(ended.err).toContain(told);
  });

  test("an unknown product, a folder without a station, and a product that was never tested", async () => {
    expect(await run(["plan", "TH-NONE", "--data", data])).toMatchObject({ code: 66, out: "" });
    expect(await run(["plan", shared("products/TH-0510.json"), "--data", folder()])).toMatchObject({ code: 66 });
    const never = await run(["plan", file("gravel.json", GRAVEL), "--data", data]);
    expect(never).toMatchObject({ code: 66, out: "" });
    expect(never.err).toContain("give a weighing sheet of a typical test with --sheet");
  });
});
