import type { Assessment } from "../assess.ts";
import type { Product } from "../record/product.ts";
import { wrapped } from "./columns.ts";
import { shownIds } from "./shown.ts";
import { budgetTable, chanceExplained, chanceTable, drawsWords, includedWords, notIncludedWords } from "./sureTable.ts";
import { decidesWords } from "./sureWords.ts";

/** Numbers besides what passes the sieves that are limited. */
export const limitedNames = ({ verdict }: Pick<Assessment, "verdict">): readonly string[] => [
  ...new Set(verdict.limits.map(({ on }) => on).filter((on) => !on.startsWith("passingPct@"))),
];

/** Numbers besides the sieves of which a page tells the budget: those limited, then those shown. */
export const budgetNames = (assessment: Pick<Assessment, "verdict">, product: Product | null): readonly string[] => [
  ...new Set([...limitedNames(assessment), ...shownIds(product)]),
];

/** How sure the result is, for a page: what decides, each limit's chances, the budget by component, what is not in it. */
export function sureSection(assessment: Assessment, product: Product | null, width: number): string[][] {
  const { howSure } = assessment;
  const chances = chanceTable(howSure);
  const decides = decidesWords(howSure).flatMap((text) => wrapped(text, width, "  "));
  return [
    [...decides, ...drawsWords(howSure, width)],
    chances.length === 0 ? [] : [...chances, ...chanceExplained(width, howSure)],
    [
      "standard uncertainty (k = 1) by component, % passing or the unit of the value",
      ...budgetTable(howSure, budgetNames(assessment, product), width),
      ...[includedWords(howSure), ...notIncludedWords(howSure)]
        .filter((text) => text !== "")
        .flatMap((text) => wrapped(text, width, "  ")),
    ],
  ];
}
