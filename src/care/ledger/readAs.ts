import canonicalize from "canonicalize";
import type { SieveLife, Tally, WeighedEmpty } from "../../record/careLedger.ts";
import type { TestEntry } from "../../record/logEntry.ts";
import { takenOverIn } from "../../record/takenOver.ts";
import { standing } from "../../record/test.ts";
import { currentTest, standingOf, type TestHistory } from "../../record/versions.ts";
import { isComplete, notesOf } from "../use/life.ts";
import { useOf as doneTo, type SieveUse } from "../use/useOf.ts";
import { type CareLedger, lifeOf, UNUSED } from "./ledger.ts";
import { thinned } from "./thinned.ts";

/** What a test is in the life of one of its sieves. */
interface Share {
  readonly serial: string;
  readonly apertureUm: number;
  readonly use: SieveUse;
  readonly weighed: WeighedEmpty | null;
}

const added = (tally: Tally, { sievedMin, passedKg }: SieveUse): Tally => ({
  tests: tally.tests + 1,
  sievedMin: tally.sievedMin + (sievedMin ?? 0),
  passedKg: tally.passedKg + passedKg,
  untimed: tally.untimed + (sievedMin === null ? 1 : 0),
});

/** Never below nothing, which sums of floating numbers could come to. */
const without = (tally: Tally, { sievedMin, passedKg }: SieveUse): Tally =>
  tally.tests <= 1
    ? UNUSED
    : {
        tests: tally.tests - 1,
        sievedMin: Math.max(0, tally.sievedMin - (sievedMin ?? 0)),
        passedKg: Math.max(0, tally.passedKg - passedKg),
        untimed: Math.max(0, tally.untimed - (sievedMin === null ? 1 : 0)),
      };

/** When a sieve was weighed empty in a test: when its mass was last accepted, else when the test began. */
function weighedAt({ test }: TestEntry, apertureUm: number): string {
  const item = standing(test.trail).findLast((one) => one.field === "emptyG" && one.apertureUm === apertureUm);
  return item?.at ?? test.startedAt;
}

/** None of a void test, and none of the pan. A mass that was taken over is no weighing, corrected or not: it was counted where it was weighed. */
function sharesOf(history: TestHistory): readonly Share[] {
  if (standingOf(history).voided) return [];
  const { entry } = history;
  const { number, day } = entry;
  const test = currentTest(history);
  const unweighed = new Set(takenOverIn(entry.test).map(({ apertureUm }) => apertureUm));
  return test.weighings.flatMap(({ serial, apertureUm, emptyG }) => {
    const use = serial === undefined ? null : doneTo(test, serial);
    if (serial === undefined || use === null || apertureUm === 0) return [];
    const at = weighedAt(entry, apertureUm);
    const isWeighed = emptyG !== null && !unweighed.has(apertureUm);
    return [{ serial, apertureUm, use, weighed: isWeighed ? { number, day, at, testId: test.testId, emptyG } : null }];
  });
}

/** Whether a test lies after the latest complete inspection of a sieve, so that it is counted since then. */
function isSince({ notes }: CareLedger, serial: string, number: number): boolean {
  const complete = notesOf(serial, [...notes.values()]).findLast(({ care }) => isComplete(care));
  return complete === undefined || number > complete.number;
}

function tallied(ledger: CareLedger, share: Share, isCounted: boolean, tally: typeof added): SieveLife {
  const life = lifeOf(ledger, share.serial);
  const used = isCounted ? tally(life.used, share.use) : life.used;
  return { ...life, apertureUm: share.apertureUm, used, ever: tally(life.ever, share.use) };
}

/**
 * Reads a test in the lives of its sieves: its uses and its empty masses, in place of how it was read before.
 *
 * @param before null for a test that was not in the ledger yet
 */
export function readAs(ledger: CareLedger, before: TestHistory | null, now: TestHistory): void {
  const [gone, come] = [before === null ? [] : sharesOf(before), sharesOf(now)];
  const isIn = (shares: readonly Share[], one: Share) =>
    shares.some((other) => canonicalize(other) === canonicalize(one));
  const isCounted = (serial: string) => before === null || isSince(ledger, serial, now.entry.number);
  for (const share of gone.filter((one) => !isIn(come, one))) {
    const life = tallied(ledger, share, isCounted(share.serial), without);
    const weighings = life.weighings.filter(({ number }) => number !== now.entry.number);
    ledger.lives.set(share.serial, { ...life, weighings });
  }
  for (const share of come.filter((one) => !isIn(gone, one))) {
    const life = tallied(ledger, share, isCounted(share.serial), added);
    const weighed = share.weighed === null ? [] : [share.weighed];
    const weighings = [...life.weighings, ...weighed].toSorted((a, b) => a.number - b.number);
    ledger.lives.set(share.serial, { ...life, weighings: [...thinned(life, weighings)] });
  }
}
