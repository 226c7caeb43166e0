import { decimalsOf } from "../../report/figures.ts";
import { practiceMassG } from "../../run/practiceMass.ts";
import { reduceRun } from "../../run/reduce.ts";
import { handsFree, type Run } from "../../run/run.ts";
import { say } from "../../words/say.ts";
import { type App, type Step, stay } from "../place.ts";
import { type Binding, here } from "../room.ts";
import { CLEANED } from "../run/cleaned.ts";
import { END } from "../run/commonKeys.ts";
import { withRun } from "../run/following.ts";
import { notInPractice, practiceEnded } from "./practice.ts";

/** The shaker's time, run through at once. */
function shaken(run: Run, at: string): Run {
  const started = reduceRun(run, { type: "shakingStarted", at });
  const { startedAt, plannedS } = started.draft.shaking;
  const overMs = Math.max(Date.parse(at), Date.parse(startedAt ?? at) + plannedS * 1000);
  return reduceRun(started, { type: "shakingEnded", at: new Date(overMs).toISOString() });
}

function invented(app: App, at: string): Step {
  const { run } = here(app, "run");
  if (run.draft.stage === "shake") return withRun(app, shaken(run, at));
  const grams = practiceMassG(run);
  if (grams === null) return stay(app, say`no mass is asked for here: Enter takes what stands there`);
  if (run.doubt) return stay(app, say`this mass is doubted: read why, then Enter accepts it, or type another`);
  const text = `${grams.toFixed(decimalsOf(run.draft.balance.readabilityG))} g`;
  return withRun(app, reduceRun(handsFree(run), { type: "scanned", text, ended: true, at }));
}

export const INVENT: Binding = {
  keys: ["i", "f6"],
  word: "invent",
  help: "In practice: a mass as the balance might show it is invented and accepted; on the shaker, its time runs through at once.",
  does: invented,
};

/** Signing a practice test writes nothing, so a window that only reads may. */
const SIGN = "sign";

const changed = (key: Binding): Binding => {
  if (key.does === END.does) {
    const help = say`End the practice test: nothing of it is kept, so nothing is asked.`;
    return { ...key, help, does: practiceEnded, refusal: () => null };
  }
  if (key.word === SIGN) return { ...key, refusal: () => null };
  return key.does === CLEANED.does ? { ...key, refusal: notInPractice } : key;
};

/** The keys of a practice test: those of a real one, but that none records anything, and one that invents what is weighed. */
export function practiceKeys(keys: readonly Binding[], run: Run): readonly Binding[] {
  const [first, ...rest] = keys.map(changed);
  if (first === undefined || run.draft.stage === "result") return keys.map(changed);
  const typesLetters = run.draft.stage === "set out";
  return [first, typesLetters ? { ...INVENT, keys: ["f6", "ctrl+e"] } : INVENT, ...rest];
}
