import { assessTest } from "../../assess/assessTest.ts";
import { parseRunOtherwise } from "../../entry/programRun.ts";
import type { Stage } from "../../record/draft.ts";
import {
  type App,
  enter,
  leave,
  type RunPlace,
  type Step,
  stay,
  step,
  type ValuesPlace,
  type Writing,
} from "../place.ts";
import { VIEWS } from "../result/views.ts";
import { type Binding, here } from "../room.ts";
import { signing } from "../sign/signing.ts";
import { follow } from "./following.ts";

const runOf = (app: App) => here(app, "run").run;

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

const writing = (app: App, what: Writing): Step => {
  const place = here(app, "run");
  const text = what === "remark" ? place.run.draft.remark : "";
  return step({ ...app, message: null, place: { ...place, writing: { what, text } } });
};

const toStage = (stage: Stage) => (app: App) => follow(app, { type: "stageChosen", stage });

const ACCEPT: Binding = {
  keys: ["enter"],
  word: "accept",
  help: "Accept what is typed, or what stands there, and move on.",
  does: (app, at) => follow(app, { type: "accepted", at }),
};
const UP: Binding = {
  keys: ["up", "-"],
  word: "row",
  help: "To the row above; minus does the same in an empty field.",
  does: (app) => follow(app, { type: "rowUp" }),
};
const DOWN: Binding = {
  keys: ["down", "+"],
  word: "row",
  help: "To the row below; plus does the same in an empty field.",
  does: (app) => follow(app, { type: "rowDown" }),
  quiet: true,
};
const UNDO: Binding = {
  keys: ["u"],
  word: "undo",
  help: "Take the last accepted entry back; the record keeps a note of it.",
  does: (app, at) => follow(app, { type: "undone", at }),
  refusal: (app) => (runOf(app).draft.trail.length === 0 ? "nothing to take back" : null),
};
const BACK_KEY: Binding = {
  keys: ["escape"],
  word: "back",
  help: "One step back. Nothing is lost: the test waits on the bench.",
  does: stepBack,
};
const SET_OUT: Binding = {
  keys: ["o"],
  word: "lot, charge",
  help: "To the set-out page: product, lot, line, sampling point, charge.",
  does: toStage("set out"),
};
const EMPTIES: Binding = {
  keys: ["e"],
  word: "empties",
  help: "To the empty masses, to correct one.",
  does: toStage("weigh empty"),
};
const FULLS: Binding = {
  keys: ["f"],
  word: "full",
  help: "To the full masses.",
  does: toStage("weigh full"),
  refusal: (app) =>
    runOf(app).draft.weighings.some((w) => w.emptyG === null) ? "weigh every empty sieve first" : null,
};

/** Set out: letters belong to the fields, so that only named keys are actions here. */
const setOutKeys: readonly Binding[] = [
  ACCEPT,
  { ...UP, keys: ["up"], help: "To the field above." },
  { ...DOWN, keys: ["down"], help: "To the field below." },
  { ...UNDO, keys: ["f4", "ctrl+z"] },
  BACK_KEY,
];

const unweighed = (app: App): string | null =>
  runOf(app).draft.weighings.some((w) => w.fullG === null) ? "weigh every sieve and the pan first" : null;

const CHECK_MINUTE: Binding = {
  keys: ["c"],
  word: "check",
  help: "The whole stack one more minute on the shaker, then weigh again: proves that sieving was complete.",
  does: (app, at) => follow(app, { type: "checkMinuteStarted", at }),
  refusal: unweighed,
};
const PORTION: Binding = {
  keys: ["a"],
  word: "another portion",
  help: "Empty the sieves and put another portion of the charge on; what each held is kept and summed.",
  does: (app, at) => follow(app, { type: "portionAdded", at }),
  refusal: unweighed,
  quiet: true,
};

const emptyKeys: readonly Binding[] = [ACCEPT, UP, DOWN, UNDO, { ...SET_OUT }, { ...FULLS, quiet: true }, BACK_KEY];
const fullKeys: readonly Binding[] = [
  ACCEPT,
  UP,
  DOWN,
  UNDO,
  EMPTIES,
  CHECK_MINUTE,
  PORTION,
  { ...SET_OUT, quiet: true },
  BACK_KEY,
];

