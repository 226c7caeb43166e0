import type { Counts } from "../../care/use/counts.ts";
import { roundHalfAway } from "../../grading/rounding.ts";
import { apertureText, decimalsOf, massText } from "../../report/figures.ts";
import { dueWords, tareOffWords } from "../../report/sieveWords.ts";
import { columnsOf } from "../../terminal/sanitise.ts";
import { figure } from "../../words/figures.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { apart, type Cell, cells, type Line, line, span, unsaid, whereText } from "../line.ts";
import type { Size } from "../place.ts";
import { tabled } from "../sentences.ts";
import { conditionSpan, conditionsShown } from "./conditionSpan.ts";
import { facts, otherHeading, otherLine } from "./othersView.ts";
import type { SievesPlace, WithCare } from "./places.ts";
import { otherItems, type SieveRow, sieveRows } from "./rows.ts";
import { told } from "./told.ts";

/** Where there is room for everything, for the usual, or for what says most. */
type Width = "wide" | "usual" | "narrow";
const widthOf = (columns: number): Width => (columns >= 120 ? "wide" : columns >= 80 ? "usual" : "narrow");

const NAME_COLUMNS: Readonly<Record<Width, number>> = { wide: 20, usual: 13, narrow: 12 };
const STATE_COLUMNS = 14;

/** What the longest word for a state takes more than its column has, in some languages: the name gives it. */
const moreForState = (): number => Math.max(0, ...conditionsShown().map((word) => columnsOf(word) + 2 - STATE_COLUMNS));
const nameColumns = (width: Width): number => NAME_COLUMNS[width] - moreForState();
const stateColumns = (): number => STATE_COLUMNS + moreForState();

const dim = (text: string, columns: number, align: "left" | "right" = "right"): Cell => ({
  text,
  columns,
  align,
  role: "dim",
});

const heading = (width: Width): Line =>
  cells([
    dim("", 3),
    dim(say`sieve`, nameColumns(width), "left"),
    dim(say`aperture`, width === "narrow" ? 9 : 10),
    dim(`  ${say`state`}`, stateColumns(), "left"),
    ...(width === "narrow" ? [] : [dim(say` tests`, 6), dim("min", 6), dim("kg", 6)]),
    dim(say`due`, 13),
    ...(width === "wide" ? [dim(say`clean g`, 11)] : []),
    dim(say`off g`, 9),
    ...(width === "wide" ? [dim(`  ${say`kept at`}`, 16, "left")] : []),
  ]);

const isTold = ({ condition: { tare } }: SieveRow): boolean => tare?.advice != null;

/** What it was used for since its latest inspection. */
const usedCells = ({ tests, sievedMin, passedKg }: Counts): Cell[] => [
  { text: `${tests}`, columns: 6, align: "right" },
  { text: roundHalfAway(sievedMin, 0), columns: 6, align: "right" },
  { text: figure(roundHalfAway(passedKg, 1)), columns: 6, align: "right" },
];

function rowLine(row: SieveRow, chosen: boolean, width: Width, readabilityG: number): Line {
  const { sieve, condition } = row;
  const state = conditionSpan(condition);
  const off = figure(tareOffWords(condition, readabilityG).replace(" g", ""));
  const clean = massText(condition.tare?.levelG ?? null, decimalsOf(readabilityG));
  const told = isTold(row);
  const drawn = cells([
    { text: chosen ? "▸" : "", columns: 3, role: "strong" },
    apart(sieve.serial, nameColumns(width), chosen ? "strong" : "plain"),
    { text: apertureText(sieve.apertureUm), columns: width === "narrow" ? 9 : 10, align: "right" },
    { text: `  ${state.text}`, columns: stateColumns(), role: state.role },
    ...(width === "narrow" ? [] : usedCells(condition.counts)),
    { text: spoken(dueWords(condition)), columns: 13, align: "right" },
    ...(width === "wide" ? [{ text: clean, columns: 11, align: "right" as const }] : []),
    { text: told ? `${off} !` : `${off}  `, columns: 9, align: "right", role: told ? "warning" : "plain" },
    ...(width === "wide" ? [dim(`  ${sieve.location ?? ""}`, 16, "left")] : []),
  ]);
  return tabled(heading(width), drawn);
}

interface Drawn {
  readonly line: Line;
  /** Which row of the list it is; null for a heading. */
  readonly row: number | null;
}

/** Rows under the name of their set. */
function listed(place: WithCare<SievesPlace>, width: Width): readonly Drawn[] {
  const readabilityG = place.known?.balance.readabilityG ?? 0.01;
  const rows = sieveRows(place);
  return rows.flatMap((row, i): Drawn[] => {
    const isFirst = row.group !== rows[i - 1]?.group;
    const own: Drawn = { line: rowLine(row, i === place.at, width, readabilityG), row: i };
    return isFirst ? [{ line: line(`  ${row.group}`, "dim"), row: null }, own] : [own];
  });
}

