import { assessTest } from "../../assess/assessTest.ts";
import { remembered } from "../../grading/remembered.ts";
import { currentTest, standingOf, type TestHistory } from "../../record/versions.ts";
import { type LotStanding, lotStanding } from "../../shift/lot.ts";
import type { LotTest } from "../../shift/lotTest.ts";
import type { LotPlace } from "../place.ts";

/** What a recorded test found of its limits, worked out once. */
const limitsOf = remembered((history: TestHistory) => {
  const assessed = assessTest(currentTest(history));
  return assessed.ok ? assessed.value.verdict.limits : [];
});

/** A recorded test as the lot sees it: the verdicts signed for its latest version, its figures as computed today. */
export function lotTestOf(history: TestHistory, lot: string): LotTest {
  const test = currentTest(history);
  const { voided, waived } = standingOf(history);
  const { retest } = test;
  return {
    number: history.entry.number,
    at: history.entry.at,
    test: test.signed.test,
    product: test.signed.product,
    limits: limitsOf(history),
    voided,
    waived,
    ...(retest === undefined ? {} : { retest: { way: retest.way, number: retest.of.number } }),
    ...(test.lot === lot ? {} : { movedTo: test.lot }),
  };
}

export const testsOfLot = ({ histories, lot }: LotPlace): readonly LotTest[] =>
  histories.map((history) => lotTestOf(history, lot));

/** What the tests of the lot say together; null when it has none. */
export function standingOfLot(place: LotPlace): LotStanding | null {
  const last = place.histories.at(-1);
  return last === undefined ? null : lotStanding(testsOfLot(place), currentTest(last).product);
}