function shakerEnter(app: App, at: string): Step {
  const started = runOf(app).draft.shaking.startedAt !== null;
  return follow(app, started ? { type: "shakingEnded", at } : { type: "shakingStarted", at });
}

/** Enter while the countdown still runs would cut the shaking short: that takes a reason. */
function tooEarly(app: App): string | null {
  const { shaking } = runOf(app).draft;
  if (shaking.startedAt === null || shaking.plannedS === 0) return null;
  const goneS = (Date.parse(app.now) - Date.parse(shaking.startedAt)) / 1000;
  return goneS < shaking.plannedS ? "the shaker's time is not up: wait, or s to cut it short with a reason" : null;
}

const shakeKeys: readonly Binding[] = [
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
    refusal: (app) => (runOf(app).draft.program ? null : "no program is planned, so nothing can differ from it"),
  },
  UNDO,
  EMPTIES,
  { ...SET_OUT, quiet: true },
  BACK_KEY,
];

const turnView = (app: App): Step => {
  const place = here(app, "run");
  return step({ ...app, message: null, place: { ...place, view: (place.view + 1) % VIEWS.length } });
};

function toSigning(app: App): Step {
  const { run } = here(app, "run");
  const assessment = assessTest(run.draft);
  return assessment.ok ? step(enter(app, signing(run, assessment.value))) : stay(app, assessment.reason);
}

/** Into the values of a test: each with its formula, convention and source. */
export const valuesOf = (app: App, test: ValuesPlace["test"]): Step =>
  step(enter(app, { name: "values", test, at: 0 }));

const resultKeys: readonly Binding[] = [
  {
    keys: ["enter"],
    word: "sign",
    help: "Choose what becomes of the product, sign, and put the test on record.",
    does: toSigning,
    refusal: (app) => app.readOnly,
  },
  { keys: ["v"], word: "view", help: "Turn through the drawings of the result.", does: turnView },
  {
    keys: ["w"],
    word: "values",
    help: "Every characteristic value, with formula, convention and source.",
    does: (app) => valuesOf(app, runOf(app).draft),
  },
  { keys: ["r"], word: "remark", help: "Write a remark that goes on record.", does: (app) => writing(app, "remark") },
  {
    keys: ["f"],
    word: "correct",
    help: "Back to the full masses, to correct one.",
    does: toStage("weigh full"),
  },
  CHECK_MINUTE,
  PORTION,
  { ...EMPTIES, quiet: true },
  { ...SET_OUT, quiet: true },
  { ...UNDO, quiet: true },
  BACK_KEY,
];

/** Enter on words that were asked for: they are taken if they say something. */
export function written(app: App, at: string): Step {
  const place = here(app, "run");
  if (!place.writing) return stay(app);
  const { what, text } = place.writing;
  const closed: App = { ...app, place: { ...place, writing: null } };
  if (what === "remark") return follow(closed, { type: "remarked", text, at });
  if (what === "ran") {
    const ran = parseRunOtherwise(text);
    return ran.ok ? follow(closed, { type: "ranOtherwise", ran: ran.value, at }) : stay(app, ran.reason);
  }
  if (text.trim() === "") return stay(app, "say why the shaking is cut short, or Esc");
  return follow(closed, { type: "shakingSkipped", reason: text, at });
}

const writingKeys: readonly Binding[] = [
  { keys: ["enter"], word: "take", help: "Take the text as it stands.", does: written },
  {
    keys: ["escape"],
    word: "leave it",
    help: "Back without it.",
    does: (app) => step({ ...app, message: null, place: { ...here(app, "run"), writing: null } }),
  },
];

const KEYS: Record<Stage, readonly Binding[]> = {
  "set out": setOutKeys,
  "weigh empty": emptyKeys,
  shake: shakeKeys,
  "weigh full": fullKeys,
  result: resultKeys,
};

/** The keys of a test in progress, by what is being done. */
export const runKeys = (place: RunPlace): readonly Binding[] =>
  place.writing ? writingKeys : KEYS[place.run.draft.stage];
