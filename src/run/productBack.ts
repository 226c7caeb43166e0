import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import type { Draft } from "../record/draft.ts";
import { standing, type TrailItem } from "../record/test.ts";
import { type Setting, setOutFields } from "./run.ts";
import { withProduct } from "./start.ts";

/** What was accepted on the set-out page and still stands, put into its fields again. */
function withAccepted(draft: Draft): Draft {
  const fields = setOutFields(draft.product).filter((field) => field !== "product");
  const entries = standing(draft.trail);
  const words = fields.flatMap((field) => {
    const item = entries.findLast((entry) => entry.field === field);
    return item ? [[field, item.to] as const] : [];
  });
  return { ...draft, ...Object.fromEntries(words) };
}

/**
 * The draft with the product that stood before its latest one was accepted, after that entry has been taken back.
 *
 * @param named code and revision as the trail has them; null where no other product stood there
 * @returns refused where the library has it no longer
 */
export function productBack(draft: Draft, named: TrailItem["from"], setting: Setting): Outcome<Draft> {
  const { code, revision } = draft.product;
  if (named === null || named === `${code} rev ${revision}`) return accepted(draft);
  const former = setting.products.find((product) => `${product.code} rev ${product.revision}` === named);
  if (!former) return refused(`${named} is not in the library any more: choose the product anew`);
  return accepted(withAccepted(withProduct(draft, former, setting)));
}
