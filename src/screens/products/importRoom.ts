import { wrapped } from "../../report/columns.ts";
import type { ImportedFile } from "../../store/sharedReport.ts";
import { columnsOf } from "../../terminal/sanitise.ts";
import { phrase, say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { cells, type Line, line, span } from "../line.ts";
import { type App, enter, leave, type Size, type Step, stay, step } from "../place.ts";
import { type Binding, here, type Room } from "../room.ts";
import { initialsOf, initialsRefusal } from "../sign/initials.ts";
import { typingBy } from "../typing.ts";
import type { ImportPlace } from "./places.ts";

const placeOf = (app: App): ImportPlace => here(app, "import");

/** On to the plant's shared folder: first a look at what it has, nothing is loaded by that. */
export const importing = (app: App): Step =>
  step(enter(app, { name: "import", by: "", report: null, from: 0 }), {
    do: "importShared",
    by: initialsOf(app, ""),
    dryRun: true,
  });

export const noSharedFolder = (app: App): string | null =>
  app.station.sharedFolder === undefined
    ? say`no sharedFolder in station.json: name the plant's shared folder there`
    : null;

const SIGNS = {
  new: { word: phrase("new"), role: "pass" },
  "already there": { word: phrase("there"), role: "dim" },
  refused: { word: phrase("refused ✗"), role: "fail" },
} as const;

/** As wide as the longest of the words needs it. */
const signColumns = (): number => Math.max(13, ...Object.values(SIGNS).map(({ word }) => columnsOf(spoken(word)) + 3));

function fileLines({ file, what, is, why, note }: ImportedFile, columns: number): Line[] {
  const { word, role } = SIGNS[is];
  const head = cells([
    { text: `  ${spoken(word)}`, columns: signColumns(), role },
    { text: what === null ? file : spoken(what), columns: 30 },
    { text: what === null ? "" : `  ${file}`, columns: Math.max(1, columns - signColumns() - 31), role: "dim" },
  ]);
  const told = [why && spoken(why), note && `! ${spoken(note)}`].flatMap((text) =>
    text === null ? [] : wrapped(text, columns - 16).map((row) => line(`               ${row}`, "warning")),
  );
  return [head, ...told];
}

const linesOf = (app: App, columns: number): readonly Line[] =>
  placeOf(app).report?.files.flatMap((file) => fileLines(file, columns)) ?? [];

const newOnes = (app: App): number => placeOf(app).report?.files.filter(({ is }) => is === "new").length ?? 0;

const isDone = (app: App): boolean => placeOf(app).report?.dryRun === false;

function lastLine(app: App): Line {
  const { by, report } = placeOf(app);
  if (report === null) return line(`  ${say`looking ...`}`, "dim");
  if (isDone(app)) return line(say`  loaded as told above; Esc back`, "strong");
  if (newOnes(app) === 0) return line(say`  nothing new to load`, "dim");
  return [span(say`  Enter loads ${newOnes(app)} new, for `, "strong"), span(`${initialsOf(app, by)}▌`, "field")];
}

function body(app: App, size: Size): readonly Line[] {
  const folder = line(say`  from ${app.station.sharedFolder ?? ""}`, "dim");
  const lines = linesOf(app, size.columns);
  const room = Math.max(1, size.rows - 4);
  const from = Math.min(placeOf(app).from, Math.max(0, lines.length - room));
  return [folder, ...lines.slice(from, from + room), [], lastLine(app)];
}

function load(app: App): Step {
  if (isDone(app)) return step(leave(app));
  if (placeOf(app).report === null || newOnes(app) === 0) return stay(app, say`there is nothing new to load`);
  if (app.readOnly !== null) return stay(app, spoken(app.readOnly));
  const by = initialsOf(app, placeOf(app).by);
  const refusal = initialsRefusal(app, by);
  if (refusal !== null) return stay(app, refusal);
  return step({ ...app, message: say`loading ...` }, { do: "importShared", by, dryRun: false });
}

function scroll(app: App, by: number): Step {
  const last = Math.max(0, (placeOf(app).report?.files.length ?? 0) - 1);
  const from = Math.max(0, Math.min(last, placeOf(app).from + by));
  return step({ ...app, message: null, place: { ...placeOf(app), from } });
}

const retyped = (app: App, change: (by: string) => string): Step =>
  step({ ...app, message: null, place: { ...placeOf(app), by: change(placeOf(app).by).slice(0, 8) } });

export const IMPORT_KEYS: readonly Binding[] = [
  { keys: ["enter"], word: "load", help: "Load what is new, for whoever's initials stand there.", does: load },
  { keys: ["up"], word: "scroll", help: "A line up.", does: (app) => scroll(app, -1) },
  { keys: ["down"], word: "scroll", help: "A line down.", does: (app) => scroll(app, 1), quiet: true },
  { keys: ["escape"], word: "back", help: "Back to the products.", does: (app) => step(leave(app)) },
];

/** The plant's shared folder: what of it is new here, what is there, what is refused and why. */
export const importRoom: Room = {
  title: () => ({ left: say`the plant's shared folder`, right: line(say`what is new here`, "dim") }),
  body,
  keys: () => IMPORT_KEYS,
  field: () => "text",
  ...typingBy(retyped, load),
  about: [
    "The folder that station.json names as sharedFolder, where the plant publishes products, programs and stacks.",
    "A faulty file hinders only itself. Nothing that is here is replaced; the log has the SHA-256 of whatever is loaded and where it came from.",
    "sievewright product import FOLDER does the same without the screens.",
  ],
};
