import type { JudgedLimit } from "../../envelope/limit.ts";
import { determined } from "../../record/determination.ts";
import { besideLimit } from "../../report/besideLimit.ts";
import { valueText } from "../../report/figures.ts";
import { boundsBeside } from "../../series/sizesTogether.ts";
import type { LotStanding } from "../../shift/lot.ts";
import type { LotTest } from "../../shift/lotTest.ts";
import { type LimitTogether, limitsTogether } from "../../shift/lotTogether.ts";
import { figureWords } from "../../shift/trendFigure.ts";
import { figure } from "../../words/figures.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { apart, type Cell, cells, type Line, unsaid, windowAround } from "../line.ts";
import { tabled } from "../sentences.ts";
import { shortSignOf } from "../words.ts";

const LABEL_COLUMNS = 24;
const BOUNDS_COLUMNS = 15;
const FOUND_COLUMNS = 13;

/** The bounds in the unit in which the latest figure beside them is shown; of a percentage without it. */
function boundsText({ on, min: least, max: most, found }: LimitTogether): string {
  const { unit } = figureWords(on);
  const beside = found.findLast((limit) => limit !== null && limit.value !== null)?.value ?? null;
  const { word, ...bounds } = boundsBeside({ min: least, max: most }, unit, beside);
  const after = unit === "um" ? ` ${word}` : "";
  const [min, max] = [bounds.min, bounds.max].map((bound) => (bound === null ? null : figure(`${bound}`)));
  if (min && max) return `${min} – ${max}${after}`;
  return min ? say`from ${min}${after}` : max ? say`to ${max}${after}` : "–";
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
    { text: say`  result`, columns: LABEL_COLUMNS, role: "dim" },
    { text: say`limits`, columns: BOUNDS_COLUMNS, role: "dim" },
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
  const numbers = [...shown.map(({ number }) => say`no. ${number}`), ...(average === null ? [] : [say`average`])];
  const drawn = rows.map((row) =>
    tabled(
      heading(numbers),
      cells([
        apart(`  ${spoken(figureWords(row.on).label)}`, LABEL_COLUMNS),
        apart(boundsText(row), BOUNDS_COLUMNS, "dim"),
        ...row.found.slice(from, from + shown.length).map(foundCell),
        ...(average === null ? [] : [foundCell(average.find((limit) => limit.on === row.on) ?? null)]),
      ]),
    ),
  );
  return [unsaid(heading(numbers)), ...drawn];
}
