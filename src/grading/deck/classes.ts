import { accepted, type Outcome, refused } from "../../entry/outcome.ts";
import { apertureText } from "../../series/apertureText.ts";
import { nextCoarserPrincipalUm } from "../../series/principal.ts";
import { classSizeUm } from "../classSize.ts";
import type { Rows } from "../curve.ts";
import { sizeWords } from "../words.ts";

/** The three streams of a screen deck, each graded on the same stack. */
export interface Streams {
  readonly feed: Rows;
  readonly oversize: Rows;
  readonly undersize: Rows;
}

/** What lies between two neighbouring sieves, in % by mass of each stream. The pan's class has aperture 0. */
export interface DeckClass {
  readonly apertureUm: number;
  /** The middle of the class, geometric: it stands for the class on the partition curve. */
  readonly sizeUm: number;
  /** What to tell where `sizeUm` is used; null between two sieves. */
  readonly assumption: string | null;
  readonly feedPct: number;
  readonly oversizePct: number;
  readonly undersizePct: number;
}

const aperturesOf = ({ rows }: Rows): readonly number[] => rows.map((row) => row.apertureUm);

/** The first aperture that one of the streams has and another lacks. */
function oddAperture(streams: Streams): string | null {
  const stacks = Object.entries(streams).map(([name, grading]) => [name, aperturesOf(grading)] as const);
  const all = [...new Set(stacks.flatMap(([, apertures]) => apertures))];
  for (const apertureUm of all) {
    const lacking = stacks.find(([, apertures]) => !apertures.includes(apertureUm));
    if (lacking)
      return `feed, oversize and undersize need the same stack: the ${lacking[0]} has no ${apertureText(apertureUm)}`;
  }
  return null;
}

/** Shares of what the stream's own classes hold, adding to 100 % whatever the basis of its grading. */
function sharesPct({ rows }: Rows): readonly number[] {
  const whole = rows.reduce((sum, row) => sum + row.retainedPct, 0);
  return rows.map((row) => (100 * row.retainedPct) / whole);
}

/** Middle of the class that ends at the `i`-th sieve of the stack, with the words for an open end (CP-9). */
function middle(apertures: readonly number[], i: number): Pick<DeckClass, "sizeUm" | "assumption"> {
  const [lowerUm = 0, upperUm] = [apertures[i], apertures[i - 1]];
  if (upperUm === undefined) {
    const boundUm = nextCoarserPrincipalUm(lowerUm);
    const assumption = `what lies on the ${apertureText(lowerUm)} sieve is taken to pass ${apertureText(boundUm)}`;
    return { sizeUm: classSizeUm(lowerUm, boundUm, "geometric"), assumption };
  }
  if (lowerUm > 0) return { sizeUm: classSizeUm(lowerUm, upperUm, "geometric"), assumption: null };
  const assumption = `what lies in the pan is taken to be coarser than ${sizeWords(upperUm / 2)}`;
  return { sizeUm: classSizeUm(upperUm / 2, upperUm, "geometric"), assumption };
}

/**
 * The size classes of the three streams, coarsest first, each in % by mass of its stream (what was recovered is
 * 100 %), with the geometric middle in um. The class on the coarsest sieve is taken to end at the next coarser size of
 * R20/3, the pan's at half the finest aperture; both are told wherever they count (CP-9, CP-12).
 * @returns the classes; or, if the streams were not sieved on the same stack, which aperture is missing where
 */
export function deckClasses(streams: Streams): Outcome<readonly DeckClass[]> {
  const odd = oddAperture(streams);
  if (odd) return refused(odd);
  const apertures = aperturesOf(streams.feed);
  const [feed, oversize, undersize] = [
    sharesPct(streams.feed),
    sharesPct(streams.oversize),
    sharesPct(streams.undersize),
  ];
  return accepted(
    apertures.map((apertureUm, i) => ({
      apertureUm,
      ...middle(apertures, i),
      feedPct: feed[i] ?? 0,
      oversizePct: oversize[i] ?? 0,
      undersizePct: undersize[i] ?? 0,
    })),
  );
}
