import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { plainJson, Unstorable } from "../../src/store/plainJson.ts";

const wordsOf = (content: unknown): string => {
  try {
    plainJson(content);
    return "written";
  } catch (fault) {
    expect(fault).toBeInstanceOf(Unstorable);
    return (fault as Error).message;
  }
};

const hasMinusZero = (content: unknown): boolean =>
  typeof content === "object" && content !== null ? Object.values(content).some(hasMinusZero) : Object.is(content, -0);

describe("what goes to disk", () => {
  test("comes back the same, whatever JSON it is", () =>
    fc.assert(
      fc.property(fc.jsonValue(), (content) => {
        fc.pre(!hasMinusZero(content));
        expect(JSON.parse(plainJson(content))).toEqual(content);
      }),
    ));

  test("is refused however deep the one bad figure lies, by its place", () =>
    fc.assert(
      fc.property(
        fc.array(fc.stringMatching(/^[a-z]{1,5}$/), { minLength: 1, maxLength: 8 }),
        fc.constantFrom(Number.NaN, Number.NEGATIVE_INFINITY, -0, undefined),
        (names, bad) => {
          const content = names.reduceRight<unknown>((inside, name) => ({ before: 1, [name]: inside }), bad);
          expect(wordsOf(content)).toMatch(new RegExp(`^${names.join("\\.")} is `));
        },
      ),
    ));

  test.each([
    [{ chargeG: Number.NaN }, "chargeG is NaN"],
    [{ weighings: [{ fullG: 1 }, { fullG: Number.POSITIVE_INFINITY }] }, "weighings[1].fullG is Infinity"],
    [{ trail: [{ to: -0 }] }, "trail[0].to is -0"],
    [{ program: undefined }, "program is undefined"],
    [[1, undefined], "[1] is undefined"],
    [new Array(1), "[0] is undefined"],
    [{ startedAt: new Date(0) }, "startedAt is object"],
    [{ by: new Map() }, "by is object"],
    [{ toJSON: () => 1 }, "toJSON is function"],
    [{ number: 1n }, "number is bigint"],
    [undefined, "the whole is undefined"],
  ])("%o is refused by its place: %s", (content, words) =>
    expect(wordsOf(content)).toBe(`${words}, which a file can't keep. Correct that entry`),
  );

  test("is indented for people unless told otherwise", () => {
    expect(plainJson({ a: [1] })).toBe('{\n  "a": [\n    1\n  ]\n}');
    expect(plainJson({ a: [1] }, 0)).toBe('{"a":[1]}');
  });
});
