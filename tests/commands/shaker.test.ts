import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { ONE_PERIOD_THROW } from "../../src/procedure/motion/flight.ts";
import { run } from "./inProcess.ts";
import { builtRun } from "./realProcess.ts";

const shaker = (...args: string[]) => run(["shaker", ...args]);
const json = async (...args: string[]) => JSON.parse((await shaker(...args, "--json")).out);
const page = async (...args: string[]) => (await shaker(...args)).out;

describe("shaker --json", () => {
  test("has the keys of the contract and no others", async () => {
    const found = await json("--frequency-hz", "50", "--stroke-mm", "0.72", "--restate-hz", "60");
    expect(Object.keys(found)).toEqual([
      "frequencyHz",
      "strokeMm",
      "peakAccelerationG",
      "throwNumber",
      "flightTimeMs",
      "flightPerPeriod",
      "onePeriodStrokeMm",
      "restated",
    ]);
    expect(found.peakAccelerationG).toBeCloseTo((0.00036 * (100 * Math.PI) ** 2) / 9.80665, 10);
    expect(found.restated).toEqual({ frequencyHz: 60, strokeMm: expect.closeTo(0.5, 12) });
  });

  test("without --restate-hz has no restated stroke", async () =>
    expect(await json("--frequency-hz", "50", "--stroke-mm", "1")).not.toHaveProperty("restated"));

  test("takes an acceleration in place of the stroke, to any number of digits", async () => {
    const found = await json("--frequency-hz", "50", "--acceleration-g", `${ONE_PERIOD_THROW}`);
    expect(found.flightPerPeriod).toBeCloseTo(1, 10);
    expect(found.flightTimeMs).toBeCloseTo(20, 8);
    expect(found.strokeMm).toBeCloseTo(found.onePeriodStrokeMm, 12);
  });

  test("reads a decimal comma", async () =>
    expect((await json("--frequency-hz", "50", "--stroke-mm", "0,72")).strokeMm).toBe(0.72));

  test("stroke and acceleration lead back to each other, at any frequency", async () =>
    fc.assert(
      fc.asyncProperty(
        fc.double({ min: 1, max: 400, noNaN: true }),
        fc.double({ min: 0.01, max: 50, noNaN: true }),
        async (hz, mm) => {
          const { peakAccelerationG } = await json("--frequency-hz", `${hz}`, "--stroke-mm", `${mm}`);
          const back = await json("--frequency-hz", `${hz}`, "--acceleration-g", `${peakAccelerationG}`);
          expect(back.strokeMm / mm).toBeCloseTo(1, 10);
        },
      ),
      { numRuns: 20 },
    ));
});

describe("shaker as a page", () => {
  test("tells every figure with its unit, and every stroke peak to peak", async () => {
    const out = await page("--frequency-hz", "50", "--stroke-mm", "0.72", "--restate-hz", "60");
    expect(out).toMatch(/^frequency +50 Hz$/m);
    expect(out).toMatch(/^stroke +0\.720 mm peak to peak$/m);
    expect(out).toMatch(/^peak acceleration +3\.62 g$/m);
    expect(out).toMatch(/^throw number +3\.62$/m);
    expect(out).toMatch(/^flight time +21\.1 ms$/m);
    expect(out).toMatch(/^flight \/ period +1\.05$/m);
    expect(out).toMatch(/^one-period stroke +0\.655 mm peak to peak at 50 Hz$/m);
    expect(out).toMatch(/^at 60 Hz +0\.500 mm peak to peak for the same peak acceleration$/m);
    for (const stroke of out.match(/[\d.]+ mm(?! *$)[^\n]*/gm) ?? []) expect(stroke).toMatch(/mm peak to peak/);
  });

  test("explains the one-period stroke and draws flight over stroke with both marked", async () => {
    const out = await page("--frequency-hz", "50", "--stroke-mm", "0.72");
    expect(out.replace(/\s+/g, " ")).toContain("a grain's flight lasts just one period of the sieve");
    expect(out).toContain("this setting ●   one period ◆");
    expect(out).toMatch(/^1\.0┤.*◆─+●/m);
    expect(out).not.toContain("amplitude");
  });

  test("says that nothing is thrown at a throw number of 1 or less", async () => {
    const out = await page("--frequency-hz", "50", "--acceleration-g", "0.9");
    expect(out).toMatch(/^flight time +none: nothing lifts$/m);
    expect(out).toMatch(/^flight \/ period +0$/m);
  });

  test("keeps within 80 columns, and within ASCII where there is no more", async () => {
    const { out } = await run(["shaker", "--frequency-hz", "4", "--stroke-mm", "30"], { env: { LANG: "C" } });
    expect(out).toMatch(/^[\x00-\x7f]*$/);
    for (const row of out.split("\n")) expect(row.length).toBeLessThanOrEqual(80);
    expect(out).toContain("this setting o   one period #");
  });
});

describe("shaker refuses, 64, in one line", () => {
  const refusals: [string[], string][] = [
    [["--frequency-hz", "50"], "give either the stroke or the acceleration"],
    [
      ["--frequency-hz", "50", "--stroke-mm", "1", "--acceleration-g", "3"],
      "give either the stroke or the acceleration",
    ],
    [["--frequency-hz", "0", "--stroke-mm", "1"], "the frequency must be above 0, not 0"],
    [["--frequency-hz", "50", "--stroke-mm", "-1"], "the stroke must be above 0, not -1"],
    [
      ["--frequency-hz", "50", "--stroke-mm", "1", "--restate-hz", "0"],
      "the frequency to restate must be above 0, not 0",
    ],
    [["--frequency-hz", "fifty", "--stroke-mm", "1"], "--frequency-hz fifty: give a number, such as 1.2"],
    [["--frequency-hz", "50", "--stroke-mm", "1e999"], "--stroke-mm 1e999: give a number, such as 1.2"],
    [["--stroke-mm", "1"], "required option '--frequency-hz <number>' not specified; see sievewright shaker --help"],
  ];
  test.each(refusals)("%j", async (args, reason) =>
    expect(await shaker(...args)).toEqual({ code: 64, out: "", err: `sievewright: ${reason}\n` }),
  );
});

test("the built program works out a shaker", () => {
  const { status, stdout, stderr } = builtRun(["shaker", "--json", "--frequency-hz", "50", "--stroke-mm", "1.2"]);
  expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
  expect(JSON.parse(stdout).peakAccelerationG).toBeCloseTo(6.0385, 4);
  expect(builtRun(["shaker", "--frequency-hz", "50"]).status).toBe(64);
});
