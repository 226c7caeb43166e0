import { describe, expect, test } from "vitest";
import { assessTest } from "../../src/assess/assessTest.ts";
import { practiceMassG } from "../../src/run/practiceMass.ts";
import { reduceRun } from "../../src/run/reduce.ts";
import type { Run } from "../../src/run/run.ts";
import type { Usual } from "../../src/run/usual.ts";
import { BARLEY, FILTER_SAND, Hands, SETTING } from "./hands.ts";

const AT = "2026-11-24T03:12:00+01:00";
const weighs = (run: Run): Run =>
  reduceRun(run, { type: "scanned", text: `${practiceMassG(run)?.toFixed(2)} g`, ended: true, at: AT });

/** Every mass of a run as the invented balance shows it; doubts accepted by a second weighing are counted. */
function weighed(from: Run): { run: Run; doubts: number } {
  let run = from;
  let doubts = 0;
  for (let keys = 0; keys < 100 && run.draft.stage !== "result"; keys++) {
    if (run.draft.stage === "shake") {
      run = reduceRun(run, { type: "shakingStarted", at: AT });
      run = reduceRun(run, { type: "shakingEnded", at: "2026-11-24T04:12:00+01:00" });
    } else run = weighs(run);
    doubts += run.doubt ? 1 : 0;
  }
  return { run, doubts };
}

describe("the invented balance", () => {
  test("shows nothing where no mass is asked for", () => {
    expect(practiceMassG(new Hands().run)).toBeNull();
  });

  test.each([FILTER_SAND, BARLEY])("weighs $code into a result that can be assessed, without a doubt", (product) => {
    const { run, doubts } = weighed(new Hands(SETTING, product).setsOut().run);
    expect(doubts).toBe(0);
    const assessed = assessTest(run.draft);
    if (!assessed.ok) throw new Error(assessed.reason);
    expect(assessed.value.chargeG).toBeGreaterThan(0);
    expect(Math.abs(assessed.value.lossPct ?? 1)).toBeLessThan(0.2);
  });

  test("keeps to the envelope where the product has one", () => {
    const { run } = weighed(new Hands(SETTING, FILTER_SAND).setsOut().run);
    const assessed = assessTest(run.draft);
    const onSieves = assessed.ok ? assessed.value.verdict.limits.filter(({ on }) => on.startsWith("passing")) : [];
    expect(onSieves.length).toBe(2);
    expect(onSieves.map(({ result }) => result)).toEqual(onSieves.map(() => "within"));
  });

  test("shows what is usual for the product where that is known", () => {
    const hands = new Hands().setsOut();
    const share = 1 / hands.run.draft.weighings.length;
    const usual: Usual = new Map(
      hands.run.draft.weighings.map(({ apertureUm }) => [
        apertureUm,
        { lowShare: share - 0.01, highShare: share + 0.01, emptyG: 333 },
      ]),
    );
    const run = reduceRun(hands.run, { type: "usualLearnt", usual });
    expect(practiceMassG(run)).toBe(333);
    const full: Run = { ...run, draft: { ...run.draft, stage: "weigh full" }, at: 0 };
    const chargeG = run.draft.chargeG ?? 0;
    expect(practiceMassG({ ...full, draft: { ...full.draft, weighings: weighedEmpty(run) } })).toBeCloseTo(
      333 + 0.999 * share * chargeG,
      6,
    );
  });
});

const weighedEmpty = (run: Run) => run.draft.weighings.map((w) => ({ ...w, emptyG: 333 }));
