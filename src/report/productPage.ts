import { type Limit, limitName, limitsOf } from "../envelope/limit.ts";
import { CHARACTERISTIC_VALUES } from "../grading/values/table.ts";
import type { Product } from "../record/product.ts";
import { SAME_HANDS, sameHands } from "../record/productDraft.ts";
import { drawable } from "../terminal/sanitise.ts";
import { SIGNS } from "../terminal/signs.ts";
import { ruleOf } from "../uncertainty/decision/ruleOf.ts";
import { CHOICE_WORDS } from "./apertureWords.ts";
import { inColumns } from "./columns.ts";
import { ruleWords } from "./conventions.ts";
import { apertureText } from "./figures.ts";
import { boundsText } from "./verdictWords.ts";

const SHARES = { passingPct: "passing", retainedPct: "retained on", coarserPct: "coarser than" } as const;

/** One revision of a product as a page of text: stack, method, limits. */
export function productPage(product: Product): string {
  const { code, name, revision, effective, author, approvedBy, reason, stackUm, method = {} } = product;
  const since = effective === undefined ? "" : `, in force from ${effective}`;
  const written = author === undefined ? "" : `, written by ${author}`;
  const approved = approvedBy === undefined ? "" : `, approved by ${approvedBy}`;
  const limits = limitsOf(product).map(limitCells);
  const lines = [
    `${code}  ${name}`,
    `revision ${revision}${since}${written}${approved}`,
    ...(reason === undefined ? [] : [`because: ${reason}`]),
    ...(sameHands(product) ? [`${SIGNS.invalid} ${SAME_HANDS}`] : []),
    "",
    `stack      ${stackUm
      .toSorted((a, b) => b - a)
      .map(apertureText)
      .join(", ")} and pan`,
    ...methodLines(method),
    ...(product.decision === undefined ? [] : [`decision   ${ruleWords(ruleOf(product.decision, undefined))}`]),
    "",
    ...(limits.length > 0 ? inColumns(limits) : ["no limits: tests are assessed, not judged"]),
  ];
  return `${lines.map(drawable).join("\n")}\n`;
}

function methodLines({
  chargeG,
  maxLossPct,
  program,
  basis,
  interpolation,
  apertures,
  emptyMasses,
}: NonNullable<Product["method"]>): string[] {
  return [
    ...(chargeG ? [`charge     ${chargeWords(chargeG)} g`] : []),
    ...(maxLossPct === undefined ? [] : [`loss       max ${maxLossPct} %`]),
    ...(program === undefined ? [] : [`program    ${program}`]),
    ...(emptyMasses === undefined ? [] : [`empties    sieves weighed empty ${emptyMasses}`]),
    ...(basis === undefined ? [] : [`basis      ${basis}`]),
    ...(interpolation === undefined ? [] : [`curve      ${interpolation}`]),
    ...(apertures === undefined ? [] : [`drawn over ${CHOICE_WORDS[apertures]}`]),
  ];
}

function chargeWords({ min, target, max }: NonNullable<NonNullable<Product["method"]>["chargeG"]>): string {
  const bounds = boundsText({ min: min ?? null, max: max ?? null }, String);
  if (target === undefined) return bounds;
  return bounds === "" ? `${target}` : `${target} (${bounds})`;
}

function limitCells({ decision, ...limit }: Limit): string[] {
  const own = decision === undefined ? "" : `  ${ruleWords(ruleOf(undefined, decision))}`;
  const [name, bounds] = boundCells(limit);
  return [name, bounds + own];
}

function boundCells({ on, min, max }: Limit): [string, string] {
  if (on.kind === "value") {
    const found = CHARACTERISTIC_VALUES.find(({ id }) => id === on.id);
    const show = found?.unit === "um" ? apertureText : String;
    return [found?.label ?? limitName(on), boundsText({ min, max }, show)];
  }
  if (on.kind === "percentileUm") return [`d${on.passingPct}`, boundsText({ min, max }, apertureText)];
  return [`${SHARES[on.kind]} ${apertureText(on.apertureUm)}`, boundsText({ min, max }, (pct) => `${pct} %`)];
}
