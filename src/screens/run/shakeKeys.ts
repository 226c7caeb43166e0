import { secondsToGo } from "../../run/shake.ts";
import { say } from "../../words/say.ts";
import type { App, Step } from "../place.ts";
import type { Binding } from "../room.ts";
import { BACK_KEY, EMPTIES, END, runOf, SET_OUT, UNDO } from "./commonKeys.ts";
import { follow } from "./following.ts";
import { writing } from "./writing.ts";

function shakerEnter(app: App, at: string): Step {
  const started = runOf(app).draft.shaking.startedAt !== null;
  return follow(app, started ? { type: "shakingEnded", at } : { type: "shakingStarted", at });
}

/** Enter while the countdown still runs would cut the shaking short: that takes a reason. */
function tooEarly(app: App): string | null {
  const { shaking } = runOf(app).draft;
  const toGo = shaking.startedAt === null ? null : secondsToGo(shaking, Date.parse(app.now));
  return toGo !== null && toGo > 0 ? say`the shaker's time is not up: wait, or s to cut it short with a reason` : null;
}

/** On the shaker: start, go on, or cut it short with a reason. */
export const shakeKeys: readonly Binding[] = [
  {
    keys: ["enter"],
    word: "start / go on",
    help: "Start the countdown with the shaker; when time is up, go on to the full sieves.",
    does: shakerEnter,
    refusal: tooEarly,
  },
  {
    keys: ["s"],
    word: "cut short",
    help: "Skip or cut short the shaking; asks for the reason.",
    does: (app) => writing(app, "skip"),
  },
  {
    keys: ["d"],
    word: "ran otherwise",
    help: "Note what the shaker did otherwise than its program: stroke, frequency, time.",
    does: (app) => writing(app, "ran"),
    refusal: (app) => (runOf(app).draft.program ? null : say`no program is planned, so nothing can differ from it`),
  },
  UNDO,
  EMPTIES,
  { ...SET_OUT, quiet: true },
  END,
  BACK_KEY,
];
