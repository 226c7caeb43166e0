import type { JudgedLimit } from "../envelope/limit.ts";
import { roundHalfAway, significant } from "../grading/rounding.ts";
import type { Disposition, ProductVerdict, TestVerdict } from "../record/test.ts";
import { boundsBeside, unitBeside } from "../series/sizesTogether.ts";
import { figureWords } from "./trendFigure.ts";

/** Who decides on a lot that a test put on hold, until somebody is named. */
export const USUAL_OWNER = "quality";

/** Digits beyond the usual ones, at most. */
const MOST_MORE = 6;

/** A missed figure: a percentage with two decimals, all else with three digits, and more where it would read as its bound. */
function figureBeside(value: number, bound: number | null, unit: string): number {
  const shown = (more: number) => Number(unit === "%" ? roundHalfAway(value, 2 + more) : significant(value, 3 + more));
  let more = 0;
  while (more < MOST_MORE && shown(more) === bound) more += 1;
  return shown(more);
}

function missed({ on, value, min, max, result }: JudgedLimit): string | null {
  if (value === null) return null;
  const { label, unit } = figureWords(on);
  const bounds = boundsBeside({ min, max }, unit, value);
  const per = unit === "um" ? unitBeside(value).um : 1;
  const bound = result === "below" ? bounds.min : result === "above" ? bounds.max : null;
  const withUnit = (figure: number) => [`${figure}`, bounds.word].filter((word) => word !== "").join(" ");
  const found = `${label} ${withUnit(figureBeside(value / per, bound, unit))}`;
  if (bound !== null) return `${found} is ${result} ${withUnit(bound)}`;
  return result === "borderline" ? `${found} is borderline` : null;
}

interface Ended {
  readonly test: TestVerdict;
  readonly product: ProductVerdict;
  readonly limits: readonly JudgedLimit[];
  readonly disposition: Disposition | null;
}

/**
 * Why a test puts its lot on hold, in words; null when it doesn't. A valid test that fails or is borderline does, unless
 * the lot is rejected at once, and so does whoever chooses "hold".
 *
 * @source common practice, no source: a result out of limits keeps the lot back until somebody responsible decides
 */
export function holdReason({ test, product, limits, disposition }: Ended): string | null {
  if (disposition === "reject") return null;
  const out = test !== "invalid" && (product === "fail" || product === "borderline");
  if (!out) return disposition === "hold" ? `put on hold when it was signed (product ${product})` : null;
  const words = limits.map(missed).filter((word) => word !== null);
  return `${product}: ${words.slice(0, 4).join("; ")}${words.length > 4 ? ` and ${words.length - 4} more` : ""}`;
}

/**
 * Why a test can't release its product; null when it can. An invalid test that nobody waived proves nothing; what failed or
 * is borderline is released by closing the hold of its lot, by whoever may. So is a lot that is on hold, whatever a later
 * test of it says.
 */
export function releaseRefusal(
  { test, product, disposition }: Omit<Ended, "limits">,
  waived = false,
  held: { readonly number: number } | null = null,
): string | null {
  if (disposition !== "release") return null;
  if (test === "invalid" && !waived) return "this test is invalid and proves nothing: release is not possible on it";
  if (held !== null) return `this lot is on hold by no. ${held.number}: no test releases it; quality closes the hold`;
  if (product !== "fail" && product !== "borderline") return null;
  const result = product === "fail" ? "a fail" : "a borderline result";
  return `${result} is not released by its test: hold it; quality closes the hold of the lot`;
}
