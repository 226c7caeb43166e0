import type { JudgedLimit } from "../../envelope/limit.ts";
import { determined } from "../../record/determination.ts";
import { besideLimit } from "../../report/besideLimit.ts";
import { valueText } from "../../report/figures.ts";
import { boundsBeside } from "../../series/sizesTogether.ts";
import type { LotStanding } from "../../shift/lot.ts";
import type { LotTest } from "../../shift/lotTest.ts";
import { type LimitTogether, limitsTogether } from "../../shift/lotTogether.ts";
import { figureWords } from "../../shift/trendFigure.ts";
import { say } from "../../words/say.ts";
import { apart, type Cell, cells, type Line, line, windowAround } from "../line.ts";
import { shortSignOf } from "../words.ts";

const LABEL_COLUMNS = 24;
const BOUNDS_COLUMNS = 15;
const FOUND_COLUMNS = 13;

/** The bounds in the unit in which the latest figure beside them is shown; of a percentage without it. */
function boundsText({ on, min: least, max: most, found }: LimitTogether): string {
  const { unit } = figureWords(on);
  const beside = found.findLast((limit) => limit !== null && limit.value !== null)?.value ?? null;
  const { min, max, word } = boundsBeside({ min: least, max: most }, unit, beside);
  const after = unit === "um" ? ` ${word}` : "";
  if (min === null) return max === null ? "–" : `to ${max}${after}`;
  return max === null ? `from ${min}${after}` : `${min} – ${max}${after}`;
}

function foundCell(limit: JudgedLimit | null): Cell {
  if (limit === null || limit.value === null) return { text: "–", columns: FOUND_COLUMNS, align: "right", role: "dim" };
  const { unit } = figureWords(limit.on);
  const shown = besideLimit(limit.value, limit, (value, more) => valueText(determined(value, unit), more));
  const { text, role } = shortSignOf(limit.result);
  return { text: `${shown}${text}`, columns: FOUND_COLUMNS, align: "right", role };
}

const heading = (numbers: readonly string[]): Line =>
  cells([
    { text: "  result", columns: LABEL_COLUMNS, role: "dim" },
    { text: "limits", columns: BOUNDS_COLUMNS, role: "dim" },
    ...numbers.map((text): Cell => ({ text, columns: FOUND_COLUMNS, align: "right", role: "dim" })),
  ]);

/**
 * What all tests of a lot found, side by side, with their average where the product decides by it. Where not all tests fit
 * those around the mark are shown, where not all limits fit those that were missed; what is left out is said.
 */
export function togetherLines(
  tests: readonly LotTest[],
  average: LotStanding["average"],
  at: number,
  size: { readonly columns: number; readonly rows: number },
): Line[] {
  const rows = limitsTogether(tests);
  if (rows.length === 0) return [];
  if (size.rows < 3) return [line(say`  … the results side by side in a higher window`, "dim")];
  const room = Math.floor((size.columns - LABEL_COLUMNS - BOUNDS_COLUMNS) / FOUND_COLUMNS) - (average === null ? 0 : 1);
  const { from, shown } = windowAround(tests, at, Math.max(1, room));
  const left = rows.slice(size.rows - 2);
  const drawn = (left.length === 0 ? rows : rows.slice(0, size.rows - 2)).map((row) =>
    cells([
      apart(`  ${figureWords(row.on).label}`, LABEL_COLUMNS),
      apart(boundsText(row), BOUNDS_COLUMNS, "dim"),
      ...row.found.slice(from, from + shown.length).map(foundCell),
      ...(average === null ? [] : [foundCell(average.find((limit) => limit.on === row.on) ?? null)]),
    ]),
  );
  const numbers = [...shown.map(({ number }) => `no. ${number}`), ...(average === null ? [] : ["average"])];
  const met = left.every((row) => row.met) ? say`all of them met` : say`some of them not met: Enter opens the test`;
  return [
    heading(numbers),
    ...drawn,
    ...(left.length === 0 ? [] : [line(say`  and ${left.length} more limits, ${met}`, "dim")]),
  ];
}
