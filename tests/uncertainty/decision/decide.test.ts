import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type DecisionRule, decide, distanceTo, guardWidth } from "../../../src/uncertainty/decision/decide.ts";
import { globalRisks } from "../../../src/uncertainty/decision/globalRisks.ts";
import { expectNear } from "../../grading/near.ts";

const KINDS = ["simple", "guarded acceptance", "guarded rejection", "guarded both"] as const;
const upTo10 = { min: null, max: 10 };
const from0To10 = { min: 0, max: 10 };
const by = (kind: DecisionRule["kind"], r = 1): DecisionRule => ({ kind, guard: { r } });

describe("the width of a guard band", () => {
  test("is 1.645 u if nothing is said", () =>
    expectNear(decide({ value: 5, u: 2 }, upTo10, { kind: "guarded acceptance" }).guard, 3.29, 1e-12));
  test("is r U, with U = 2 u", () => expect(guardWidth({ r: 0.5 }, 2)).toBe(2));
  test("is nothing under simple acceptance", () =>
    expect(decide({ value: 5, u: 2 }, upTo10, by("simple")).guard).toBe(0));
});

/** Upper limit 10, u = 1, guard band 2: each rule from inside to outside. */
const PLACES = [7.9, 8, 8.1, 10, 10.1, 12, 12.1] as const;
test.each([
  ["simple", ["within", "within", "within", "within", "above", "above", "above"]],
  ["guarded acceptance", ["within", "within", "borderline", "borderline", "above", "above", "above"]],
  ["guarded rejection", ["within", "within", "within", "within", "borderline", "borderline", "above"]],
  ["guarded both", ["within", "within", "borderline", "borderline", "borderline", "borderline", "above"]],
] as const)("%s at 7.9, 8, 8.1, 10, 10.1, 12, 12.1", (kind, expected) => {
  expect(PLACES.map((value) => decide({ value, u: 1 }, upTo10, by(kind)).result)).toEqual(expected);
});

test.each([
  ["simple", [true, true, true, true, false, false, false]],
  ["guarded acceptance", [true, true, false, false, false, false, false]],
  ["guarded rejection", [true, true, true, true, true, true, false]],
  ["guarded both", [true, true, false, false, false, false, false]],
] as const)("what %s accepts", (kind, expected) => {
  expect(PLACES.map((value) => decide({ value, u: 1 }, upTo10, by(kind)).accepted)).toEqual(expected);
});

describe("two sides", () => {
  test("each have their own band", () => {
    expect(decide({ value: 1, u: 1 }, from0To10, by("guarded acceptance"))).toMatchObject({
      result: "borderline",
      acceptance: { low: 2, high: 8 },
      side: "min",
      distance: -1,
    });
    expect(decide({ value: -3, u: 1 }, from0To10, by("guarded both")).result).toBe("below");
  });

  test("meet where the limit is too narrow for the uncertainty: nothing is within", () => {
    const decided = decide({ value: 5, u: 3 }, from0To10, by("guarded acceptance"));
    expect(decided).toMatchObject({ bandsMeet: true, result: "borderline" });
    expect(decide({ value: 5, u: 2 }, from0To10, by("guarded acceptance")).bandsMeet).toBe(false);
  });

  test("the nearest end decides the distance", () => {
    expect(distanceTo(3, from0To10)).toEqual({ distance: 3, side: "min" });
    expect(distanceTo(8, from0To10)).toEqual({ distance: 2, side: "max" });
    expect(distanceTo(-1, { min: 0, max: null })).toEqual({ distance: -1, side: "min" });
  });
});

describe("a guard band at one end", () => {
  const upper = { kind: "guarded acceptance", guard: { r: 1 }, side: "max" } as const;

  test("of a limit with two leaves the other as it is", () => {
    expect(decide({ value: 0.5, u: 1 }, from0To10, upper)).toMatchObject({
      result: "within",
      acceptance: { low: 0, high: 8 },
    });
    expect(decide({ value: 9, u: 1 }, from0To10, upper).result).toBe("borderline");
    expect(decide({ value: 1, u: 1 }, from0To10, { ...upper, side: "min" }).result).toBe("borderline");
  });

  test("of a limit with one end is there whatever end is named", () =>
    expect(decide({ value: 9, u: 1 }, upTo10, { ...upper, side: "min" }).result).toBe("borderline"));

  test("that nothing can lie beyond is not there", () => {
    const can = { low: 0, high: 100 };
    const of = decide({ value: 99.5, u: 1, can }, { min: 95, max: 100 }, by("guarded both"));
    expect(of).toMatchObject({ result: "within", acceptance: { low: 97, high: null } });
  });
});

