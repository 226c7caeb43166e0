import type { Stage } from "../../record/draft.ts";
import { say } from "../../words/say.ts";
import { type App, enter, leave, type Step, step } from "../place.ts";
import { planOn } from "../plan/reachPlan.ts";
import { reasoning } from "../reason/reasoning.ts";
import { type Binding, here } from "../room.ts";
import { follow } from "./following.ts";

export const runOf = (app: App) => here(app, "run").run;

/** One step back: from the result to the weighings, from the empty sieves to the set-out page, else to the bench. */
const BACK: Record<Stage, Stage | null> = {
  "set out": null,
  "weigh empty": "set out",
  shake: null,
  "weigh full": null,
  result: "weigh full",
};

function stepBack(app: App): Step {
  const stage = BACK[runOf(app).draft.stage];
  return stage ? follow(app, { type: "stageChosen", stage }) : step(leave(app));
}

export const toStage = (stage: Stage) => (app: App) => follow(app, { type: "stageChosen", stage });

export const ACCEPT: Binding = {
  keys: ["enter"],
  word: "accept",
  help: "Accept what is typed, or what stands there, and move on.",
  does: (app, at) => follow(app, { type: "accepted", at }),
};
export const UP: Binding = {
  keys: ["up", "-"],
  word: "row",
  help: "To the row above; minus does the same in an empty field.",
  does: (app) => follow(app, { type: "rowUp" }),
};
export const DOWN: Binding = {
  keys: ["down", "+"],
  word: "row",
  help: "To the row below; plus does the same in an empty field.",
  does: (app) => follow(app, { type: "rowDown" }),
  quiet: true,
};
/** The result has no line of its own for what is said. */
function tookBack(app: App, at: string): Step {
  const next = follow(app, { type: "undone", at });
  const { draft, message } = runOf(next.app);
  return draft.stage === "result" ? { ...next, app: { ...next.app, message } } : next;
}

export const UNDO: Binding = {
  keys: ["u"],
  word: "undo",
  help: "Drop what is typed; in an empty field take the last accepted entry back; the record keeps a note of it.",
  does: tookBack,
  refusal: (app) => {
    const { draft, typed } = runOf(app);
    return draft.trail.length === 0 && typed === "" ? say`nothing to take back` : null;
  },
};
export const BACK_KEY: Binding = {
  keys: ["escape"],
  word: "back",
  help: "One step back. Nothing is lost: the test waits on the bench.",
  does: stepBack,
};
export const SET_OUT: Binding = {
  keys: ["o"],
  word: "lot, charge",
  help: "To the set-out page: product, lot, line, sampling point, charge.",
  does: toStage("set out"),
};
export const EMPTIES: Binding = {
  keys: ["e"],
  word: "empties",
  help: "To the empty masses, to correct one.",
  does: toStage("weigh empty"),
};
export const FULLS: Binding = {
  keys: ["f"],
  word: "full",
  help: "To the full masses.",
  does: toStage("weigh full"),
  refusal: (app) =>
    runOf(app).draft.weighings.some((w) => w.emptyG === null) ? say`weigh every empty sieve first` : null,
};

export const unweighed = (app: App): string | null =>
  runOf(app).draft.weighings.some((w) => w.fullG === null) ? say`weigh every sieve and the pan first` : null;

export const CHECK_MINUTE: Binding = {
  keys: ["c"],
  word: "check",
  help: "The whole stack one more minute on the shaker, then weigh again: proves that sieving was complete.",
  does: (app, at) => follow(app, { type: "checkMinuteStarted", at }),
  refusal: unweighed,
};
export const BIG: Binding = {
  keys: ["x"],
  word: "big digits",
  help: "Sieve and value in digits to be read from two metres; the same keys work. Again for the table.",
  does: (app) => step({ ...app, message: null, big: !app.big }),
};
export const END: Binding = {
  keys: ["z"],
  word: "end",
  help: "End the test without a result (spilled, dropped): asks why; all that was entered goes on record.",
  does: (app) => step(enter(app, reasoning({ act: "ended", draft: runOf(app).draft }))),
  refusal: (app) =>
    app.readOnly ?? (runOf(app).draft.trail.length === 0 ? say`nothing is entered yet: Esc leaves it` : null),
  quiet: true,
};
export const PORTION: Binding = {
  keys: ["a"],
  word: "another portion",
  help: "Empty the sieves and put another portion of the charge on; what each held is kept and summed.",
  does: (app, at) => follow(app, { type: "portionAdded", at }),
  refusal: unweighed,
  quiet: true,
};
/** On the result the test's own curve stands for the product; before that its newest tests do. */
function howMuch(app: App): Step {
  const { draft } = runOf(app);
  return planOn(app, draft.product, draft.stage === "result" ? draft : null);
}

export const HOW_MUCH: Binding = {
  keys: ["g"],
  word: "how much",
  help: "Which charge, in how many portions, it takes to judge each limit of this product.",
  does: howMuch,
};
