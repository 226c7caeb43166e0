import { isPractice } from "../../record/practice.ts";
import { wrapped } from "../../report/columns.ts";
import { say } from "../../words/say.ts";
import { type Line, line, type Span, span } from "../line.ts";
import { type App, type Effect, onBench, type Place, type Step, stay, step } from "../place.ts";

const isOfPractice = (place: Place): boolean =>
  (place.name === "run" || place.name === "sign") && isPractice(place.run.draft);

/** Whether a practice test is in view, or lies behind what is in view. */
export const inPractice = ({ place, behind }: Pick<App, "place" | "behind">): boolean =>
  isOfPractice(place) || behind.some(isOfPractice);

/** Stands at the top of every screen of a practice test, before its name: a word and a sign. */
export const practiceSpan = (): Span => span(say`PRACTICE ◇`, "invalid");

/** What a practice test may ask of the outside: reading, the look, the bell, who sits here, leaving. */
const HARMLESS: ReadonlySet<Effect["do"]> = new Set([
  "learnUsual",
  "readPlan",
  "readCare",
  "people",
  "keepTheme",
  "speak",
  "bell",
  "quit",
]);

/** Why something that writes is not done from a practice test; null everywhere else. */
export const notInPractice = (app: App): string | null =>
  inPractice(app) ? say`practice: nothing is recorded from here; Esc to the bench first` : null;

/** A step taken in practice, without all that would write anything: then nothing happens but that it is said. */
export function unrecorded(before: App, taken: Step): Step {
  const refusal = notInPractice(before);
  return refusal === null || taken.effects.every((effect) => HARMLESS.has(effect.do)) ? taken : stay(before, refusal);
}

/** The practice test is over, however far it came. */
export const practiceEnded = (app: App): Step =>
  step({ ...onBench({ ...app, practice: null }), message: say`practice ended: nothing of it was recorded` });

/** The same beside the signature, where a low window shows little else. */
export const practiceLine = (): Line => line(say`  ◇ practice: NOT RECORDED; signing only ends it`, "invalid");

/** Whoever weighed a real test in practice by mistake must read it here at the latest, before signing. */
export const practiceLines = (columns: number): Line[] =>
  [
    say`◇ practice: NOT RECORDED. Signing only ends the practice test: nothing of it is kept, and it releases nothing.`,
    say`  Was the charge a real one? Then set out a real test with n on the bench and weigh it again.`,
  ].flatMap((text) => wrapped(text, columns - 3, "  ").map((row) => line(`  ${row}`, "invalid")));
