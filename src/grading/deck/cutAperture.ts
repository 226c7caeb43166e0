import { accepted, type Outcome, refused } from "../../entry/outcome.ts";
import type { Determination } from "../../record/determination.ts";
import { apertureText } from "../../series/apertureText.ts";
import { listWords, sizeWords } from "../words.ts";
import type { DeckClass } from "./classes.ts";
import type { CoarserPct } from "./massSplit.ts";

/** The aperture at which recoveries are taken. */
export interface CutAperture {
  readonly apertureUm: number;
  /** Why this one, if nobody asked for it. */
  readonly assumption: string | null;
}

const sievesOf = (classes: readonly DeckClass[]): readonly number[] =>
  classes.map(({ apertureUm }) => apertureUm).filter((um) => um > 0);

const farOff = (um: number, sizeUm: number): number => Math.abs(Math.log(um / sizeUm));

/** The sieve of the stack that is nearest a size by ratio. */
const nearest = (classes: readonly DeckClass[], sizeUm: number): number =>
  sievesOf(classes).reduce((best, um) => (farOff(um, sizeUm) < farOff(best, sizeUm) ? um : best));

function asked(classes: readonly DeckClass[], cutUm: number): Outcome<CutAperture> {
  const sieves = sievesOf(classes);
  if (sieves.includes(cutUm)) return accepted({ apertureUm: cutUm, assumption: null });
  const stack = listWords(sieves.map(apertureText));
  return refused(`recoveries are taken at a sieve of the stack, and ${sizeWords(cutUm)} is none: it has ${stack}`);
}

/**
 * Where recoveries are taken: the aperture asked for, which must be one of the stack; else the one nearest the cut size
 * by ratio, and that is told.
 */
export function cutAperture(
  classes: readonly DeckClass[],
  cutUm: number | undefined,
  cutSizeUm: Determination,
): Outcome<CutAperture> {
  if (cutUm !== undefined) return asked(classes, cutUm);
  if (!cutSizeUm.determinable) return refused(`no aperture was given and the cut size is ${cutSizeUm.reason}`);
  const apertureUm = nearest(classes, cutSizeUm.value);
  return accepted({ apertureUm, assumption: `${apertureText(apertureUm)}, the sieve nearest the cut size` });
}

/** % of each stream that is coarser than an aperture of the stack. */
export function coarserThan(classes: readonly DeckClass[], apertureUm: number): CoarserPct {
  const above = classes.filter((each) => each.apertureUm >= apertureUm);
  const sum = (part: (each: DeckClass) => number) =>
    Math.min(
      100,
      above.reduce((total, each) => total + part(each), 0),
    );
  return {
    feed: sum((each) => each.feedPct),
    oversize: sum((each) => each.oversizePct),
    undersize: sum((each) => each.undersizePct),
  };
}
