import type { Assessment } from "../assess.ts";
import type { JudgedLimit } from "../envelope/limit.ts";
import type { Product } from "../record/product.ts";
import { inUnit, unitBeside } from "../series/sizesTogether.ts";
import { besideLimit } from "./besideLimit.ts";
import { inColumns, wrapped } from "./columns.ts";
import { apertureText, pctText, valueText } from "./figures.ts";
import { limitWords } from "./pageTable.ts";
import { type ShownValue, shownIds, shownValues } from "./shown.ts";
import { sureOn, sureText } from "./sureFigures.ts";

const SHARES: Readonly<Record<string, string>> = {
  passingPct: "passing",
  retainedPct: "retained on",
  coarserPct: "coarser than",
};
const INDENT = "    ";

/** A row and what is to be said below it. */
interface Row {
  readonly cells: readonly string[];
  readonly told: string;
}

/**
 * The values that the product's people want, in their order, then every limit that has no place beside the table. Below
 * a row stands what its number rests on, or why there is none.
 */
export function pageValues(assessment: Assessment, product: Product | null, width: number): string[] {
  const inTable = (on: string) => assessment.fractions.some((f) => on === `passingPct@${f.apertureUm}`);
  const limits = assessment.verdict.limits.filter((limit) => !inTable(limit.on));
  const onShare = limits.filter((limit) => shareOf(limit) !== undefined);
  const sure = (name: string) => sureText(sureOn(assessment.howSure, name));
  const rows = [
    ...onShare.map((limit) => shareRow(limit, sure(limit.on))),
    ...valuesShown(assessment, product, limits).map((shown) => valueRow(shown, sure(shown.id))),
  ];
  return inColumns(rows.map((row) => row.cells)).flatMap((line, i) => {
    const told = rows[i]?.told ?? "";
    return told === "" ? [line] : [line, ...wrapped(INDENT + told, width, INDENT)];
  });
}

const shareOf = (limit: JudgedLimit) => SHARES[limit.on.split("@")[0] ?? ""];

function valuesShown(
  assessment: Assessment,
  product: Product | null,
  limits: readonly JudgedLimit[],
): readonly ShownValue[] {
  const limited = limits.filter((limit) => shareOf(limit) === undefined).map((limit) => limit.on);
  const ids = [...new Set([...shownIds(product), ...limited])];
  return shownValues(assessment, product && { ...product, show: ids });
}

function shareRow(limit: JudgedLimit, sure: string): Row {
  const figure =
    limit.value === null ? "" : `${besideLimit(limit.value, limit, (pct, more) => pctText(pct, 2 + more))} %`;
  const label = `${shareOf(limit)} ${apertureText(Number(limit.on.split("@")[1]))}`;
  return {
    cells: [label, figure, limit.value === null ? "" : sure, limitWords(limit, (bound) => `${bound} %`)],
    told: limit.reason ?? "",
  };
}

/** A bound in the unit of the figure beside it, where that is a size. */
function boundOf({ id, found }: ShownValue): (bound: number) => string {
  if (!/Um(@|$)/.test(id)) return String;
  if (!found.determinable) return apertureText;
  const unit = unitBeside(found.value);
  return (bound) => `${inUnit(bound, unit)} ${unit.word}`;
}

function valueRow(shown: ShownValue, sure: string): Row {
  const { label, found, limit } = shown;
  const figure = found.determinable
    ? besideLimit(found.value, limit, (value, more) => valueText({ ...found, value }, more))
    : valueText(found);
  const told = found.determinable ? (found.assumptions ?? []).join("; ") : found.reason;
  return {
    cells: [label, figure, found.determinable ? sure : "", limit ? limitWords(limit, boundOf(shown)) : ""],
    told,
  };
}
