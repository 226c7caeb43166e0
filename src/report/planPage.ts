import type { ProductPlan } from "../assess/productPlan.ts";
import { drawable } from "../terminal/sanitise.ts";
import { SIGNS } from "../terminal/signs.ts";
import type { PlanLine } from "../uncertainty/planning/planLine.ts";
import { inColumns, wrapped } from "./columns.ts";
import { boundsCell, limitLabel, typicalText, uncertaintyText, verdictCell } from "./planFigures.ts";
import { cautions, chargeWords, fromWords, guardWords, limitWords, type PlanFrom, planWords } from "./planWords.ts";

const CONVENTIONS = [
  "The charge named is the least with which the typical result lies inside by its guard band, rounded up; a result nearer " +
    "to its limit takes more. +/- is two standard uncertainties with the charge in question.",
  "A charge sieved in portions is one charge: what each portion leaves on a sieve is added up.",
];

const indented = (text: string, width: number): string[] => wrapped(`  ${text}`, width, "    ");

function tableOf(told: ProductPlan): string[] {
  const head = ["  limit", "", "typical", "+/-", "with how much"];
  const rows = told.plan.lines.map((line) => [
    `  ${limitLabel(told, line.name)}`,
    boundsCell(line),
    typicalText(line),
    uncertaintyText(line),
    verdictCell(line, told),
  ]);
  return inColumns([head, ...rows]);
}

/** What the table alone does not tell. */
const isToTell = (line: PlanLine): boolean =>
  !line.planned || line.verdict !== "decidable" || (line.crossTest?.tooNarrow ?? false);

/** What is included in the uncertainty and what is not, a line each. */
export const componentLines = ({ plan }: ProductPlan): readonly string[] =>
  plan.components.map((part) =>
    part.included ? `${part.label}: ${part.told}` : `${part.label}: not included, ${part.reason}`,
  );

/** A page on what it takes to judge the limits of a product. */
export function planPage(told: ProductPlan, from: PlanFrom, width: number): string {
  const { product, plan } = told;
  const head = [`plan of ${product.code} revision ${product.revision}  ${product.name}`];
  const basis = [
    ...indented(fromWords(from), width),
    ...indented(guardWords(plan), width),
    ...indented(chargeWords(told), width),
  ];
  const words = plan.lines.filter(isToTell).flatMap((line) => {
    const [first = "", ...more] = limitWords(line, told);
    return [...indented(first, width), ...more.flatMap((text) => wrapped(`    ${text}`, width, "    "))];
  });
  const parts = [
    head,
    planWords(told).flatMap((text) => wrapped(text, width, "  ")),
    basis,
    plan.lines.length === 0 ? [] : tableOf(told),
    words,
    plan.lines.length === 0
      ? []
      : ["what the uncertainty is made up of", ...componentLines(told).flatMap((text) => indented(text, width))],
    [SIGNS.rule.repeat(width), ...[...CONVENTIONS, ...cautions(plan)].flatMap((text) => wrapped(text, width, "  "))],
  ];
  const filled = parts.filter((lines) => lines.length > 0);
  return `${filled.map((lines) => lines.map(drawable).join("\n")).join("\n\n")}\n`;
}
