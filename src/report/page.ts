import type { Assessment, Notice, Severity } from "../assess.ts";
import type { Product } from "../record/product.ts";
import { drawable } from "../terminal/sanitise.ts";
import { SIGNS } from "../terminal/signs.ts";
import { pageApertures } from "./apertureWords.ts";
import { wrapped } from "./columns.ts";
import { conventions } from "./conventions.ts";
import { massText, pctText } from "./figures.ts";
import { pageTable } from "./pageTable.ts";
import { pageValues } from "./pageValues.ts";
import { sureSection } from "./sureSection.ts";
import { PRODUCT_WORDS, TEST_WORDS } from "./verdictWords.ts";

/** What stands above a result, and how its masses are shown. */
export interface PageHead {
  readonly product: Product | null;
  readonly lot: string;
  readonly line: string;
  /** When and by which program, in words; the last line of the page. */
  readonly printed: string;
  /** Decimals of a mass in g. */
  readonly decimals: number;
}

export interface PageLook {
  /** Columns for text; a table takes what it needs. */
  readonly width: number;
  /** The rows of the curve, drawn; none to leave it out. */
  readonly curve: readonly string[];
}

const SEVERITY: Readonly<Record<Severity, string>> = {
  note: "  note: ",
  warning: "! warning: ",
  invalidates: "! test invalid: ",
};

/** A page worth pinning to a wall: whose result, both verdicts, the fractions, values, how sure they are, curve, notices, conventions. */
export function resultPage(assessment: Assessment, head: PageHead, { width, curve }: PageLook): string {
  const rule = SIGNS.rule.repeat(width);
  const notices = assessment.notices.flatMap((notice) => wrapped(noticeWords(notice), width, "    "));
  const values = pageValues(assessment, head.product, width);
  const told = conventions(assessment, head.product).flatMap((sentence) => wrapped(sentence, width, "  "));
  const parts = [
    [...title(head, width), ...verdicts(assessment, width), rule, ...pageTable(assessment, head.decimals, width)],
    pageApertures(assessment),
    [massBalance(assessment, head.decimals), ...checks(assessment, width)],
    values,
    ...sureSection(assessment, head.product, width),
    curve,
    notices,
    [rule, ...told, head.printed],
  ];
  const filled = parts.filter((lines) => lines.length > 0);
  return `${filled.map((lines) => lines.join("\n")).join("\n\n")}\n`;
}

const noticeWords = ({ severity, text, remedy }: Notice): string =>
  SEVERITY[severity] + (remedy === undefined ? text : `${text}. To do: ${remedy}`);

const STATES = { met: `met ${SIGNS.pass}`, "not met": `NOT MET ${SIGNS.invalid}`, "not done": "not done ?" } as const;

/** The checks of the test itself that were asked for, and the rule set that asked. */
function checks({ procedure }: Assessment, width: number): string[] {
  const asked = procedure.checks.flatMap(({ state, text }) =>
    state === "not asked" ? [] : wrapped(`${STATES[state]}  ${text}`, width, "    "),
  );
  const by = procedure.ruleSet === null ? [] : wrapped(`test checked by ${procedure.ruleSet.title}`, width, "    ");
  return [...by, ...asked];
}

function title({ product, lot, line }: PageHead, width: number): string[] {
  const whose = product ? `${product.code}  ${product.name}  revision ${product.revision}` : "No product";
  const where = [lot === "" ? "" : `lot ${lot}`, line === "" ? "" : `line ${line}`].filter((words) => words !== "");
  return [
    ...wrapped(drawable(whose), width),
    ...wrapped(drawable(where.join("   ")), width).filter((words) => words !== ""),
  ];
}

function verdicts({ verdict }: Assessment, width: number): string[] {
  const why = whyNotJudged(verdict);
  const words = `${TEST_WORDS[verdict.test]}   PRODUCT ${PRODUCT_WORDS[verdict.product]}`;
  return [words, ...(why === null ? [] : wrapped(`  ${why}`, width, "  "))];
}

function whyNotJudged({ test, product, limits }: Assessment["verdict"]): string | null {
  if (product !== "not judged") return null;
  if (limits.length === 0) return "there is nothing to judge against";
  if (test === "invalid") return "an invalid test proves nothing about the product: test again";
  const open = limits.filter((limit) => limit.result === "not determinable").length;
  return `${open} of ${limits.length} limits could not be determined`;
}

function massBalance({ chargeG, washedG, recoveredG, lossG, lossPct }: Assessment, decimals: number): string {
  const recovered = `recovered ${massText(recoveredG, decimals)} g`;
  if (chargeG === null) return `${recovered}   charge not weighed, so no loss is known`;
  const washed = washedG === null ? "" : `washed ${massText(washedG, decimals)} g   `;
  const charge = `charge ${massText(chargeG, decimals)} g   ${washed}${recovered}`;
  if (lossG === null || lossPct === null) return `${charge}   no loss is known`;
  const word = lossG < 0 ? "gain" : "loss";
  return `${charge}   ${word} ${massText(Math.abs(lossG), decimals)} g (${pctText(Math.abs(lossPct), 2)} %)`;
}
