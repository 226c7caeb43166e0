import type { RepeatedTest } from "../../assess/repeatedTests.ts";
import { say } from "../../words/say.ts";
import { line } from "../line.ts";
import { type App, enter, leave, type Step, stay, step } from "../place.ts";
import { type Binding, here, type Room } from "../room.ts";
import { lookedAt } from "./looked.ts";
import type { ReplicatesPlace } from "./places.ts";
import { replicatesBody } from "./replicatesView.ts";

const placeOf = (app: App): ReplicatesPlace => here(app, "replicates");
const put = (app: App, change: Partial<ReplicatesPlace>): Step =>
  step({ ...app, message: null, place: { ...placeOf(app), ...change } });

/** Into the scatter of the tests of a lot. */
export function replicatesOn(app: App, product: string, lot: string, tests: readonly RepeatedTest[]): Step {
  if (tests.length < 2) return stay(app, say`it takes two tests to see how they scatter`);
  return step(enter(app, { name: "replicates", product, lot, tests, out: [], test: 0, at: 0 }));
}

const within = (at: number, length: number): number => Math.max(0, Math.min(length - 1, at));

function moved(app: App, by: number): Step {
  const place = placeOf(app);
  return put(app, { at: within(place.at + by, lookedAt(place).figures.length) });
}

function toTest(app: App, by: number): Step {
  const { test, tests } = placeOf(app);
  return put(app, { test: within(test + by, tests.length) });
}

function toggled(app: App): Step {
  const { test, tests, out } = placeOf(app);
  const number = tests[test]?.number;
  if (number === undefined) return stay(app);
  return put(app, { out: out.includes(number) ? out.filter((one) => one !== number) : [...out, number] });
}

export const REPLICATES_KEYS: readonly Binding[] = [
  { keys: ["up", "-"], word: "figure", help: "The figure above.", does: (app) => moved(app, -1) },
  { keys: ["down", "+"], word: "figure", help: "The figure below.", does: (app) => moved(app, 1), quiet: true },
  { keys: ["left"], word: "test", help: "The test before, in the row of tests.", does: (app) => toTest(app, -1) },
  { keys: ["right"], word: "test", help: "The test after.", does: (app) => toTest(app, 1) },
  {
    keys: ["x"],
    word: "out or in",
    help: "Take the test that the mark points at out of these figures, or in again; nothing on record changes.",
    does: toggled,
  },
  { keys: ["escape", "enter"], word: "back", help: "Back to where you came from.", does: (app) => step(leave(app)) },
];

/** How the tests of a lot scatter: mean, repeatability, outliers, and whether the stated uncertainty is honest. */
export const replicatesRoom: Room = {
  title: (app) => {
    const { product, lot } = placeOf(app);
    return { left: say`${product} · lot ${lot}`, right: line(say`how its tests scatter`, "dim") };
  },
  body: replicatesBody,
  keys: () => REPLICATES_KEYS,
  field: () => "none",
  typed: (app) => stay(app),
  erased: (app) => stay(app),
  scanned: (app) => stay(app),
  about: [
    "The tests of a lot looked at together. s_r: their standard deviation; r = 2.8 s_r: two tests differ by more once in",
    "twenty pairs. Stated: what can differ between repeats of one sample by the budget of uncertainty (balance, loss, count",
    "of grains). Times: the true scatter over the stated one, with 95 % confidence. More than stated: something is missing in",
    "the budget, or the tests were not of one material. Outliers by Grubbs' test (ISO 5725-2): look for the cause.",
  ],
};
