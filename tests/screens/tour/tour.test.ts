import { describe, expect, test } from "vitest";
import { THEME_NAMES } from "../../../src/record/screen.ts";
import { wrapped } from "../../../src/report/columns.ts";
import { testOpened } from "../../../src/screens/answers.ts";
import { GENERAL_KEYS } from "../../../src/screens/general.ts";
import { readingOf } from "../../../src/screens/readingFrame.ts";
import { TOUR } from "../../../src/screens/tour/steps.ts";
import { toured, tourWords, withTour } from "../../../src/screens/tour/tour.ts";
import { anApp, recordedEntry, Stage } from "../stage.ts";

const SMALL = { columns: 60, rows: 16 };
const touring = () => new Stage(withTour(anApp()));
const at = ({ app }: Stage) => (app.tour ? app.tour.at + 1 : "over");

/** What whoever follows the tour presses at each step. */
const FOLLOWED: readonly ((stage: Stage) => Stage)[] = [
  (stage) => stage.types("x"),
  (stage) => stage.presses("enter", "enter", "enter", "enter").enters("300"),
  (stage) => stage.enters("412.3"),
  (stage) => stage.types("u"),
  (stage) => stage.types("?"),
  (stage) => stage.presses("escape", "escape", "escape"),
  (stage) => {
    stage.presses("down", "enter");
    expect(stage.effects.at(-1)).toMatchObject({ do: "open" });
    // What the shell shows once the log has been read.
    stage.app = toured(testOpened(stage.app, { entry: recordedEntry(), later: [] }));
    return stage;
  },
  (stage) => stage.types("v"),
  (stage) => stage.presses("escape").types("t"),
];

function upTo(steps: number): Stage {
  const stage = touring();
  for (const follows of FOLLOWED.slice(0, steps)) follows(stage);
  return stage;
}

describe("the tour", () => {
  test.each(TOUR.map((tourStep, i) => [i + 1, tourStep.words] as const))(
    "step %i, %s: is done by its keys and by nothing before",
    (step) => {
      const stage = upTo(step - 1);
      expect(at(stage)).toBe(step);
      FOLLOWED[step - 1]?.(stage);
      expect(at(stage)).toBe(step === TOUR.length ? "over" : step + 1);
    },
  );

  test("is followed to its end in at most forty keys, records nothing and says how to go on", () => {
    const stage = upTo(TOUR.length);
    expect(stage.keysPressed).toBeLessThanOrEqual(40);
    expect(stage.app.message).toContain("that was the tour");
    expect(stage.effects.map((effect) => effect.do).filter((what) => /^(save|record|drop|end)/.test(what))).toEqual([]);
  });

  test.each(TOUR.map((_, i) => i))(
    "tells step %i above the keys in every theme, at 80x24 and 60x16, in two rows at most, and aloud",
    (steps) => {
      const stage = upTo(steps);
      const told = tourWords(stage.app) ?? "";
      expect(told).toMatch(new RegExp(`^tour ${steps + 1}/${TOUR.length}: .* · Ctrl\\+p ends it$`));
      expect(wrapped(told, SMALL.columns - 2).length).toBeLessThanOrEqual(2);
      expect(wrapped(told, 78)).toHaveLength(1);
      for (const theme of THEME_NAMES)
        for (const size of [SMALL, { columns: 80, rows: 24 }]) {
          const shown = new Stage({ ...stage.app, theme });
          expect(shown.screen(size).replace(/\s+/g, " ")).toContain(told);
          expect(shown.lines(size).length).toBeLessThanOrEqual(size.rows - 1);
        }
      expect(readingOf({ ...stage.app, reader: true })).toContain(told);
    },
  );

  test("takes no key and no place away: the same keys do the same with it and without", () => {
    const keys = ["x", "z", "n", "l", "?", "p", "b", "t", "s", "m", "a"];
    for (const key of keys) {
      const [withIt, without] = [touring().types(key), new Stage().types(key)];
      expect({ ...withIt.app, tour: undefined }).toEqual({ ...without.app, tour: undefined });
      expect(withIt.effects).toEqual(without.effects);
    }
  });

  test("ends for good by one key, and begins again by it alone", () => {
    const stage = upTo(3).presses("ctrl+p");
    expect(at(stage)).toBe("over");
    expect(stage.app.message).toContain("Ctrl+p begins it again");
    stage.presses("escape", "escape").types("x").presses("escape");
    expect(at(stage)).toBe("over");
    expect(stage.screen()).not.toContain("tour 1/");
    expect(at(stage.presses("f12"))).toBe(1);
  });

  test("is not under way where nobody asked for it", () => {
    expect(new Stage().screen()).not.toContain("tour 1/");
    expect(GENERAL_KEYS.filter(({ word }) => word === "tour")).toMatchObject([{ quiet: true }]);
  });

  test("begins with practice again where that was ended too soon", () => {
    const stage = upTo(3).types("z");
    expect(at(stage)).toBe(1);
    expect(at(stage.types("x"))).toBe(2);
  });

  test("passes over recorded tests where there are none", () => {
    const stage = new Stage(withTour(anApp({ recent: [] })));
    for (const follows of FOLLOWED.slice(0, 6)) follows(stage);
    expect(at(stage)).toBe("over");
  });

  test("tells the way to where a step's keys act, from wherever one strayed to", () => {
    expect(tourWords(touring().types("p").app)).toContain("tour 1/9: Esc, step by step, to the bench");
    const practising = upTo(2);
    expect(tourWords(practising.types("?").app)).toContain("tour 3/9: Esc to the bench; x goes on practising");
    practising.presses("escape", "escape", "escape");
    expect(tourWords(practising.app)).toContain("tour 3/9: x goes on practising");
    expect(tourWords(practising.types("n").app)).toContain("tour 3/9: Esc to the bench; x goes on practising");
    expect(tourWords(practising.presses("escape").types("x").app)).toContain("tour 3/9: type the sieve's mass");
    expect(tourWords(upTo(7).presses("escape").app)).toContain("tour 8/9: Down to a recorded test");
  });

  test("keeps to its step while one looks about elsewhere", () => {
    const stage = upTo(5).types("p");
    expect(at(stage)).toBe(6);
    expect(stage.presses("escape", "escape").app.place.name).not.toBe("products");
  });
});
