import type { TestRecord } from "../record/test.ts";
import { apertureText } from "./figures.ts";

/**
 * Which sieves a test was run with, by serial, from the coarsest on; and what of their condition was to be told when it was
 * set out. Nothing where no serial was told.
 */
export function sievesUsedWords({
  set,
  sieves = [],
  weighings,
}: Pick<TestRecord, "set" | "sieves" | "weighings">): string[] {
  const named = weighings.flatMap(({ serial, apertureUm }) =>
    serial === undefined ? [] : [`${apertureText(apertureUm)} ${serial}`],
  );
  if (named.length === 0) return [];
  const unfit = sieves.filter(({ state }) => state !== "fit");
  return [
    `sieves${set === undefined ? "" : ` of set ${set}`}: ${named.join(", ")}`,
    ...unfit.map(({ serial, state, text }) => `sieve ${serial} was ${state}: ${text}`),
  ];
}
