import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { apertureText } from "../series/apertureText.ts";
import { nextCoarserPrincipalUm } from "../series/principal.ts";
import type { Grading, GradingChoices } from "./grading.ts";
import { remembered } from "./remembered.ts";
import { standsAtUm } from "./standsAt.ts";
import { meanText, pctWords, sizeWords } from "./words.ts";

/** An open end that holds more than this share of the mass, in %, rules the values that rest on its assumed bound. */
export const OPEN_END_WARNING_PCT = 5;

export interface TopEnd {
  /** Everything passes this size. */
  readonly boundUm: number;
  /** What to tell where the bound is used; null if the sieves themselves show it. */
  readonly assumption: string | null;
}

const topSharePct = ({ rows }: Grading): number => rows[0]?.retainedPct ?? 0;
const panSharePct = ({ rows }: Grading): number => rows.at(-1)?.retainedPct ?? 0;

const standsAt = (row: Grading["rows"][number] | undefined): number => (row ? standsAtUm(row) : 0);

/** Where the finest sieve that passes everything stands: no assumption is needed above it. */
const provenTopUm = ({ rows }: Grading): number =>
  standsAt(rows.findLast((row) => row.apertureUm > 0 && row.coarserPct === 0));

function assumedTop(grading: Grading, topUm: number | undefined): Outcome<TopEnd> {
  const coarsestUm = grading.rows[0]?.apertureUm ?? 0;
  const held = `the ${pctWords(topSharePct(grading))} on the ${apertureText(coarsestUm)} sieve`;
  if (topUm === undefined) {
    const boundUm = nextCoarserPrincipalUm(coarsestUm);
    return accepted({ boundUm, assumption: `${held} taken to pass ${apertureText(boundUm)}, the next size of R20/3` });
  }
  if (topUm > standsAt(grading.rows[0])) {
    return accepted({
      boundUm: topUm,
      assumption: `${held} taken to pass ${apertureText(topUm)}, the product's top size`,
    });
  }
  return refused(`the product's top size of ${apertureText(topUm)} contradicts ${held}`);
}

const topEnds = remembered((grading: Grading) =>
  remembered(({ topUm }: GradingChoices): Outcome<TopEnd> => {
    const held = topSharePct(grading) > 0;
    return held ? assumedTop(grading, topUm) : accepted({ boundUm: provenTopUm(grading), assumption: null });
  }),
);

/**
 * The size that everything passes, in um: the finest sieve above which nothing was held; else, by assumption, the
 * product's top size or the next coarser size of R20/3 (CP-9).
 *
 * @returns the bound and the words to tell; or why a given top size cannot be
 */
export const topEnd = (grading: Grading, choices: GradingChoices): Outcome<TopEnd> => topEnds(grading)(choices);

export type PanEnd =
  | { readonly kind: "empty" }
  | { readonly kind: "dropped"; readonly assumption: string }
  | { readonly kind: "sized"; readonly sizeUm: number; readonly assumption: string }
  | { readonly kind: "bounded"; readonly lowerUm: number; readonly assumption: string };

const finestText = (row: Grading["rows"][number] | undefined): string =>
  row && row.meanUm !== undefined ? meanText(standsAtUm(row)) : apertureText(standsAt(row));

/**
 * What the pan's fraction counts as: left out or of one size, as the product says, else a class from half the finest
 * aperture up to it (CP-9). An empty pan needs no assumption.
 *
 * @returns the bound or size in um and the words to tell; or why a given size cannot be
 */
export function panEnd(grading: Grading, { pan }: GradingChoices): Outcome<PanEnd> {
  const finest = grading.rows.at(-2);
  const finestUm = standsAt(finest);
  if (panSharePct(grading) === 0) return accepted({ kind: "empty" });
  const held = `the pan's ${pctWords(panSharePct(grading))}`;
  if (pan === "dropped") return accepted({ kind: "dropped", assumption: `${held} left out` });
  if (pan === undefined) {
    const between = `between ${sizeWords(finestUm / 2)} (half the finest aperture) and ${finestText(finest)}`;
    return accepted({ kind: "bounded", lowerUm: finestUm / 2, assumption: `${held} taken to lie ${between}` });
  }
  if (pan.sizeUm < finestUm) {
    return accepted({ kind: "sized", sizeUm: pan.sizeUm, assumption: `${held} taken as ${apertureText(pan.sizeUm)}` });
  }
  return refused(`the pan's size of ${apertureText(pan.sizeUm)} is not below the finest sieve`);
}

const warning = (end: string, sharePct: number): string =>
  `${end} holds ${pctWords(sharePct)}: values that use its assumed size rest on that assumption`;

/** A warning for each open end whose assumed bound carries more than 5 % of the mass (CP-9), in words. */
export function openEndWarnings(grading: Grading, choices: GradingChoices): string[] {
  const [top, pan] = [topSharePct(grading), panSharePct(grading)];
  const warnings: string[] = [];
  if (top > OPEN_END_WARNING_PCT) warnings.push(warning("the coarsest sieve", top));
  if (pan > OPEN_END_WARNING_PCT && choices.pan !== "dropped") warnings.push(warning("the pan", pan));
  return warnings;
}
