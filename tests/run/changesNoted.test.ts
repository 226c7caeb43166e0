import { describe, expect, test } from "vitest";
import { assessTest } from "../../src/assess/assessTest.ts";
import type { CareKnown } from "../../src/care/known.ts";
import type { Care } from "../../src/record/care.ts";
import { changedSievesIn, changedWords } from "../../src/record/changedSieves.ts";
import { DraftSchema } from "../../src/record/draft.ts";
import { resumeRun } from "../../src/run/start.ts";
import { careEntry, knownOf } from "../care/knownWorld.ts";
import { EMPTY_G, FULL_G, Hands, SETTING } from "./hands.ts";
import { ITEMS } from "./knownSieves.ts";

const BEFORE = "2026-11-24T02:59:00+01:00";
/** Hands take a second for each deed and begin at 3 o'clock: all is weighed empty within the first minute. */
const BETWEEN = "2026-11-24T03:01:00+01:00";

const knowing = (...done: readonly (readonly [at: string, care: Care])[]): CareKnown =>
  knownOf(
    ITEMS,
    done.map(([at, care], k) => careEntry(90 + k, at, care)),
  );
const cleaned: Care = { did: "cleaning", serials: ["S-500-a"], how: "brush" };
const repaired: Care = { did: "repair", serials: ["S-500-a"], what: "frame pressed straight" };

const empties = () =>
  new Hands({ ...SETTING, care: knowing() }).toField("chargeG").enters("300.2").weighs(EMPTY_G).shakes();
const learns = (hands: Hands, care: CareKnown) => hands.does({ type: "careLearnt", care });
/** Full weighings an hour after the empty ones. */
function full(hands: Hands): Hands {
  for (const grams of FULL_G) hands.types(String(grams)).does({ type: "accepted", at: "2026-11-24T04:00:00+01:00" });
  return hands;
}
const noticesOf = ({ run }: Hands) => {
  const assessed = assessTest(run.draft);
  if (!assessed.ok) throw new Error(assessed.reason);
  return assessed.value.notices.filter(({ id }) => id === "sieve-changed");
};

describe("a sieve that was cleaned or repaired after it was weighed empty", () => {
  test("is told while the test is in work, and on its result as a warning that is recorded with the test", () => {
    const hands = learns(empties(), knowing([BETWEEN, cleaned]));
    const text = "S-500-a was cleaned at 03:01, after its empty mass of this test: weigh it empty again";
    expect(changedSievesIn(hands.run.draft).map(changedWords)).toEqual([text]);
    expect(noticesOf(full(hands))).toEqual([{ id: "sieve-changed", severity: "warning", text }]);
    expect(DraftSchema.parse(hands.run.draft)).toEqual(hands.run.draft);
  });

  test("is told when the draft is taken up again, the latest that was done to it", () => {
    const care = knowing([BETWEEN, cleaned], ["2026-11-24T03:05:00+01:00", repaired]);
    const { draft } = resumeRun(empties().run.draft, { ...SETTING, care });
    expect(changedSievesIn(draft).map(changedWords)[0]).toContain("S-500-a was repaired at 03:05");
  });

  test("is not told of what was done before the empty or after the full weighing, nor of another sieve", () => {
    const after = "2026-11-24T04:30:00+01:00";
    const other: Care = { ...cleaned, serials: ["S-500-b"] };
    const hands = learns(full(empties()), knowing([BEFORE, cleaned], [BETWEEN, other], [after, cleaned]));
    expect(noticesOf(hands)).toEqual([]);
  });

  test("is still told when more is done to it after the full weighing", () => {
    const hands = full(learns(empties(), knowing([BETWEEN, cleaned])));
    learns(hands, knowing([BETWEEN, cleaned], ["2026-11-24T04:30:00+01:00", repaired]));
    expect(noticesOf(hands).map(({ text }) => text)[0]).toContain("S-500-a was cleaned at 03:01");
  });

  test("is told no more once it is weighed empty again", () => {
    const hands = learns(empties(), knowing([BETWEEN, cleaned]));
    hands.does({ type: "stageChosen", stage: "weigh empty" });
    for (let row = 0; row < 3; row++) hands.does({ type: "rowDown" });
    hands.types("366.9").does({ type: "accepted", at: "2026-11-24T03:10:00+01:00" });
    expect(hands.run.draft.weighings[3]?.emptyG).toBe(366.9);
    expect(changedSievesIn(hands.run.draft)).toEqual([]);
  });

  test("counts from the weighing of the first test where its mass was taken over", () => {
    const hands = learns(empties(), knowing());
    const at = "2026-11-24T02:00:00+01:00";
    const trail = hands.run.draft.trail.map((item) =>
      item.field === "emptyG" && item.apertureUm === 500 ? { ...item, takenOver: { number: 57, at } } : item,
    );
    const { draft } = resumeRun({ ...hands.run.draft, trail }, { ...SETTING, care: knowing([BEFORE, cleaned]) });
    expect(changedSievesIn(draft).map(changedWords)[0]).toContain("S-500-a was cleaned at 02:59");
  });
});
