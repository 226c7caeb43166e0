import type { LimitDecision } from "../record/decision.ts";
import type { ApertureLimit, Product, ValueWish } from "../record/product.ts";
import type { ValueId } from "../record/valueIds.ts";

export type LimitResult = "within" | "below" | "above" | "borderline" | "not determinable";

/** What a limit is put on. */
export type LimitOn =
  | { readonly kind: "passingPct" | "retainedPct" | "coarserPct"; readonly apertureUm: number }
  | { readonly kind: "percentileUm"; readonly passingPct: number }
  | { readonly kind: "value"; readonly id: ValueId };

/** One limit of a product: lower and upper bound, both inclusive; null where that side is open. */
export interface Limit {
  readonly on: LimitOn;
  readonly min: number | null;
  readonly max: number | null;
  /** How this limit is decided where otherwise than the product's others. */
  readonly decision?: LimitDecision;
}

/** One limit and what a test says of it. */
export interface JudgedLimit {
  /** `passingPct@500`, `retainedPct@500`, `coarserPct@500`, `percentileUm@50` or a value id. */
  readonly on: string;
  readonly value: number | null;
  readonly min: number | null;
  readonly max: number | null;
  readonly result: LimitResult;
  /** Why it is not determinable, or what the value rests on. */
  readonly reason?: string;
  /** What a guarded rule decided with; absent under the simple one. */
  readonly guarded?: GuardedBy;
}

/** What a guarded rule decided with, in the unit of the value. */
export interface GuardedBy {
  /** Standard uncertainty, and expanded with k = 2. */
  readonly u: number;
  readonly U: number;
  /** Width of the guard band. */
  readonly guard: number;
  /** The chance, 0 to 1, that the true value meets the limit. */
  readonly conformity: number;
}

/** The name of a limit in results and records: `passingPct@500`, `percentileUm@50`, `finenessModulus`. */
export function limitName(on: LimitOn): string {
  if (on.kind === "value") return on.id;
  return on.kind === "percentileUm" ? `percentileUm@${on.passingPct}` : `${on.kind}@${on.apertureUm}`;
}

const boundsOf = ({ min, max }: { min?: number | undefined; max?: number | undefined }) => ({
  min: min ?? null,
  max: max ?? null,
});

const ownDecision = ({ decision }: { decision?: LimitDecision | undefined }) => (decision ? { decision } : {});

function onAperture(limit: ApertureLimit): Limit {
  const [kind, range] =
    "passingPct" in limit
      ? (["passingPct", limit.passingPct] as const)
      : "retainedPct" in limit
        ? (["retainedPct", limit.retainedPct] as const)
        : (["coarserPct", limit.coarserPct] as const);
  return { on: { kind, apertureUm: limit.apertureUm }, ...boundsOf(range), ...ownDecision(limit) };
}

function onValue(wish: ValueWish): Limit {
  const on: LimitOn =
    wish.id === "percentileUm" ? { kind: "percentileUm", passingPct: wish.passingPct } : { kind: "value", id: wish.id };
  return { on, ...boundsOf(wish), ...ownDecision(wish) };
}

/**
 * All limits of a product revision: those on apertures, coarsest first, then those on characteristic values in the
 * product's own order. A value that is only asked for, without min or max, is no limit.
 */
export function limitsOf(product: Pick<Product, "envelope" | "values">): Limit[] {
  const envelope = (product.envelope ?? []).toSorted((a, b) => b.apertureUm - a.apertureUm).map(onAperture);
  const values = (product.values ?? []).filter((v) => v.min !== undefined || v.max !== undefined).map(onValue);
  return [...envelope, ...values];
}
