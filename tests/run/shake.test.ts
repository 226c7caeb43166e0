import { describe, expect, test } from "vitest";
import { secondsToGo } from "../../src/run/shake.ts";
import { EMPTY_G, FILTER_SAND, Hands, SETTING } from "./hands.ts";

const shaking = { plannedS: 600, startedAt: "2026-11-24T03:00:00+01:00", endedAt: null, skipped: null };
const atSecond = (seconds: number) => Date.parse(shaking.startedAt) + seconds * 1000;

describe("the countdown", () => {
  test("is a difference of moments, so that a restart of the program does not stop it", () => {
    expect(secondsToGo(shaking, atSecond(0))).toBe(600);
    expect(secondsToGo(shaking, atSecond(240))).toBe(360);
    expect(secondsToGo(shaking, atSecond(600))).toBe(0);
    expect(secondsToGo(shaking, atSecond(9999))).toBe(0);
  });

  test("shows the plan before the start, and never more than the plan when the clock was set back", () => {
    expect(secondsToGo({ ...shaking, startedAt: null }, atSecond(0))).toBe(600);
    expect(secondsToGo(shaking, atSecond(-86_400))).toBe(600);
  });

  test("needs a plan", () => {
    expect(secondsToGo({ ...shaking, plannedS: 0 }, atSecond(0))).toBeNull();
  });
});

const onShaker = () => new Hands().setsOut().weighs(EMPTY_G);

describe("the shaker", () => {
  test("runs the program that the product names", () => {
    expect(onShaker().run.draft).toMatchObject({ program: { code: "V10" }, shaking: { plannedS: 600 } });
  });

  test("without a program in the library has no plan", () => {
    const { draft } = new Hands({ ...SETTING, programs: [] }, FILTER_SAND).run;
    expect(draft).toMatchObject({ program: null, shaking: { plannedS: 0 } });
  });

  test("has stopped when its time was up, however late that is seen", () => {
    const at = (second: number) => new Date(Date.parse("2026-11-24T02:01:00Z") + second * 1000).toISOString();
    const started = () => onShaker().does({ type: "shakingStarted", at: at(0) });
    expect(started().does({ type: "shakingEnded", at: at(700) }).run.draft.shaking.endedAt).toBe(at(600));
    expect(started().does({ type: "shakingEnded", at: at(590) }).run.draft.shaking.endedAt).toBe(at(590));
    const late = started().does({ type: "shakingSkipped", reason: "lid off", at: at(900) });
    expect(late.run.draft.shaking).toMatchObject({ endedAt: at(600), skipped: "lid off" });
  });

  test("can't end before it was started", () => {
    const hands = onShaker();
    hands.does({ type: "shakingEnded", at: hands.moment() });
    expect(hands.run).toMatchObject({ message: "start the shaker first: Enter", draft: { stage: "shake" } });
  });

  test("is started once", () => {
    const hands = onShaker();
    hands.does({ type: "shakingStarted", at: "2026-11-24T03:05:00+01:00" });
    hands.does({ type: "shakingStarted", at: "2026-11-24T03:06:00+01:00" });
    expect(hands.run.draft.shaking.startedAt).toBe("2026-11-24T03:05:00+01:00");
  });

  test("cut short needs a reason, which goes on record", () => {
    const hands = onShaker();
    hands.does({ type: "shakingSkipped", reason: "  ", at: hands.moment() });
    expect(hands.run.draft.stage).toBe("shake");
    hands.does({ type: "shakingSkipped", reason: "shaken by hand", at: hands.moment() });
    expect(hands.run.draft).toMatchObject({ stage: "weigh full", shaking: { skipped: "shaken by hand" } });
    expect(hands.run.draft.trail.at(-1)?.to).toBe("skipped: shaken by hand");
  });

  test("cut short and taken back is on the shaker again", () => {
    const hands = onShaker();
    hands.does({ type: "shakingSkipped", reason: "power cut", at: hands.moment() }).undoes();
    expect(hands.run.draft).toMatchObject({ stage: "shake", shaking: { skipped: null } });
  });
});
