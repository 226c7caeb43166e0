import { wrapped } from "../../report/columns.ts";
import { clockText, programLines } from "../../report/programLines.ts";
import type { Run } from "../../run/run.ts";
import { secondsToGo } from "../../run/shake.ts";
import { phrase, say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { type Line, line, span } from "../line.ts";
import type { App, Size } from "../place.ts";

function bar(done: number, columns: number): Line {
  const filled = Math.round(Math.min(1, Math.max(0, done)) * columns);
  return [span("    "), span("█".repeat(filled), "strong"), span("░".repeat(columns - filled), "dim")];
}

function countdown(app: App, run: Run, columns: number): Line[] {
  const { shaking } = run.draft;
  const toGo = secondsToGo(shaking, Date.parse(app.now));
  if (shaking.startedAt === null)
    return [line(say`    put the stack on the shaker, clamp it, start it, then press Enter`, "strong")];
  if (toGo === null) return [line(say`    shaking; press Enter when the shaker has stopped`, "strong")];
  if (toGo === 0) return [line(say`    time is up: Enter, then weigh the full sieves`, "strong"), [], bar(1, columns)];
  return [line(say`    ${clockText(toGo)} to go`, "strong"), [], bar(1 - toGo / shaking.plannedS, columns)];
}

const CAUTION = phrase(
  "dust and noise: lid on, hearing protection, keep hands clear of the clamp; site rules come first",
);

/** Shaking: the program, the time to go, and what can be done meanwhile. */
export function shakeBody(app: App, run: Run, size: Size): Line[] {
  const { program } = run.draft;
  const told = program
    ? programLines(program)
    : [say`no shaker program is named by this product: shake as your plant's method says`];
  const note = run.message ? [line(`  ! ${spoken(run.message)}`, "warning")] : [];
  const meanwhile =
    run.draft.shaking.startedAt === null
      ? []
      : [line(say`    Esc: the bench, to set out the next stack meanwhile`, "dim")];
  return [
    [],
    ...told.map((text) => line(`    ${text}`)),
    [],
    ...countdown(app, run, Math.min(60, size.columns - 8)),
    [],
    ...meanwhile,
    ...wrapped(spoken(CAUTION), size.columns - 6).map((text) => line(`    ${text}`, "dim")),
    [],
    ...note,
  ];
}
