import { assessTest } from "../../assess/assessTest.ts";
import { type App, enter, type Step, stay, step, type ValuesPlace } from "../place.ts";
import { VIEWS } from "../result/views.ts";
import { type Binding, here } from "../room.ts";
import { signing } from "../sign/signing.ts";
import {
  BACK_KEY,
  CHECK_MINUTE,
  EMPTIES,
  END,
  HOW_MUCH,
  PORTION,
  runOf,
  SET_OUT,
  toStage,
  UNDO,
} from "./commonKeys.ts";
import { writing } from "./writing.ts";

const turnView = (app: App): Step => {
  const place = here(app, "run");
  return step({ ...app, message: null, place: { ...place, view: (place.view + 1) % VIEWS.length } });
};

function toSigning(app: App): Step {
  const { run } = here(app, "run");
  const assessment = assessTest(run.draft);
  return assessment.ok ? step(enter(app, signing(run, assessment.value, app.holds))) : stay(app, assessment.reason);
}

/** Into the values of a test: each with its formula, convention and source. */
export const valuesOf = (app: App, test: ValuesPlace["test"]): Step =>
  step(enter(app, { name: "values", test, at: 0 }));

/** On the result: look, correct, prove, sign. */
export const resultKeys: readonly Binding[] = [
  {
    keys: ["enter"],
    word: "sign",
    help: "Choose what becomes of the product, sign, and put the test on record.",
    does: toSigning,
    refusal: (app) => app.readOnly,
  },
  {
    keys: ["v"],
    word: "view",
    help: "Turn through the pages of the result: checks, how sure each limit is, the uncertainty by component, drawings.",
    does: turnView,
  },
  {
    keys: ["w"],
    word: "values",
    help: "Every characteristic value, with formula, convention and source.",
    does: (app) => valuesOf(app, runOf(app).draft),
  },
  HOW_MUCH,
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
  END,
  BACK_KEY,
];
