import type { JudgedLimit } from "../../envelope/limit.ts";
import { determined } from "../../record/determination.ts";
import { besideLimit } from "../../report/besideLimit.ts";
import { valueText } from "../../report/figures.ts";
import { boundsBeside } from "../../series/sizesTogether.ts";
import type { LotStanding } from "../../shift/lot.ts";
import type { LotTest } from "../../shift/lotTest.ts";
import { type LimitTogether, limitsTogether } from "../../shift/lotTogether.ts";
import { figureWords } from "../../shift/trendFigure.ts";
import { apart, type Cell, cells, type Line, windowAround } from "../line.ts";
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
 * those around the mark are shown.
 */
export function togetherLines(
  tests: readonly LotTest[],
  average: LotStanding["average"],
  at: number,
  columns: number,
): Line[] {
  const rows = limitsTogether(tests);
  if (rows.length === 0) return [];
  const room = Math.floor((columns - LABEL_COLUMNS - BOUNDS_COLUMNS) / FOUND_COLUMNS) - (average === null ? 0 : 1);
  const { from, shown } = windowAround(tests, at, Math.max(1, room));
  const drawn = rows.map((row) =>
    cells([
      apart(`  ${figureWords(row.on).label}`, LABEL_COLUMNS),
      apart(boundsText(row), BOUNDS_COLUMNS, "dim"),
      ...row.found.slice(from, from + shown.length).map(foundCell),
      ...(average === null ? [] : [foundCell(average.find((limit) => limit.on === row.on) ?? null)]),
    ]),
  );
  const numbers = [...shown.map(({ number }) => `no. ${number}`), ...(average === null ? [] : ["average"])];
  return [heading(numbers), ...drawn];
}
