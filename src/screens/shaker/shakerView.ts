import { flightChart, flightLegend } from "../../chart/flightChart.ts";
import type { Outcome } from "../../entry/outcome.ts";
import { type ProgramMotion, programMotion } from "../../procedure/motion/programMotion.ts";
import type { ShakerFigures } from "../../procedure/motion/shakerFigures.ts";
import type { Program } from "../../record/program.ts";
import { wrapped } from "../../report/columns.ts";
import { hzText, MOTION_BASIS, motionRows, ONE_PERIOD, strokeText } from "../../report/motionPage.ts";
import { motionWords } from "../../report/programLines.ts";
import { pad } from "../../terminal/sanitise.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { BLANK, beside, cells, type Line, line, span, unsaid, whereLine, windowAround } from "../line.ts";
import type { App, Size } from "../place.ts";
import { here } from "../room.ts";
import { listed } from "../sentences.ts";

/** Programs shown at once; in a low window only the one in hand. */
const LIST_ROWS = 4;
const LOW_ROWS = 14;
const LABEL_COLUMNS = 21;
const FIGURE_COLUMNS = 46;
const NARROWEST_CHART = 20;

export const chosenProgram = (app: App): Program | undefined => app.programs[here(app, "shaker").at];

/** The motion of the program in hand, or why it has none; null in an empty library. */
export const motionOf = (app: App): Outcome<ProgramMotion> | null => {
  const program = chosenProgram(app);
  return program ? programMotion(program) : null;
};

/** The figures that are shown: as the program is written, or restated. */
const shownOf = (app: App, { written, elsewhere }: ProgramMotion): ShakerFigures =>
  (here(app, "shaker").restated ? elsewhere : null) ?? written;

const programLine = (program: Program, isChosen: boolean): Line =>
  listed(drawnProgram(program, isChosen), isChosen, program.code, [program.name, motionWords(program)]);

const drawnProgram = (program: Program, isChosen: boolean): Line =>
  cells([
    { text: isChosen ? "▸" : "", columns: 3, role: "strong" },
    { text: program.code, columns: 10, role: isChosen ? "strong" : "plain" },
    { text: program.name, columns: 34 },
    { text: ` ${motionWords(program)}`, columns: 33, role: "dim" },
  ]);

function listLines(app: App, rows: number): Line[] {
  if (app.programs.length === 0) return [line(say`  no sieving program in this library`, "dim"), BLANK];
  const { from, shown } = windowAround(app.programs, here(app, "shaker").at, rows < LOW_ROWS ? 1 : LIST_ROWS);
  const rowsShown = shown.map((program, i) => programLine(program, from + i === here(app, "shaker").at));
  return rows < LOW_ROWS ? rowsShown : [...rowsShown, whereLine(from, shown, app.programs)];
}

const figureLine = ([label, text]: readonly [string, string]): Line => [
  span(`  ${pad(spoken(label), LABEL_COLUMNS)}`, "dim"),
  span(spoken(text), "strong"),
];

function figureLines(app: App, motion: ProgramMotion): Line[] {
  const onePeriod = motion.onePeriod.map(
    ({ frequencyHz, strokeMm }) => [say`one period at ${hzText(frequencyHz)}`, strokeText(strokeMm)] as const,
  );
  return [...motionRows(shownOf(app, motion)), ...onePeriod].map(figureLine);
}

function chartLines(figures: ShakerFigures, width: number, height: number): Line[] {
  if (width < NARROWEST_CHART || height < 5) return [];
  const drawn = flightChart({ figures, width, height: height - 1 });
  return [line(flightLegend(), "dim"), ...drawn.map((text) => line(text))].map(unsaid);
}

/** What changed by restating, and where the program contradicts itself. */
function noteLines(app: App, { written, elsewhere, statedG }: ProgramMotion): Line[] {
  const restated =
    here(app, "shaker").restated && elsewhere
      ? [
          line(
            say`  restated for ${hzText(elsewhere.frequencyHz)} at equal acceleration; written: ${strokeText(written.strokeMm)}`,
            "warning",
          ),
        ]
      : [];
  const stated =
    statedG === null
      ? []
      : [line(say`  ! the program states ${statedG} g, its stroke gives another: taken by the stroke`, "warning")];
  return [...restated, ...stated];
}

const reasonLines = (reason: string, columns: number): Line[] =>
  wrapped(`! ${spoken(reason)}`, columns - 4, "  ").map((text) => line(`  ${text}`, "warning"));

/** The programs, the figures of the one in hand beside a plot, and what they rest on. */
export function shakerBody(app: App, size: Size): readonly Line[] {
  const list = listLines(app, size.rows);
  const motion = motionOf(app);
  if (!motion) return list;
  if (!motion.ok) return [...list, ...reasonLines(motion.reason, size.columns)];
  const notes = noteLines(app, motion.value);
  const told = [ONE_PERIOD, MOTION_BASIS].flatMap((text) => wrapped(spoken(text), size.columns - 4));
  const figures = figureLines(app, motion.value);
  const room = size.rows - list.length - notes.length;
  const rows = Math.max(figures.length, room - told.length - 1);
  const chart = chartLines(shownOf(app, motion.value), size.columns - FIGURE_COLUMNS - 2, Math.min(rows, room));
  const block = chart.length === 0 ? figures : beside(figures, FIGURE_COLUMNS, chart);
  return [...list, ...notes, ...block, BLANK, ...told.map((text) => line(`  ${text}`, "dim"))];
}
