import type { CheckNote } from "../apertureChosen.ts";
import { referenceCheck, type SieveChecked } from "./referenceCheck.ts";

/** One run of a certified material on a sieve, with what it said of that sieve. */
export interface CheckedOnce {
  readonly number: number;
  readonly day: string;
  readonly at: string;
  /** Code of the material. */
  readonly material: string;
  readonly checked: SieveChecked;
}

/**
 * What every run of a certified material said of one sieve, oldest first: each judged by the material as it was recorded with
 * the run, so that a later certificate changes nothing.
 */
export const checkHistory = (serial: string, notes: readonly CheckNote[]): readonly CheckedOnce[] =>
  notes
    .toSorted((a, b) => a.number - b.number)
    .flatMap(({ number, day, at, care }) => {
      const checked = referenceCheck(care).find((one) => one.serial === serial);
      return checked === undefined ? [] : [{ number, day, at, material: care.material.code, checked }];
    });
