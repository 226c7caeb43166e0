import type { SieveChange } from "./sieve.ts";
import { standing, type TestRecord } from "./test.ts";

/** A sieve that was cleaned, repaired or returned to service between its empty and its full weighing. */
export interface ChangedSieve extends SieveChange {
  readonly apertureUm: number;
  readonly serial: string;
}

type Tested = Pick<TestRecord, "weighings" | "trail"> & Partial<Pick<TestRecord, "sieves">>;

/** When one mass of a row was weighed, in ms; an empty one taken over: when it was weighed in its first test. Null: not on the trail. */
function weighedMs(trail: TestRecord["trail"], apertureUm: number, column: "emptyG" | "fullG"): number | null {
  const item = standing(trail).findLast((one) => one.field === column && one.apertureUm === apertureUm);
  return item === undefined ? null : Date.parse(item.takenOver?.at ?? item.at);
}

/**
 * Whether something done at a moment came after the empty weighing of a row and before its full one: the empty mass is then
 * not that of the sieve which is weighed full. False where no empty weighing is on the trail.
 */
export function isBetweenWeighings({ weighings, trail }: Tested, apertureUm: number, at: string): boolean {
  const row = weighings.find((one) => one.apertureUm === apertureUm);
  const emptyMs = row?.emptyG == null ? null : weighedMs(trail, apertureUm, "emptyG");
  const fullMs = row?.fullG == null ? null : weighedMs(trail, apertureUm, "fullG");
  const doneMs = Date.parse(at);
  return emptyMs !== null && doneMs > emptyMs && (fullMs === null || doneMs < fullMs);
}

/** Sieves of a test whose empty mass no longer was theirs when they were weighed full, coarsest first. */
export const changedSievesIn = (test: Tested): readonly ChangedSieve[] =>
  test.weighings.flatMap(({ apertureUm, serial }) => {
    const changed = test.sieves?.find((one) => one.serial === serial)?.changed;
    const isLate = changed !== undefined && isBetweenWeighings(test, apertureUm, changed.at);
    return serial !== undefined && isLate ? [{ apertureUm, serial, ...changed }] : [];
  });

const TOLD: Readonly<Record<SieveChange["did"], (serial: string, at: string) => string>> = {
  cleaning: (serial, at) => `${serial} was cleaned at ${at}, after its empty mass of this test: weigh it empty again`,
  repair: (serial, at) => `${serial} was repaired at ${at}, after its empty mass of this test: weigh it empty again`,
  "return to service": (serial, at) =>
    `${serial} was returned to service at ${at}, after its empty mass of this test: weigh it empty again`,
};

/** "S-0500-1 was cleaned at 10:12, after its empty mass of this test: weigh it empty again". */
export const changedWords = ({ serial, did, at }: ChangedSieve): string => TOLD[did](serial, at.slice(11, 16));
