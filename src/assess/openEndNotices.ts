import type { Grading, GradingChoices } from "../grading/grading.ts";
import { openEndWarnings, panEnd, topEnd } from "../grading/openEnds.ts";
import type { Determination } from "../record/determination.ts";
import type { Product } from "../record/product.ts";
import { VALUE_IDS, type ValueId } from "../record/valueIds.ts";
import type { Notice } from "./assessment.ts";

interface Found {
  readonly choices: GradingChoices;
  readonly values: Readonly<Record<ValueId, Determination>>;
}

const asksFor = ({ show, values }: Product, id: ValueId): boolean =>
  (show ?? []).includes(id) || (values ?? []).some((wish) => wish.id === id);

/** Values that rest on an assumed top or bottom of more than a little: said wherever somebody looks at such values. */
export function openEndNotices(grading: Grading, product: Product | null, { choices, values }: Found): Notice[] {
  const asked = product === null ? VALUE_IDS : VALUE_IDS.filter((id) => asksFor(product, id));
  const assumed = [topEnd(grading, choices), panEnd(grading, choices)].flatMap((end) =>
    end.ok && "assumption" in end.value && end.value.assumption !== null ? [end.value.assumption] : [],
  );
  const resting = asked.some((id) => {
    const found = values[id];
    return found.determinable && (found.assumptions ?? []).some((text) => assumed.includes(text));
  });
  if (!resting) return [];
  const severity = product === null ? "note" : "warning";
  return openEndWarnings(grading, choices).map((text) => ({ id: "open-end", severity, text }));
}
