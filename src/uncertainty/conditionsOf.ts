import type { Product } from "../record/product.ts";
import type { Balance } from "../record/station.ts";
import type { KnownAperture, Uncertainty } from "../record/uncertainty.ts";
import type { BalanceConditions, Conditions, EndPointConditions, SamplingConditions } from "./conditions.ts";

/** What is known of one test besides its masses and its product; what is absent is not included. */
export interface KnownOfTest {
  /** The balance as the station's file has it. */
  readonly balance?: Omit<Balance, "id" | "capacityG"> | undefined;
  /** In how many portions the charge was sieved; one if nothing is said. */
  readonly portions?: number | undefined;
  /** Rows whose empty reading other tests share, where only what can differ from these is asked. */
  readonly sharedEmptyUm?: readonly number[] | undefined;
  readonly knownApertures?: readonly KnownAperture[] | undefined;
  /** What the check minute moved on each sieve; without an entry none was run. */
  readonly movedG?: readonly { readonly apertureUm: number; readonly massG: number }[] | undefined;
}

/** The same without the fields that are there but hold nothing. */
function stated<T extends object>(fields: T): { [K in keyof T]?: Exclude<T[K], undefined> } {
  const entries = Object.entries(fields).filter(([, there]) => there !== undefined);
  return Object.fromEntries(entries) as { [K in keyof T]?: Exclude<T[K], undefined> };
}

function balanceOf({ balance, portions = 1, sharedEmptyUm }: KnownOfTest): BalanceConditions | undefined {
  if (!balance) return undefined;
  const { readabilityG, repeatabilityG, linearityG, driftG } = balance;
  return stated({ readabilityG, repeatabilityG, linearityG, driftG, portions, sharedEmptyUm });
}

function samplingOf({ sampling }: Uncertainty): SamplingConditions | undefined {
  if (!sampling) return undefined;
  if ("sdPctAt50" in sampling) return { kind: "stated", sdPctAt50: sampling.sdPctAt50 };
  const { sampleG, lotG, grouping } = sampling;
  return { kind: "fundamental", sampleG, ...stated({ lotG, grouping }) };
}

function endPointOf({ remainderPct }: Uncertainty, { movedG = [] }: KnownOfTest): EndPointConditions | undefined {
  if (remainderPct !== undefined) return { remainderPct };
  return movedG.length > 0 ? { movedG } : undefined;
}

/**
 * The conditions of a budget from what the product states (`uncertainty`, `material`) and what is known of the test.
 * Sieves count in any case: without a certificate within the tolerance of the standard series, unless the product takes
 * them as exact. The product's own end-point remainder goes before what a check minute moved.
 */
export function conditionsOf(
  product: Pick<Product, "uncertainty" | "material" | "method"> | null,
  known: KnownOfTest,
): Conditions {
  const uncertainty = product?.uncertainty ?? {};
  const { particleDensityKgM3, volumeShapeFactor } = product?.material ?? {};
  const { dustShare, off } = uncertainty;
  return {
    apertures: {
      known: known.knownApertures ?? [],
      others: uncertainty.apertures === "none" ? "exact" : "tolerance",
      ...(product?.method?.apertures === "effective" ? { by: "effective" as const } : {}),
    },
    material: stated({ particleDensityKgM3, volumeShapeFactor }),
    loss: stated({ dustShare }),
    ...stated({
      balance: balanceOf(known),
      sampling: samplingOf(uncertainty),
      endPoint: endPointOf(uncertainty, known),
      off,
    }),
  };
}
