import { envelopeOf } from "../envelope/passingBounds.ts";
import type { Draft } from "../record/draft.ts";
import { columnOf, fieldInHand, type Run } from "./run.ts";

/** Part of the charge that is found again: a test in good order. */
const FOUND = 0.999;
const USUAL_CHARGE_G = 300;
const FIRST_EMPTY_G = 420;
const STEP_G = 3.17;

const middle = (min: number | null | undefined, max: number | null | undefined, otherwise: number): number =>
  min == null ? (max == null ? otherwise : max / 2) : max == null ? (min + 100) / 2 : (min + max) / 2;

/** Part of the charge that passes each row of the stack: the middle of the envelope where it has one, else even steps. */
function passingShares({ product, weighings }: Draft): number[] {
  const bounds = new Map(envelopeOf(product).map((bound) => [bound.apertureUm, bound]));
  let above = 1;
  return weighings.map(({ apertureUm }, row) => {
    if (apertureUm === 0) return 0;
    const even = 100 * (1 - (row + 1) / weighings.length);
    const bound = bounds.get(apertureUm);
    above = Math.min(above, middle(bound?.minPct, bound?.maxPct, Math.min(even, 100 * above)) / 100);
    return above;
  });
}

/** Part of the charge on the row in hand: what is usual for the product, else by its envelope. */
function shareInHand({ draft, at, setting }: Run): number {
  const usual = draft.weighings.map((w) => setting.usual.get(w.apertureUm));
  if (usual.every((sieve) => sieve !== undefined)) {
    const shares = usual.map((sieve) => (sieve.lowShare + sieve.highShare) / 2);
    return (shares[at] ?? 0) / shares.reduce((sum, share) => sum + share, 0);
  }
  const passing = passingShares(draft);
  return (passing[at - 1] ?? 1) - (passing[at] ?? 0);
}

const chargeOf = ({ chargeG, product: { method } }: Draft): number =>
  chargeG ?? method?.chargeG?.target ?? method?.chargeG?.min ?? USUAL_CHARGE_G;

/**
 * What an invented balance shows for the field in hand of a practice test, in g: a test in good order of this product, with
 * the shares that are usual for it, else by its envelope. Invented for practice alone; common practice, no source.
 *
 * @returns null where no mass is asked for
 */
export function practiceMassG(run: Run): number | null {
  const { draft, at } = run;
  if (draft.stage === "set out") return fieldInHand(run) === "chargeG" ? chargeOf(draft) : null;
  const row = draft.weighings[at];
  if (!row || (draft.stage !== "weigh empty" && draft.stage !== "weigh full")) return null;
  if (columnOf(draft.stage) === "emptyG")
    return run.setting.usual.get(row.apertureUm)?.emptyG ?? FIRST_EMPTY_G - STEP_G * at;
  return (row.emptyG ?? 0) + FOUND * chargeOf(draft) * shareInHand(run);
}
