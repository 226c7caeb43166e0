import type { Assessment, JudgedLimit } from "../assess.ts";
import type { LimitResult } from "../envelope/limit.ts";
import type { IndexRow } from "../record/indexRow.ts";
import type { Disposition, ProductVerdict, TestVerdict } from "../record/test.ts";
import { standingText } from "../report/amendmentWords.ts";
import { boundsBeside } from "../series/sizesTogether.ts";
import { type HoldOpened, holdOn } from "../shift/holds.ts";
import { figureWords } from "../shift/trendFigure.ts";
import type { Role } from "../terminal/theme.ts";
import { figure } from "../words/figures.ts";
import { phrase, say } from "../words/say.ts";
import { spoken } from "../words/spoken.ts";
import { type Span, span } from "./line.ts";

const PRODUCT: Record<ProductVerdict, { word: string; role: Role }> = {
  pass: { word: "PASS ✓", role: "pass" },
  fail: { word: "FAIL ✗", role: "fail" },
  borderline: { word: "BORDERLINE ~", role: "borderline" },
  "not judged": { word: "NOT JUDGED –", role: "dim" },
};

const TEST: Record<TestVerdict, { word: string; role: Role }> = {
  valid: { word: "TEST VALID ✓", role: "pass" },
  invalid: { word: "TEST INVALID !", role: "invalid" },
  "not checked": { word: "TEST NOT CHECKED ?", role: "warning" },
};

export const productVerdictSpan = (verdict: ProductVerdict): Span =>
  span(spoken(PRODUCT[verdict].word), PRODUCT[verdict].role);
export const testVerdictSpan = (verdict: TestVerdict): Span => span(spoken(TEST[verdict].word), TEST[verdict].role);

/** Both verdicts, never mixed: first the test, then the product. */
export const verdictSpans = (verdict: Pick<Assessment["verdict"], "test" | "product">): Span[] => [
  testVerdictSpan(verdict.test),
  span("  "),
  productVerdictSpan(verdict.product),
];

/** Fills in nothing, but makes a message of its own: the columns of a list want a word that is short in every language. */
const LISTED = "";

function listedVerdict(verdict: ProductVerdict): Span {
  const { role } = PRODUCT[verdict];
  if (verdict === "pass") return span(say`PASS ✓${LISTED}`, role);
  if (verdict === "fail") return span(say`FAIL ✗${LISTED}`, role);
  return span(verdict === "borderline" ? say`BORDERLINE ~${LISTED}` : say`NOT JUDGED –${LISTED}`, role);
}

/** One word and sign for a list: an invalid test hides what it seems to say of the product. */
export const shortVerdict = (test: TestVerdict, product: ProductVerdict): Span =>
  test === "invalid"
    ? span(say`invalid !`, "invalid")
    : test === "not checked" && product === "pass"
      ? span(say`PASS unproven${LISTED}`, "warning")
      : listedVerdict(product);

/** The verdict of a row in a list: a void test says so and nothing of its product. */
export const rowVerdict = ({ test, verdict, amended }: Pick<IndexRow, "test" | "verdict" | "amended">): Span =>
  amended?.voided ? span(say`VOID ×`, "invalid") : shortVerdict(test, verdict);

/** What became of a row besides being void: "waived", "corrected"; nothing for most. */
export const rowStanding = ({ amended }: Pick<IndexRow, "amended">): string =>
  spoken(standingText(amended && { ...amended, voided: false }));

const SIGN: Record<LimitResult, { sign: string; role: Role }> = {
  within: { sign: "✓", role: "pass" },
  below: { sign: phrase("✗ below"), role: "fail" },
  above: { sign: phrase("✗ above"), role: "fail" },
  borderline: { sign: "~", role: "borderline" },
  "not determinable": { sign: "?", role: "warning" },
};

/** The sign of a judged limit; nothing for what has no limit or no result yet. */
export const signOf = (result: LimitResult | undefined): Span =>
  result ? span(` ${spoken(SIGN[result].sign)}`, SIGN[result].role) : span("");

/** The sign alone, for a narrow column. */
export const shortSignOf = (result: LimitResult | undefined): Span =>
  result ? span(` ${SIGN[result].sign.slice(0, 1)}`, SIGN[result].role) : span("");

/** A limit's bounds beside the figure that they limit, sizes in its unit: "2.9 – 3.15 mm", "≤ 790 um"; others as they are. */
export function limitBeside(limit: Pick<JudgedLimit, "on" | "min" | "max" | "value">): string {
  const { unit } = figureWords(limit.on);
  if (unit !== "um") return limitText(limit);
  const { word, ...shown } = boundsBeside(limit, unit, limit.value);
  return `${limitText(shown)} ${word}`;
}

/** A limit's bounds: "75 – 95", "at least 90", "at most 3.1". */
export function limitText({ min, max }: Pick<JudgedLimit, "min" | "max">): string {
  const [least, most] = [min, max].map((bound) => (bound === null ? null : figure(`${bound}`)));
  if (least && most) return `${least} – ${most}`;
  return least ? `≥ ${least}` : most ? `≤ ${most}` : "";
}

/** What the program itself writes as the reason of a hold; all else a person wrote, and it stays as it is. */
const OWN_REASON = /^(fail|borderline): |^put on hold when it was signed/;

export const holdReasonText = ({ of, reason }: Pick<HoldOpened, "of" | "reason">): string =>
  of !== null && OWN_REASON.test(reason) ? spoken(reason) : reason;

const DONE: Record<Disposition, string> = {
  release: phrase("released"),
  adjust: phrase("adjusted"),
  hold: phrase("on hold"),
  resample: phrase("resampled"),
  rework: phrase("to rework"),
  reject: phrase("rejected"),
};

export const dispositionText = (disposition: Disposition | null): string =>
  disposition ? spoken(DONE[disposition]) : "";

/** What was signed, read with what became of it: "on hold" only while a hold on the lot is open, "held" afterwards. */
export const dispositionNow = (
  holds: readonly HoldOpened[],
  { product, lot, disposition }: { product: string; lot: string; disposition: Disposition | null },
): string =>
  disposition === "hold" && holdOn(holds, product, lot) === null ? say`held` : dispositionText(disposition);
