import type { TrailItem } from "../../record/test.ts";
import { trailLine } from "../../report/trailWords.ts";
import { say } from "../../words/say.ts";
import { type Line, line } from "../line.ts";
import type { Size } from "../place.ts";

/** The entries that fit, in the order in which they happened: the latest ones, or as many further `back`. */
export function trailLines(trail: readonly TrailItem[], size: Size, back = 0): Line[] {
  const room = Math.max(1, size.rows - 1);
  const from = Math.max(0, trail.length - room - back);
  const shownItems = trail.slice(from, from + room);
  const cut = trail.length > room ? ` (${say`${from + 1} to ${from + shownItems.length} of ${trail.length}`})` : "";
  return [line(say`  every accepted entry${cut}`, "strong"), ...shownItems.map((item) => line(`  ${trailLine(item)}`))];
}
