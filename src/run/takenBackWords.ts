import type { Entered, TrailItem } from "../record/test.ts";
import { apertureText } from "../series/apertureText.ts";

const NAMES: Record<Entered, string> = {
  product: "the product",
  lot: "the lot",
  line: "the line",
  samplingPoint: "the sampling point",
  remark: "the remark",
  set: "the set of sieves",
  serial: "the sieve",
  moistG: "the moist mass",
  dryG: "the dry mass",
  chargeG: "the charge",
  washedG: "the washed mass",
  emptyG: "empty",
  fullG: "full",
  shaking: "shaking",
  ran: "what ran otherwise",
  portion: "portion",
  checkMinute: "the check minute",
  disposition: "what becomes of the product",
};

const shown = ({ field }: TrailItem, content: TrailItem["to"]): string =>
  field.endsWith("G") ? `${content} g` : `${content}`;

/** What an entry just taken back was, and what stands in its place again: "taken back: 1.40 mm full, 418.02 g". */
export function takenBackWords(item: TrailItem): string {
  const { field, apertureUm, from, to } = item;
  const where = apertureUm === undefined ? "" : `${apertureUm === 0 ? "the pan" : apertureText(apertureUm)} `;
  const what = to === null || to === "" ? "nothing" : shown(item, to);
  const again = from === null || from === "" || from === to ? "" : `; ${shown(item, from)} stands again`;
  return `taken back: ${where}${NAMES[field]}, ${what}${again}`;
}
