import type { TestHistory } from "../../record/versions.ts";
import { versionsOf } from "../../record/versions.ts";
import { amendmentText } from "../../report/amendmentWords.ts";
import { wrapped } from "../../report/columns.ts";
import { DIFFERS, markedCell, type VersionRow, versionRows } from "../../report/versionTable.ts";
import { shortMoment } from "../../words/figures.ts";
import { say } from "../../words/say.ts";
import { cells, type Line, line, unsaid } from "../line.ts";
import type { Size } from "../place.ts";
import { tabled } from "../sentences.ts";

const LABEL_COLUMNS = 24;
const VERSION_COLUMNS = 24;

/** The first line and the first version that are shown. */
export interface Scrolled {
  readonly line: number;
  readonly version: number;
}

/** How many versions fit beside the labels. */
export const versionsAcross = (columns: number): number =>
  Math.max(1, Math.floor((columns - LABEL_COLUMNS - 2) / VERSION_COLUMNS));

/** Rows of versions side by side under their headings, each figure that differs from the version before marked. */
export function versionTableLines(
  rows: readonly VersionRow[],
  headings: readonly string[],
  from: Scrolled,
  size: Size,
): Line[] {
  const across = versionsAcross(size.columns);
  const first = Math.max(0, Math.min(from.version, headings.length - across));
  const shown = headings.map((_, version) => version).slice(first, first + across);
  const head = cells([
    { text: say`  ${DIFFERS} differs`, columns: LABEL_COLUMNS + 2, role: "dim" },
    ...shown.map((version) => ({
      text: `  ${headings[version] ?? ""}`,
      columns: VERSION_COLUMNS,
      role: "strong" as const,
    })),
  ]);
  const lines = rows.map((row) =>
    cells([
      { text: `  ${row.label}`, columns: LABEL_COLUMNS + 2, role: "dim" },
      ...shown.map((version) => ({
        text: markedCell(row, version),
        columns: VERSION_COLUMNS,
        role: row.differs[version] === true ? ("strong" as const) : ("plain" as const),
      })),
    ]),
  );
  return [
    unsaid(head),
    ...lines.map((row) => tabled(head, row)).slice(from.line, from.line + Math.max(1, size.rows - 1)),
  ];
}

const unfitLines = (unfit: readonly number[]): Line[] =>
  unfit.map((number) =>
    line(say`  ! entry no. ${number} corrects what does not stand there, and is left out`, "warning"),
  );

/** All that was said of a test after it was recorded, in the order of the log. */
function laterLines({ later }: TestHistory, columns: number): Line[] {
  return later.flatMap((one) => wrapped(amendmentText(one), columns - 4, "  ").map((text) => line(`  ${text}`)));
}

const MOST_LATER_ROWS = 5;

/** The original and every version side by side, below what was said later. */
export function versionsLines(history: TestHistory, size: Size, from: Scrolled): Line[] {
  const { versions, unfit } = versionsOf(history);
  const headings = versions.map(
    ({ number, at }, i) => `${i === 0 ? say`original` : say`no. ${number}`} ${shortMoment(at)}`,
  );
  const rows = versionRows(versions.map(({ test }) => test));
  const said = [...unfitLines(unfit), ...laterLines(history, size.columns)];
  const upper = said.slice(0, Math.max(MOST_LATER_ROWS, size.rows - rows.length - 2));
  const across = versionsAcross(size.columns);
  const sideways =
    versions.length > across ? [line(say`  ${versions.length} versions, ${across} shown: Left and Right`, "dim")] : [];
  const room = { columns: size.columns, rows: size.rows - upper.length - sideways.length };
  return [...upper, ...sideways, ...versionTableLines(rows, headings, from, room)];
}

/** How far the page can be scrolled. */
export function lastScrolled(history: TestHistory): Scrolled {
  const { versions } = versionsOf(history);
  return { line: Math.max(0, versionRows(versions.map(({ test }) => test)).length - 1), version: versions.length - 1 };
}
