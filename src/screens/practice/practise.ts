import { practiceId } from "../../record/practice.ts";
import type { Setting } from "../../run/run.ts";
import { resumeRun, startRun } from "../../run/start.ts";
import { say } from "../../words/say.ts";
import { type App, enter, type Step, stay } from "../place.ts";
import { testIdOf } from "../run/identity.ts";
import { lastProduct, lastWords, runPlace, settingOf } from "../run/taking.ts";

const LOT = "practice";

/** Lots are named after what they are, so that no real one is typed by habit. */
function practiceSetting(app: App): Setting | null {
  const setting = settingOf(app);
  if (!setting) return null;
  return { ...setting, last: new Map([...setting.last].map(([code, words]) => [code, { ...words, lot: LOT }])) };
}

/**
 * Sets out a practice test of the product tested last, or takes up the one that was left. It lives in memory alone: it is
 * in no file, and goes with the program.
 */
export function practise(app: App, at: string): Step {
  const setting = practiceSetting(app);
  const product = app.practice?.product ?? lastProduct(app);
  if (!setting || !product) return stay(app, say`no product in the library to practise with`);
  const testId = practiceId(testIdOf(at, new Set()));
  const run = app.practice
    ? resumeRun(app.practice, setting)
    : startRun(product, { ...lastWords(app, product), lot: LOT }, setting, {
        testId,
        station: app.station.station,
        at,
      });
  const opened = enter({ ...app, practice: run.draft }, runPlace(run));
  return {
    app: {
      ...opened,
      message: say`practice: nothing of this is ever recorded; for a real test Esc, then n`,
    },
    effects: [{ do: "learnUsual", product }],
  };
}
