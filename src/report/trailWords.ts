import type { TrailItem } from "../record/test.ts";
import { figure } from "../words/figures.ts";
import { phrase, say } from "../words/say.ts";
import { spoken } from "../words/spoken.ts";
import { apertureText } from "./figures.ts";

const WHAT: Record<TrailItem["field"], string> = {
  product: phrase("product"),
  lot: phrase("lot"),
  line: phrase("line"),
  samplingPoint: phrase("sampling point"),
  set: phrase("set of sieves"),
  serial: phrase("sieve"),
  moistG: phrase("moist mass"),
  dryG: phrase("dry mass"),
  chargeG: phrase("charge"),
  washedG: phrase("dry mass after washing"),
  emptyG: phrase("empty"),
  fullG: phrase("full"),
  shaking: phrase("shaking"),
  ran: phrase("shaker ran"),
  portion: phrase("portion"),
  checkMinute: phrase("check minute"),
  remark: phrase("remark"),
  disposition: phrase("disposition"),
};

/** What is entered there is a word of the program; anywhere else somebody typed it. */
const OURS: readonly TrailItem["field"][] = ["ran", "portion", "disposition"];
const RUNS: readonly TrailItem["field"][] = ["shaking", "checkMinute"];

const SKIPPED = "skipped: ";

/** How a run of the shaker began and ended (a line that was started is another word elsewhere); why it was cut short somebody typed. */
function runWords(entered: string): string {
  if (entered === "started") return say`started${""}`;
  if (entered === "ended") return say`ended`;
  return entered.startsWith(SKIPPED) ? say`skipped: ${entered.slice(SKIPPED.length)}` : entered;
}

function shown({ field }: TrailItem, entered: string | number | null): string {
  if (entered === null) return say`nothing`;
  if (typeof entered === "number") return figure(`${entered}`);
  if (RUNS.includes(field)) return runWords(entered);
  return OURS.includes(field) ? spoken(entered) : entered;
}

/** One accepted entry in a line: when, what, what stood there before if it was changed, and any warning seen. */
export function trailLine(item: TrailItem): string {
  const { at, apertureUm, field, undo, from, to, warned, takenOver } = item;
  const sieve = apertureUm === undefined ? "" : `${apertureText(apertureUm)} `;
  const change = from === null || from === "" ? shown(item, to) : `${shown(item, from)} -> ${shown(item, to)}`;
  const told = undo ? say`taken back: ${shown(item, from)} -> ${shown(item, to)}` : change;
  const entered = `${at.slice(11, 19)}  ${sieve}${spoken(WHAT[field])}  ${told}`;
  const line = takenOver
    ? say`${entered}  (taken over from no. ${takenOver.number}, weighed ${takenOver.at.slice(11, 16)})`
    : entered;
  return warned ? say`${line}  (warned: ${spoken(warned)})` : line;
}
