import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Evaluation, EvaluationSchema, PERCENTILES } from "../../src/record/evaluation.ts";
import { VALUE_IDS } from "../../src/record/valueIds.ts";

const none = { determinable: false, reason: "too few sieves" };
const found = (value: number, unit: string) => ({ determinable: true, value, unit });
const report = { rule: "least-squares", r2: 0.99, rmsPct: 1.2, pointsUsed: 4, used: { fromUm: 63, toUm: 500 } };
const fraction = { emptyG: null, fullG: null, netG: 5, retainedPct: 50, coarserPct: 50, passingPct: 50 };

/** A result as the contract of the command line writes it down, field by field. */
const result = {
  schema: "sievewright.evaluation/1",
  basis: "recovered",
  interpolation: "log-linear",
  chargeG: null,
  recoveredG: 10,
  lossG: null,
  lossPct: null,
  fractions: [
    { apertureUm: 63, ...fraction },
    { pan: true, apertureUm: 0, ...fraction, coarserPct: 100, passingPct: 0 },
  ],
  percentilesUm: Object.fromEntries(PERCENTILES.map((passing) => [passing, found(500, "um")])),
  values: Object.fromEntries(VALUE_IDS.map((id) => [id, none])),
  models: {
    rosinRammler: {
      determinable: true,
      sizeUm: 742,
      spread: 3.5,
      standardErrors: { sizeUm: 4, spread: 0.1 },
      ...report,
    },
    gatesGaudinSchuhmann: none,
    logNormal: {
      determinable: true,
      medianUm: 700,
      geometricStandardDeviation: 1.4,
      standardErrors: { medianUm: 3, geometricStandardDeviation: 0.01 },
      ...report,
    },
  },
  verdict: {
    test: "valid",
    product: "borderline",
    limits: [
      { on: "passingPct@63", value: 50, min: null, max: 50, result: "borderline", reason: "read from the curve" },
    ],
  },
  notices: [
    { id: "product-unknown", severity: "warning", text: "not judged" },
    {
      id: "loss-high",
      severity: "invalidates",
      text: "lost 3 %",
      found: "3 %",
      limit: null,
      rule: "r",
      source: "s",
      remedy: "do",
    },
  ],
  procedure: {
    ruleSet: { id: "own", title: "Own rules" },
    checks: [{ check: "loss", state: "not met", required: true, text: "loss 9 g (3 %)" }],
    rules: [{ rule: "loss", text: "at most 0.3 %", standing: "own", source: "the product" }],
  },
};

const accepts = (json: unknown) => EvaluationSchema.safeParse(json).success;

/** Every place of a JSON value: the owner, the name or position in it. */
function places(json: unknown, path: readonly (string | number)[] = []): (readonly (string | number)[])[] {
  if (typeof json !== "object" || json === null) return [path];
  const inner = Object.entries(json).flatMap(([key, each]) =>
    places(each, [...path, Array.isArray(json) ? Number(key) : key]),
  );
  return [path, ...inner];
}

/** A copy with one place changed; undefined takes it away. */
function changed(json: unknown, path: readonly (string | number)[], instead: unknown): unknown {
  const [step, ...rest] = path;
  if (step === undefined) return instead;
  const copy = structuredClone(json) as Record<string | number, unknown>;
  const next = changed(copy[step], rest, instead);
  if (next === undefined) delete copy[step];
  else copy[step] = next;
  return copy;
}

const OPTIONAL = /limits\.\d\.reason$|notices\.1\.(found|limit|rule|source|remedy)$/;
const named = places(result).filter((path) => path.length > 0 && typeof path.at(-1) === "string");
const owners = places(result).filter((path) => {
  const here = path.reduce<unknown>((json, step) => (json as Record<string | number, unknown>)[step], result);
  return typeof here === "object" && here !== null && !Array.isArray(here);
});

describe("a result of evaluate --json", () => {
  test("as the contract writes it is accepted, and nothing in it is changed", () =>
    expect(EvaluationSchema.parse(result)).toEqual(result));

  test.each(named.filter((path) => !OPTIONAL.test(path.join("."))).map((path) => [path.join("."), path] as const))(
    "lacking %s is refused",
    (_, path) => expect(accepts(changed(result, path, undefined))).toBe(false),
  );

  test.each(owners.map((path) => [path.join(".") || "the whole", path] as const))(
    "with a stranger in %s is refused",
    (_, path) => expect(accepts(changed(result, [...path, "stranger"], 1))).toBe(false),
  );

  test("is refused with NaN, infinity or text for any of its numbers", () =>
    fc.assert(
      fc.property(
        fc.constantFrom(
          ...places(result).filter(
            (path) =>
              typeof path.reduce<unknown>((json, step) => (json as Record<string | number, unknown>)[step], result) ===
              "number",
          ),
        ),
        fc.constantFrom(Number.NaN, Number.POSITIVE_INFINITY, "5", true, {}),
        (path, instead) => {
          expect(accepts(changed(result, path, instead))).toBe(false);
        },
      ),
      { numRuns: 300 },
    ));
});

describe("the fixed words", () => {
  test.each([
    [["basis"], "dry"],
    [["interpolation"], "cubic"],
    [["verdict", "test"], "pass"],
    [["verdict", "product"], "valid"],
    [["verdict", "limits", 0, "result"], "inside"],
    [["notices", 0, "severity"], "error"],
    [["schema"], "sievewright.evaluation/2"],
    [["models", "logNormal", "rule"], "by eye"],
  ])("%j is never %j", (path, word) => expect(accepts(changed(result, path, word))).toBe(false));

  test("percentiles are those of the contract, no more and no less", () => {
    expect(Object.keys(EvaluationSchema.parse(result).percentilesUm)).toEqual([
      "5",
      "10",
      "16",
      "25",
      "30",
      "50",
      "60",
      "75",
      "80",
      "84",
      "90",
      "95",
    ]);
    expect(accepts(changed(result, ["percentilesUm", "40"], none))).toBe(false);
  });

  test("every value id of the contract is there", () => {
    const values: Evaluation["values"] = EvaluationSchema.parse(result).values;
    expect(Object.keys(values)).toEqual([...VALUE_IDS]);
    expect(accepts(changed(result, ["values", "d50"], none))).toBe(false);
  });
});

describe("the pan", () => {
  test("has aperture 0 and says so", () => {
    expect(accepts(changed(result, ["fractions", 1, "apertureUm"], 63))).toBe(false);
    expect(accepts(changed(result, ["fractions", 0, "apertureUm"], 0))).toBe(false);
    expect(accepts(changed(result, ["fractions", 1, "pan"], false))).toBe(false);
  });

  test("a number that can't be determined has a reason and no value", () => {
    const at = ["values", "finenessModulus"];
    expect(accepts(changed(result, at, { ...none, value: 2.2 }))).toBe(false);
    expect(accepts(changed(result, at, { determinable: false }))).toBe(false);
    expect(accepts(changed(result, at, { ...found(2.2, "1"), assumptions: ["summed over the EN series"] }))).toBe(true);
    expect(accepts(changed(result, at, { determinable: true, value: 2.2 }))).toBe(false);
  });
});
