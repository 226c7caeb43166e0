import type { JudgedLimit, LimitResult } from "../envelope/limit.ts";
import type { ProductVerdict, TestVerdict } from "../record/test.ts";
import { SIGNS } from "../terminal/signs.ts";

/** A state is told by a word and a sign, never by colour alone. */
export const TEST_WORDS: Readonly<Record<TestVerdict, string>> = {
  valid: `TEST VALID ${SIGNS.pass}`,
  invalid: `TEST INVALID ${SIGNS.invalid}`,
  "not checked": "TEST NOT CHECKED ?",
};

export const PRODUCT_WORDS: Readonly<Record<ProductVerdict, string>> = {
  pass: `PASS ${SIGNS.pass}`,
  fail: `FAIL ${SIGNS.fail}`,
  borderline: `BORDERLINE ${SIGNS.borderline}`,
  "not judged": `NOT JUDGED ${SIGNS.none}`,
};

export const RESULT_WORDS: Readonly<Record<LimitResult, string>> = {
  within: `within ${SIGNS.pass}`,
  below: `below ${SIGNS.fail}`,
  above: `above ${SIGNS.fail}`,
  borderline: `borderline ${SIGNS.borderline}`,
  "not determinable": "not determinable ?",
};

/** Both bounds, or the one there is, as `show` writes numbers: "75 – 95", "min 90", "max 3.1". */
export function boundsText({ min, max }: Pick<JudgedLimit, "min" | "max">, show: (bound: number) => string): string {
  if (min !== null && max !== null) return `${show(min)} ${SIGNS.none} ${show(max)}`;
  if (min !== null) return `min ${show(min)}`;
  return max === null ? "" : `max ${show(max)}`;
}
