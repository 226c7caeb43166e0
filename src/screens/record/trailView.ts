import type { TrailItem } from "../../record/test.ts";
import { apertureText } from "../../report/figures.ts";
import { type Line, line } from "../line.ts";
import type { Size } from "../place.ts";

const WHAT: Record<TrailItem["field"], string> = {
  product: "product",
  lot: "lot",
  line: "line",
  samplingPoint: "sampling point",
  moistG: "moist mass",
  dryG: "dry mass",
  chargeG: "charge",
  washedG: "dry mass after washing",
  emptyG: "empty",
  fullG: "full",
  shaking: "shaking",
  ran: "shaker ran",
  portion: "portion",
  checkMinute: "check minute",
  remark: "remark",
  disposition: "disposition",
};

const shown = (entered: string | number | null) => (entered === null ? "nothing" : `${entered}`);

/** One accepted entry in a line: when, what, what stood there before if it was changed, and any warning seen. */
export function trailLine(item: TrailItem): string {
  const sieve = item.apertureUm === undefined ? "" : `${apertureText(item.apertureUm)} `;
  const change = item.undo
    ? `taken back: ${shown(item.from)} -> ${shown(item.to)}`
    : item.from === null || item.from === ""
      ? shown(item.to)
      : `${shown(item.from)} -> ${shown(item.to)}`;
  const warned = item.warned ? `  (warned: ${item.warned})` : "";
  return `${item.at.slice(11, 19)}  ${sieve}${WHAT[item.field]}  ${change}${warned}`;
}

/** The entries that fit, in the order in which they happened: the latest ones, or as many further `back`. */
export function trailLines(trail: readonly TrailItem[], size: Size, back = 0): Line[] {
  const room = Math.max(1, size.rows - 1);
  const from = Math.max(0, trail.length - room - back);
  const shownItems = trail.slice(from, from + room);
  const cut = trail.length > room ? ` (${from + 1} to ${from + shownItems.length} of ${trail.length})` : "";
  return [line(`  every accepted entry${cut}`, "strong"), ...shownItems.map((item) => line(`  ${trailLine(item)}`))];
}
