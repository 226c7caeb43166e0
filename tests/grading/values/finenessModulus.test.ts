import { describe, expect, test } from "vitest";
import { expectNear } from "../near.ts";
import { assumptionsOf, graded, passing } from "../stack.ts";
import { number, reason, resultOf } from "./valuesOf.ts";

const ASTM = "summed over the ASTM series (150 um to 150 mm)";

describe("worked by hand", () => {
  test("(2 + 15 + 35 + 55 + 79 + 97)/100, the pan not counted", () => {
    expectNear(
      number("finenessModulus", graded("9500:0 4750:2 2360:13 1180:20 600:20 300:24 150:18 pan:3")),
      2.83,
      1e-15,
    );
  });

  test("sieves beside the series are skipped, what they hold counts on the next finer one", () => {
    const between = graded("9500:0 4750:2 2360:13 2000:5 1180:15 600:20 300:24 150:18 75:2 pan:1");
    expectNear(number("finenessModulus", between), 2.83, 1e-15);
  });

  test("the EN series: (3 + 14 + 33 + 57 + 82 + 96)/100", () => {
    const sand = graded("4000:3 2000:11 1000:19 500:24 250:25 125:14 63:3 pan:1");
    expectNear(number("finenessModulus", sand, { modulusSeries: "en" }), 2.85, 1e-15);
  });

  test("the feed series ends at 9.5 mm", () => {
    const feed = graded("9500:0 4750:12 2360:16 1180:20 600:20 300:16 150:12 pan:4");
    expectNear(number("finenessModulus", feed, { modulusSeries: "feed" }), 3.36, 1e-15);
    expect(assumptionsOf(resultOf("finenessModulus", feed, { modulusSeries: "feed" }))).toEqual([
      "summed over the feed series (150 um to 9.5 mm)",
    ]);
  });
});

describe("series sieves that the stack lacks (CP-3)", () => {
  test("above a sieve that passes everything they count 0, without an assumption", () => {
    const found = resultOf("finenessModulus", graded("4750:0 2360:15 1180:20 600:20 300:24 150:21 pan:0"));
    expect(assumptionsOf(found)).toEqual([ASTM]);
  });

  test("at or above the assumed top they count 0, and the top is told", () => {
    const found = resultOf("finenessModulus", graded("4750:2 2360:13 1180:20 600:20 300:24 150:18 pan:3"));
    expect(found).toMatchObject({ determinable: true, value: 2.83 });
    expect(assumptionsOf(found)).toEqual([
      ASTM,
      "the 2 % on the 4.75 mm sieve taken to pass 5.60 mm, the next size of R20/3",
    ]);
  });

  test("between a coarsest sieve that held something and the assumed top there is no value", () => {
    const text = "8000:2 4750:3 2360:13 1180:20 600:20 300:24 150:18 pan:0";
    expect(reason("finenessModulus", graded(text))).toBe(`needs the 9.50 mm sieve of the ${ASTM.slice(16)}`);
    expectNear(number("finenessModulus", graded(text), { topUm: 9500 }), (5 + 18 + 38 + 58 + 82 + 100) / 100, 1e-14);
  });

  test("finer than the stack they count 100 if the pan is empty", () => {
    expectNear(number("finenessModulus", graded("4750:0 2360:50 1180:50 pan:0")), (50 + 100 + 300) / 100, 1e-15);
    expect(reason("finenessModulus", graded("4750:0 2360:50 1180:40 pan:10"))).toBe(
      `needs the 150 um, 300 um and 600 um sieves of the ${ASTM.slice(16)}`,
    );
  });

  test("inside the stack they are needed, unless the product allows reading the curve", () => {
    const gap = passing("4750:100 2360:80 600:30 300:10 150:2");
    expect(reason("finenessModulus", gap)).toBe(`needs the 1.18 mm sieve of the ${ASTM.slice(16)}`);
    const found = resultOf("finenessModulus", gap, { modulusInterpolateMissing: true });
    const coarserPct = 20 + (50 * Math.log(2360 / 1180)) / Math.log(2360 / 600);
    expect(found.determinable).toBe(true);
    if (found.determinable) expectNear(found.value, (20 + coarserPct + 70 + 90 + 98) / 100, 1e-14);
    expect(assumptionsOf(found)).toEqual([ASTM, "1.18 mm read from the curve (log-linear)"]);
  });

  test("the curve is never read beyond the sieves", () => {
    const short = passing("4750:100 2360:80 1180:60 600:30 300:10");
    expect(reason("finenessModulus", short, { modulusInterpolateMissing: true })).toMatch(/^needs the 150 um sieve/);
  });
});

test("all on one sieve of the series: the number of series sieves from it down to 150 um", () => {
  expectNear(number("finenessModulus", graded("4750:0 2360:0 1180:0 600:100 300:0 150:0 pan:0")), 3, 1e-15);
});
