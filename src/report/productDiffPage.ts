import { productDiff } from "../envelope/revisions/productDiff.ts";
import type { ProductContent } from "../record/productDraft.ts";
import { drawable, printedJson } from "../terminal/sanitise.ts";

/** One side of a comparison, and what it is called. */
export interface DiffSide {
  readonly content: ProductContent;
  /** "TH-0510 revision 3", "TH-0510 draft of revision 4", or the name of a file. */
  readonly name: string;
}

/** What changed from one revision to another as a page of text. */
export function productDiffPage(before: DiffSide, after: DiffSide): string {
  const changes = productDiff(before.content, after.content);
  const told = changes.length === 0 ? ["nothing is changed"] : changes.map(({ words }) => words);
  return `${[`${before.name} -> ${after.name}`, ...told.map((words) => `  ${words}`)].map(drawable).join("\n")}\n`;
}

/** The same for other programs: each change with the field of the product file that it is in. */
export const productDiffJson = (before: DiffSide, after: DiffSide): string =>
  `${printedJson({ before: before.name, after: after.name, changes: productDiff(before.content, after.content).map(({ field, words }) => ({ field, words })) })}\n`;