const others = (place: WithCare<SievesPlace>, columns: number): readonly Drawn[] =>
  place.known === null
    ? []
    : otherItems(place).map((item, i) => ({
        line: otherLine(item, place.known, i === place.at, columns),
        row: i,
      }));

/** As many as fit, the marked one among them, and above it the name of its set where there is room. */
function inWindow(drawn: readonly Drawn[], at: number, rows: number): readonly Drawn[] {
  const marked = Math.max(
    0,
    drawn.findIndex(({ row }) => row === at),
  );
  const from = Math.max(0, Math.min(marked - Math.floor(rows / 2), drawn.length - rows));
  return drawn.slice(from, from + rows);
}

/** Which of them are shown, where not all are. */
function whichWords(shown: readonly Drawn[], drawn: readonly Drawn[]): string {
  const rowsOf = (some: readonly Drawn[]) => some.flatMap(({ row }) => (row === null ? [] : [row]));
  return whereText(rowsOf(shown)[0] ?? 0, rowsOf(shown), rowsOf(drawn));
}

function nothing({ known, list, filter }: WithCare<SievesPlace>): Line[] {
  if (known === null) return [line(`    ${say`reading ...`}`, "dim")];
  if (filter !== "") return [line(`    ${say`nothing matches`}`, "dim")];
  const what = list === "sieves" ? say`no sieve is registered yet` : say`nothing else is registered yet`;
  return [line(say`    ${what}: F3 registers one`, "dim")];
}

/** What is told at the top: how many need something done. */
function countLine(place: WithCare<SievesPlace>): Line {
  const { known } = place;
  if (known === null) return [];
  const { sieves } = known.conditions;
  const sets = known.register.sets.length;
  const bad = sieves.filter(({ state }) => state === "overdue" || state === "due").length;
  const out = sieves.filter(({ state }) => state === "out of service").length;
  const advised = sieves.filter(({ advice }) => advice.length > 0).length;
  const told = [
    say`${sieves.length} sieves`,
    sets === 1 ? say`1 set` : say`${sets} sets`,
    ...(bad > 0 ? [say`${bad} due`] : []),
    ...(out > 0 ? [say`${out} out of service`] : []),
    ...(advised > 0 ? [say`${advised} with advice`] : []),
  ];
  return line(`  ${told.join(" · ")}`, bad + advised > 0 ? "warning" : "dim");
}

/** Where part of the log can't be read, counts and histories may be less than what was done. */
const shortLines = ({ known }: WithCare<SievesPlace>, columns: number): Line[] =>
  known?.short
    ? told(
        say`! part of the log can't be read: counts, masses and runs here may be fewer than what was done`,
        columns,
        "warning",
      )
    : [];

/** What moved all empty masses of a set together is told once, above the list. */
function commonLines({ known, list }: WithCare<SievesPlace>, columns: number): Line[] {
  const common = list === "sieves" && known?.conditions.sieves.find(({ together }) => together !== null)?.together;
  if (!common) return [];
  return told(`! ${spoken(common.text)}: ${spoken(common.advice)}`, columns, "warning");
}

const MOST_ADVICE_ROWS = 3;

/** What there is to say of what the mark points at, below the list. */
function markedLines(place: WithCare<SievesPlace>, columns: number): readonly Line[] {
  const { known, at, list } = place;
  if (known === null) return [];
  const item = list === "others" ? otherItems(place)[at] : undefined;
  const row = list === "sieves" ? sieveRows(place)[at] : undefined;
  const advice = row?.condition.advice[0];
  const conditionText = row && spoken(row.condition.text);
  const text = item ? facts(item, known) : advice === undefined ? conditionText : `! ${spoken(advice)}`;
  if (text === undefined) return [];
  const lines = told(text, columns, advice === undefined ? "dim" : "warning");
  return [[], ...lines.slice(0, MOST_ADVICE_ROWS)];
}

/** The list of what is registered, with what there is to say of each. */
export function sievesBody(place: WithCare<SievesPlace>, { columns, rows }: Size): readonly Line[] {
  const width = widthOf(columns);
  const ofSieves = place.list === "sieves";
  const drawn = ofSieves ? listed(place, width) : others(place, columns);
  const told = [countLine(place), ...shortLines(place, columns), ...commonLines(place, columns)];
  const below = markedLines(place, columns);
  const room = Math.max(1, rows - told.length - 2 - below.length);
  const shown = inWindow(drawn, place.at, room);
  const head = [
    [span(`  ${say`find`} `, "dim"), span(`${place.filter}▌`, "field"), span(`   ${whichWords(shown, drawn)}`, "dim")],
    ...told,
    unsaid(ofSieves ? heading(width) : otherHeading(columns)),
  ];
  const body = drawn.length === 0 ? nothing(place) : shown.map((one) => one.line);
  return [...head, ...body, ...below].slice(0, rows);
}
