import { sumG } from "../../grading/netMass.ts";
import { isAbove } from "../compare.ts";
import { decimalsIn, meantBy, SLIPS, type Slip } from "./mistypes.ts";

/** One number that somebody typed, on which the closure of the masses rests. */
export interface TypedMass {
  readonly field: "chargeG" | "emptyG" | "fullG" | "netG";
  /** The sieve (0: the pan); none for the charge. */
  readonly apertureUm?: number;
  readonly typedG: number;
  /** What this number usually is, e.g. the empty mass of the same sieve last time, and how far it strays. */
  readonly usual?: { readonly massG: number; readonly withinG: number } | undefined;
}

/** One number which, typed otherwise, closes the gap. */
export interface GapExplanation {
  readonly field: TypedMass["field"];
  readonly apertureUm?: number;
  readonly typedG: number;
  readonly meantG: number;
  readonly slip: Slip;
  /** Loss (negative: gain) that would be left, in g. */
  readonly lossLeftG: number;
  /** The meant mass is what this number usually is, and the typed one is not. */
  readonly usual: boolean;
}

/**
 * Which single weighing, if one slip of the fingers made it wrong, would explain why charge and recovered mass do
 * not meet. Each typed number in turn is replaced by everything that could have been meant; what brings the gap
 * within the allowed loss, and leaves no sieve lighter full than empty, is an explanation.
 *
 *     gap = charge - sum(full - empty)
 *
 * @param masses the charge (the dry mass after washing for a washed test) and both weighings of every sieve and pan
 * @param allowedG loss or gain allowed, in g
 * @returns likeliest first: numbers that become what they usually are, then the commoner slip, then the smaller
 *   gap left; empty without a charge or where the gap is allowed already
 * @source common practice, no source
 */
export function explainGap(masses: readonly TypedMass[], allowedG: number): GapExplanation[] {
  const charge = masses.find((m) => m.field === "chargeG");
  const gapG = sumG(masses.map((m) => gapSign(m) * m.typedG));
  if (charge === undefined || !isAbove(Math.abs(gapG), allowedG)) return [];
  const decimals = Math.max(...masses.map((m) => decimalsIn(m.typedG)));
  return masses
    .flatMap((mass) => explanationsBy(mass, masses, gapG, allowedG, decimals))
    .toSorted((a, b) => rank(a) - rank(b) || Math.abs(a.lossLeftG) - Math.abs(b.lossLeftG));
}

function explanationsBy(
  mass: TypedMass,
  masses: readonly TypedMass[],
  gapG: number,
  allowedG: number,
  decimals: number,
): GapExplanation[] {
  if (isUsual(mass, mass.typedG)) return [];
  const { field, apertureUm, typedG } = mass;
  const place = apertureUm === undefined ? {} : { apertureUm };
  const leftG = (meantG: number) => sumG([gapG, gapSign(mass) * meantG, -gapSign(mass) * typedG]);
  const closes = (meantG: number) => !isAbove(Math.abs(gapG + gapSign(mass) * (meantG - typedG)), allowedG);
  return meantBy(typedG, decimals, closes)
    .filter(({ meantG }) => canBe(mass, meantG, masses))
    .map(({ meantG, slip }) => {
      const lossLeftG = leftG(meantG);
      return { field, ...place, typedG, meantG, slip, lossLeftG, usual: isUsual(mass, meantG) };
    });
}

/** A heavier charge or empty sieve widens the gap, a heavier full sieve closes it. */
const gapSign = (mass: TypedMass): 1 | -1 => (mass.field === "chargeG" || mass.field === "emptyG" ? 1 : -1);

const isUsual = (mass: TypedMass, massG: number): boolean =>
  mass.usual !== undefined && !isAbove(Math.abs(massG - mass.usual.massG), mass.usual.withinG);

const rank = (explanation: GapExplanation): number =>
  SLIPS.indexOf(explanation.slip) + (explanation.usual ? 0 : SLIPS.length);

function canBe(mass: TypedMass, meantG: number, masses: readonly TypedMass[]): boolean {
  if (mass.field === "chargeG") return meantG > 0;
  const other = masses.find((m) => m.apertureUm === mass.apertureUm && m.field !== mass.field && m.field !== "chargeG");
  if (other === undefined) return true;
  return mass.field === "fullG" ? meantG >= other.typedG : meantG <= other.typedG;
}
