import type { Fraction, Grading } from "../grading/grading.ts";
import { shareAtNominal } from "../grading/nominalShare.ts";
import { sizeFault } from "../grading/standsAt.ts";
import { type Determination, undetermined } from "../record/determination.ts";
import type { ApertureChoice, MeanAperture, MeanApertureKnown } from "../record/meanAperture.ts";
import type { Interpolation, Product } from "../record/product.ts";
import type { TestRecord } from "../record/test.ts";
import type { KnownAperture } from "../record/uncertainty.ts";
import type { KnownOfTest } from "../uncertainty/conditionsOf.ts";

export type OtherApertures = Exclude<ApertureChoice, "nominal">;

/** One sieve of a test as far as its mean aperture is concerned: which one it is, and what was known of it. */
export interface SieveMean {
  readonly apertureUm: number;
  readonly serial: string | null;
  readonly known: MeanApertureKnown | null;
  /** What it lacks where nothing is known. */
  readonly lacks: string | null;
}

/** A sieve on the curve of a result, with what passes at its nominal aperture. */
export interface DrawnSieve extends SieveMean {
  readonly passing: Determination;
}

/** Over which mean apertures a curve is drawn; a curve over nominal ones has none of this. */
export interface DrawnOver {
  readonly choice: OtherApertures;
  /** Coarsest first. */
  readonly of: readonly DrawnSieve[];
}

/** What a product chooses besides nominal apertures; null for those. */
export function otherApertures(product: Pick<Product, "method"> | null): OtherApertures | null {
  const choice = product?.method?.apertures ?? "nominal";
  return choice === "nominal" ? null : choice;
}

const NO_SIEVE = "no serial is told";
const NOT_KNOWN = "nothing is known of it";

function meanOf(apertureUm: number, serial: string | null, means: readonly MeanAperture[]): SieveMean {
  const found = means.find((mean) => mean.serial === serial && mean.apertureUm === apertureUm);
  if (found !== undefined && "meanUm" in found) return { apertureUm, serial, known: found, lacks: null };
  return { apertureUm, serial, known: null, lacks: serial === null ? NO_SIEVE : (found?.lacks ?? NOT_KNOWN) };
}

/** The sieves that were weighed, coarsest first, each with what was known of its mean aperture. */
export const meansOf = (
  weighed: readonly { readonly apertureUm: number; readonly serial?: string | undefined }[],
  means: readonly MeanAperture[],
): readonly SieveMean[] =>
  weighed
    .filter(({ apertureUm }) => apertureUm > 0)
    .toSorted((a, b) => b.apertureUm - a.apertureUm)
    .map(({ apertureUm, serial }) => meanOf(apertureUm, serial ?? null, means));

/** The sieves of a test whose product draws its curve over other apertures than nominal ones; null over those. */
export const meansOfTest = (
  test: Pick<TestRecord, "product" | "weighings"> & Partial<Pick<TestRecord, "meanApertures">>,
): readonly SieveMean[] | null =>
  otherApertures(test.product) === null ? null : meansOf(test.weighings, test.meanApertures ?? []);

/** Fractions with the mean aperture of each sieve; null where it is not known. The pan has none. */
export const overMeans = <F extends Pick<Fraction, "apertureUm">>(
  fractions: readonly F[],
  means: readonly SieveMean[],
): readonly (F & Pick<Fraction, "meanUm">)[] =>
  fractions.map((fraction) => {
    if (fraction.apertureUm === 0) return fraction;
    const mean = means.find(({ apertureUm }) => apertureUm === fraction.apertureUm);
    return { ...fraction, meanUm: mean?.known?.meanUm ?? null };
  });

/** What the uncertainty knows of apertures that the curve is drawn over: those whose own uncertainty is known. */
const knownOf = (means: readonly SieveMean[]): KnownAperture[] =>
  means.flatMap(({ apertureUm, serial, known }) =>
    known?.expandedUm === undefined
      ? []
      : [
          {
            apertureUm,
            ...(serial === null ? {} : { serial }),
            meanUm: known.meanUm,
            expandedUm: known.expandedUm,
          },
        ],
  );

/** What is known of a test for its uncertainty; over mean apertures the uncertainty of these, and nothing else of apertures. */
export const withMeans = (known: KnownOfTest, means: readonly SieveMean[] | null): KnownOfTest =>
  means === null ? known : { ...known, knownApertures: knownOf(means) };

/** Over which apertures the curve of a grading is drawn, with what passes at each nominal one. */
export function drawnOver(
  choice: OtherApertures,
  means: readonly SieveMean[],
  grading: Grading,
  interpolation: Interpolation,
): DrawnOver {
  const fault = sizeFault(grading);
  const passing = (apertureUm: number) =>
    fault === null
      ? (shareAtNominal("passingPct", apertureUm, grading, interpolation) ?? undetermined("it is not in the stack"))
      : undetermined(fault);
  return { choice, of: means.map((mean) => ({ ...mean, passing: passing(mean.apertureUm) })) };
}
