import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { decimalsIn, meantBy, SLIPS, type Slip } from "../../../src/procedure/loss/mistypes.ts";

const slipTo = (typedG: number, meantG: number, decimals = 2): Slip | undefined =>
  meantBy(typedG, decimals).find((m) => m.meantG === meantG)?.slip;

/** Masses as a balance of two decimals shows them, without leading zeros. */
const anyMassText = fc.integer({ min: 1, max: 499_999 }).map((hundredths) => (hundredths / 100).toFixed(2));
const digitPlaces = (text: string): number[] => [...text].flatMap((sign, i) => (sign === "." ? [] : [i]));
const put = (text: string, at: number, sign: string): string => text.slice(0, at) + sign + text.slice(at + 1);
const anyShare = fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true });
const pick = <T>(list: readonly T[], share: number): T => list[Math.floor(share * list.length)]!;

describe("one typed number and what was meant", () => {
  test.each([
    [512.4, 521.4, "two digits swapped"],
    [251.4, 521.4, "two digits swapped"],
    [524.1, 521.4, "two digits swapped"],
    [50.12, 501.2, "the decimal point misplaced"],
    [412.05, 412.5, "two digits swapped"],
    [12.3, 102.3, "two digits swapped"],
    [621.4, 521.4, "one digit wrong"],
    [531.4, 521.4, "one digit wrong"],
    [522.4, 521.4, "one digit wrong"],
    [521.9, 521.4, "one digit wrong"],
    [52.4, 521.4, "a digit left out"],
    [21.4, 521.4, "a digit left out"],
    [521.43, 521.4, "one digit wrong"],
    [412.1, 412.31, "a digit left out"],
    [412, 412.03, "one digit wrong"],
    [2.31, 402.31, "a digit left out"],
    [5521.4, 521.4, "a digit typed twice"],
    [5221.4, 521.4, "a digit typed twice"],
    [521.44, 521.4, "one digit wrong"],
    [1012.31, 912.31, "a wrong hundred, ten or one"],
    [500, 499, "a wrong hundred, ten or one"],
    [5214, 521.4, "the decimal point misplaced"],
    [52.14, 521.4, "the decimal point misplaced"],
    [5.214, 521.4, "the decimal point misplaced"],
    [125.4, 521.4, "two digits apart swapped"],
  ])("%d typed for %d: %s", (typedG, meantG, slip) => expect(slipTo(typedG, meantG, 3)).toBe(slip));

  test("is never explained by two slips at once", () => {
    expect(slipTo(512.4, 621.4)).toBeUndefined();
    expect(slipTo(521.4, 634.4)).toBeUndefined();
    expect(slipTo(5, 521.4)).toBeUndefined();
  });

  test("never means itself, nothing below 0, nothing twice, nothing finer than the balance reads", () =>
    fc.assert(
      fc.property(anyMassText, (text) => {
        const meant = meantBy(Number(text), 2).map((m) => m.meantG);
        expect(meant).not.toContain(Number(text));
        expect(Math.min(...meant)).toBeGreaterThanOrEqual(0);
        expect(new Set(meant).size).toBe(meant.length);
        expect(Math.max(...meant.map(decimalsIn))).toBeLessThanOrEqual(2);
      }),
    ));

  test("of 0 is a number that lost its only digit, or was 0 by a slip", () => {
    expect(slipTo(0, 5)).toBe("one digit wrong");
    expect(slipTo(0, 100)).toBe("a digit left out");
  });
});

describe("every slip is found back", () => {
  test("two neighbouring digits swapped", () =>
    fc.assert(
      fc.property(anyMassText, anyShare, (text, share) => {
        const places = digitPlaces(text);
        const i = Math.floor(share * (places.length - 1));
        const [left, right] = [places[i]!, places[i + 1]!];
        const typed = put(put(text, left, text[right]!), right, text[left]!);
        fc.pre(Number(typed) !== Number(text));
        expect(slipTo(Number(typed), Number(text))).toBe("two digits swapped");
      }),
    ));

  test("any two digits swapped", () =>
    fc.assert(
      fc.property(anyMassText, anyShare, anyShare, (text, a, b) => {
        const places = digitPlaces(text);
        const [left, right] = [pick(places, a), pick(places, b)];
        const typed = put(put(text, left, text[right]!), right, text[left]!);
        fc.pre(Number(typed) !== Number(text));
        expect(slipTo(Number(typed), Number(text))).toBeDefined();
      }),
    ));

  test("a digit left out", () =>
    fc.assert(
      fc.property(anyMassText, anyShare, (text, share) => {
        const at = pick(digitPlaces(text), share);
        const typed = text.slice(0, at) + text.slice(at + 1);
        fc.pre(typed !== "" && typed !== "." && Number(typed) !== Number(text));
        expect(slipTo(Number(typed), Number(text))).toBeDefined();
      }),
    ));

  test("a digit typed twice", () =>
    fc.assert(
      fc.property(anyMassText, anyShare, (text, share) => {
        const at = pick(digitPlaces(text), share);
        const typed = text.slice(0, at) + text[at] + text.slice(at);
        fc.pre(Number(typed) !== Number(text));
        expect(slipTo(Number(typed), Number(text), decimalsIn(Number(typed)))).toBeDefined();
      }),
    ));

  test("one digit wrong", () =>
    fc.assert(
      fc.property(anyMassText, anyShare, fc.integer({ min: 0, max: 9 }), (text, share, digit) => {
        const typed = put(text, pick(digitPlaces(text), share), `${digit}`);
        fc.pre(Number(typed) !== Number(text));
        expect(slipTo(Number(typed), Number(text))).toBeDefined();
      }),
    ));

  test("a wrong hundred, ten or one, with a carry as well", () =>
    fc.assert(
      fc.property(anyMassText, fc.constantFrom(100, 10, 1, -100, -10, -1), (text, by) => {
        const typedG = Number((Number(text) + by).toFixed(2));
        fc.pre(typedG >= 0);
        expect(slipTo(typedG, Number(text))).toBeDefined();
      }),
    ));
});

describe("decimals of a mass as typed", () => {
  test.each([
    [412, 0],
    [412.3, 1],
    [0.05, 2],
    [1e7, 0],
    [0.000001, 6],
  ])("%d has %d", (massG, decimals) => expect(decimalsIn(massG)).toBe(decimals));

  test("the slips are named once each", () => expect(new Set(SLIPS).size).toBe(SLIPS.length));
});