describe("risks of one decision", () => {
  test("of an acceptance it is the consumer's, of a rejection the producer's, of neither none", () => {
    const accepted = decide({ value: 9, u: 1 }, upTo10, by("simple"));
    expectNear(accepted.consumerRisk!, 0.15865525393145707, 1e-9);
    expect(accepted.producerRisk).toBeNull();
    const rejected = decide({ value: 11, u: 1 }, upTo10, by("simple"));
    expectNear(rejected.producerRisk!, 0.15865525393145707, 1e-9);
    expect(rejected.consumerRisk).toBeNull();
    const neither = decide({ value: 9, u: 1 }, upTo10, by("guarded both"));
    expect([neither.consumerRisk, neither.producerRisk]).toEqual([null, null]);
  });

  test("at the end of a 1.645 u band the consumer's risk is 5 %", () => {
    const decided = decide({ value: 10 - 1.645, u: 1 }, upTo10, { kind: "guarded acceptance" });
    expect(decided.result).toBe("within");
    expectNear(decided.consumerRisk!, 0.05, 1e-3);
  });

  test("what cannot be lowers no conformity: 0.2 % passing with u = 0.5 cannot be below 0", () => {
    const can = { low: 0, high: 100 };
    const limit = { min: 0, max: 1 };
    const cut = decide({ value: 0.2, u: 0.5, can }, limit, by("simple")).conformity;
    expect(cut).toBeGreaterThan(decide({ value: 0.2, u: 0.5 }, limit, by("simple")).conformity);
    expectNear(cut, (0.945200708300442 - 0.344578258389676) / (1 - 0.344578258389676), 1e-9);
  });
});

const anyValue = fc.double({ min: -20, max: 30, noNaN: true });
const anyU = fc.double({ min: 0, max: 5, noNaN: true });

describe("laws", () => {
  test("a wider band never accepts more and never rejects more", () =>
    fc.assert(
      fc.property(anyValue, anyU, fc.constantFrom(...KINDS), (value, u, kind) => {
        const [narrow, wide] = [0.5, 1].map((r) => decide({ value, u }, from0To10, by(kind, r)));
        if (kind !== "guarded rejection" && wide!.accepted) expect(narrow!.accepted).toBe(true);
        const outside = (result: string) => result === "above" || result === "below";
        if (kind !== "guarded acceptance" && outside(wide!.result)) expect(outside(narrow!.result)).toBe(true);
      }),
    ));

  test("without uncertainty all rules are the simple one", () =>
    fc.assert(
      fc.property(anyValue, (value) => {
        const results = KINDS.map((kind) => decide({ value, u: 0 }, from0To10, by(kind)).result);
        expect(new Set(results).size).toBe(1);
      }),
    ));

  test("a mirrored question has the mirrored answer", () =>
    fc.assert(
      fc.property(anyValue, anyU, fc.constantFrom(...KINDS), (value, u, kind) => {
        const [up, down] = [
          decide({ value, u }, { min: 0, max: null }, by(kind)),
          decide({ value: -value, u }, { min: null, max: 0 }, by(kind)),
        ];
        expect(down.result).toBe(up.result === "below" ? "above" : up.result);
        expectNear(down.conformity, up.conformity, 1e-9, 1e-12);
      }),
    ));
});

describe("risks of a rule over a process", () => {
  const process = { mean: 0, sd: 1 };
  const limit = { min: -2, max: 2 };

  test("accepted and rejected, conforming and not, add to all there is", () => {
    const simple = globalRisks(process, 0.3, limit, limit);
    const guarded = globalRisks(process, 0.3, limit, { min: -1.5, max: 1.5 });
    expectNear(simple.conforming, 0.9544997361036416, 1e-9);
    expect(guarded.consumer).toBeLessThan(simple.consumer);
    expect(guarded.producer).toBeGreaterThan(simple.producer);
    expect(simple.producer).toBeLessThan(simple.conforming);
  });

  test("a nearly exact measurement has nearly no risk", () => {
    const { consumer, producer } = globalRisks(process, 0.001, limit, limit);
    expect(consumer + producer).toBeLessThan(1e-4);
  });

  test("a useless measurement accepts by chance alone", () => {
    const everything = globalRisks(process, 1e-3, limit, { min: null, max: null });
    expectNear(everything.consumer, 1 - everything.conforming, 1e-9);
    expectNear(everything.producer, 0, 0, 1e-12);
  });

  test("one side only: the other never rejects", () => {
    const { consumer, conforming } = globalRisks(process, 0.5, { min: null, max: 0 }, { min: null, max: 0 });
    expectNear(conforming, 0.5, 1e-9);
    // P(true > 0, measured < 0) for a correlation of 1/sqrt(1.25): 1/4 - asin(rho)/(2 pi).
    expectNear(consumer, 0.25 - Math.asin(1 / Math.sqrt(1.25)) / (2 * Math.PI), 1e-7);
  });
});
