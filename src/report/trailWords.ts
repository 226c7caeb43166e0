import type { TrailItem } from "../record/test.ts";
import { apertureText } from "./figures.ts";

const WHAT: Record<TrailItem["field"], string> = {
  product: "product",
  lot: "lot",
  line: "line",
  samplingPoint: "sampling point",
  set: "set of sieves",
  serial: "sieve",
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
