import type { Program } from "../../record/program.ts";
import type { Run } from "../../run/run.ts";
import { secondsToGo } from "../../run/shake.ts";
import { type Line, line, span } from "../line.ts";
import type { App, Size } from "../place.ts";

const clock = (seconds: number): string => {
  const whole = Math.ceil(seconds);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
};

/** A program in the words of the shaker's panel. Stroke is peak to peak. */
export function programLines(program: Program): string[] {
  const { motion, strokeMm, peakAccelerationG, frequencyHz, durationS, onS, offS, aids, wet } = program;
  const throwText = [
    strokeMm === undefined ? [] : [`stroke ${strokeMm} mm peak to peak`],
    peakAccelerationG === undefined ? [] : [`peak acceleration ${peakAccelerationG} g`],
    frequencyHz === undefined ? [] : [`${frequencyHz} Hz`],
  ].flat();
  return [
    `${program.name}: ${motion}, ${wet ? "wet" : "dry"}`,
    throwText.join(", "),
    `${clock(durationS)} min${onS === undefined ? "" : `, ${onS} s on, ${offS ?? 0} s off`}`,
    aids && aids.length > 0 ? `aids: ${aids.join(", ")}` : "",
  ].filter((text) => text !== "");
}

function bar(done: number, columns: number): Line {
  const filled = Math.round(Math.min(1, Math.max(0, done)) * columns);
  return [span("    "), span("█".repeat(filled), "strong"), span("░".repeat(columns - filled), "dim")];
}

function countdown(app: App, run: Run, columns: number): Line[] {
  const { shaking } = run.draft;
  const toGo = secondsToGo(shaking, Date.parse(app.now));
  if (shaking.startedAt === null)
    return [line("    put the stack on the shaker, clamp it, start it, then press Enter", "strong")];
  if (toGo === null) return [line("    shaking; press Enter when the shaker has stopped", "strong")];
  if (toGo === 0) return [line("    time is up: Enter, then weigh the full sieves", "strong"), [], bar(1, columns)];
  return [line(`    ${clock(toGo)} to go`, "strong"), [], bar(1 - toGo / shaking.plannedS, columns)];
}

/** Shaking: the program, the time to go, and what can be done meanwhile. */
export function shakeBody(app: App, run: Run, size: Size): Line[] {
  const { program } = run.draft;
  const told = program
    ? programLines(program)
    : ["no shaker program is named by this product: shake as your plant's method says"];
  const note = run.message ? [line(`  ! ${run.message}`, "warning")] : [];
  const meanwhile =
    run.draft.shaking.startedAt === null
      ? []
      : [line("    Esc: the bench, to set out the next stack meanwhile", "dim")];
  return [
    [],
    ...told.map((text) => line(`    ${text}`)),
    [],
    ...countdown(app, run, Math.min(60, size.columns - 8)),
    [],
    ...meanwhile,
    line("    dust and noise: lid on, hearing protection, keep hands clear of the clamp; site rules come first", "dim"),
    [],
    ...note,
  ].slice(0, size.rows);
}
