import { describe, expect, test } from "vitest";
import { BalanceCheckSchema, EndPointReadingSchema } from "../../src/record/checks.ts";
import { ProcedureChoiceSchema } from "../../src/record/procedure.ts";
import { ProgramRunSchema, ProgramSchema } from "../../src/record/program.ts";

const FULL = {
  ruleSet: "en-933-1-2012",
  frameMm: 200,
  charge: { largestParticleMm: 4, outside: "invalidates" },
  load: { rule: "own", limitG: 100, perSieve: [{ apertureUm: 63, limitG: 25 }], overload: "warning" },
  endPoint: {
    criterion: {
      of: "residue",
      limitPct: 1,
      periodS: 60,
      below: true,
      orG: 0.1,
      small: { belowPct: 5, limitPct: 20 },
      sieves: "every",
    },
    required: true,
    notReached: "warning",
  },
  balance: { required: true, interval: "day", readabilityPct: 0.1 },
  program: { required: true, deviation: "invalidates" },
  moisture: { maxPct: 0.5, required: true, above: "note" },
  sieves: { required: true },
};

const fault = (choice: unknown): string => {
  const read = ProcedureChoiceSchema.safeParse(choice);
  return read.success ? "taken" : `${read.error.issues[0]?.path.join(".")}: ${read.error.issues[0]?.message}`;
};

describe("a product's choice of procedure", () => {
  test("may be as short as the name of a rule set", () => {
    expect(ProcedureChoiceSchema.parse({ ruleSet: "astm-c136-2020" })).toEqual({ ruleSet: "astm-c136-2020" });
  });

  test("may decide everything", () => expect(ProcedureChoiceSchema.parse(FULL)).toEqual(FULL));

  test.each([
    [{ ...FULL, frameMm: { widthMm: 372, lengthMm: 580 } }],
    [{ ...FULL, balance: { interval: { hours: 8 } } }],
    [{ ...FULL, load: { rule: "none" } }],
    [{ ...FULL, load: { overload: "warning" } }],
    [{ ...FULL, load: { rule: "own", perSieve: [{ apertureUm: 63, limitG: 25 }] } }],
  ])("takes %j", (choice) => expect(fault(choice)).toBe("taken"));

  test.each([
    [{}, "ruleSet"],
    [{ ruleSet: "astm-c136" }, "ruleSet"],
    [{ ...FULL, surprise: 1 }, "Unrecognized key"],
    [{ ...FULL, load: { ...FULL.load, factor: 2 } }, "load"],
    [{ ...FULL, load: { rule: "own" } }, "load: needs limitG or perSieve"],
    [{ ...FULL, load: { rule: "area", limitG: 100 } }, "load: needs limitG or perSieve"],
    [{ ...FULL, load: { rule: "own", limitG: 0 } }, "load.limitG"],
    [{ ...FULL, load: { overload: "fatal" } }, "load.overload"],
    [{ ...FULL, frameMm: 0 }, "frameMm"],
    [{ ...FULL, frameMm: { widthMm: 372 } }, "frameMm"],
    [{ ...FULL, charge: { largestParticleMm: -1 } }, "charge.largestParticleMm"],
    [{ ...FULL, endPoint: { criterion: { of: "charge", limitPct: 0, periodS: 60, sieves: "every" } } }, "limitPct"],
    [{ ...FULL, endPoint: { criterion: { of: "charge", limitPct: 1, periodS: 60 } } }, "sieves"],
    [{ ...FULL, balance: { interval: "week" } }, "balance.interval"],
    [{ ...FULL, moisture: { required: true } }, "moisture.maxPct"],
  ])("refuses %j at %s", (choice, where) => expect(fault(choice)).toContain(where));
});

describe("what is noted of a test's checks", () => {
  const check = {
    at: "2026-11-24T03:12:00+01:00",
    balance: "BAL-1",
    by: "KO",
    readings: [{ weight: "W-500", weightClass: "F2", nominalG: 500, readG: 500.02, toleranceG: 0.1 }],
  };

  test("a balance check with its weights", () => expect(BalanceCheckSchema.parse(check)).toEqual(check));

  test.each([
    [{ ...check, readings: [] }],
    [{ ...check, at: "2026-11-24 03:12" }],
    [{ ...check, readings: [{ ...check.readings[0], toleranceG: 0 }] }],
    [{ ...check, readings: [{ ...check.readings[0], weightClass: "Z9" }] }],
    [{ ...check, passed: true }],
  ])("but not %j", (wrong) => expect(BalanceCheckSchema.safeParse(wrong).success).toBe(false));

  test.each([
    [{ apertureUm: 500, beforeG: 200, afterG: 199.2 }, true],
    [{ apertureUm: 500, beforeG: 200, passedG: 0.8 }, true],
    [{ apertureUm: 500, beforeG: 200 }, false],
    [{ apertureUm: 0, beforeG: 200, afterG: 199.2 }, false],
    [{ apertureUm: 500, beforeG: 0, afterG: 0 }, false],
  ])("an end-point reading %j: %s", (reading, taken) =>
    expect(EndPointReadingSchema.safeParse(reading).success).toBe(taken),
  );
});

describe("a program and its run", () => {
  const program = {
    schema: "sievewright.program/1",
    code: "SAND-10",
    name: "filter sand",
    motion: "horizontal circular with tapping",
    durationS: 600,
    tapsPerMin: 150,
    aids: ["lid", { aid: "balls", material: "rubber", count: 3, onUm: [125] }],
    wet: false,
  };

  test("a program may name tapping and aids with their material, count and sieves", () =>
    expect(ProgramSchema.parse(program)).toEqual(program));

  test("a run may note any part of it, or nothing", () => {
    expect(ProgramRunSchema.parse({})).toEqual({});
    expect(ProgramRunSchema.parse({ durationS: 480, strokeMm: 1.1 })).toEqual({ durationS: 480, strokeMm: 1.1 });
  });

  test.each([
    [{ ...program, aids: [{ aid: "marbles" }] }],
    [{ ...program, aids: [{ aid: "balls", count: 0 }] }],
    [{ ...program, speed: 3 }],
    [{ ...program, durationS: 0 }],
  ])("a program is refused with %j", (wrong) => expect(ProgramSchema.safeParse(wrong).success).toBe(false));

  test("a run is refused with what no program has", () =>
    expect(ProgramRunSchema.safeParse({ speed: 3 }).success).toBe(false));
});
