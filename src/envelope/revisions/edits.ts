import { accepted, type Outcome, refused } from "../../entry/outcome.ts";
import type { ApertureLimit, ValueWish } from "../../record/product.ts";
import type { ProductContent, ProductDraft } from "../../record/productDraft.ts";
import type { LimitOn } from "../limit.ts";
import type { Bounds } from "./bounds.ts";

export type Share = "passingPct" | "retainedPct" | "coarserPct";
export type Side = "min" | "max";

/** What one row of an envelope's table limits. */
export type EditedOn =
  | { readonly kind: "aperture"; readonly share: Share; readonly apertureUm: number }
  | { readonly kind: "value"; readonly wish: ValueWish };

export interface EditRow extends Bounds {
  readonly on: EditedOn;
}

type Edited = Pick<ProductContent, "stackUm" | "envelope" | "values">;
type OnAperture = Extract<EditedOn, { kind: "aperture" }>;

export const shareOf = (limit: ApertureLimit): Share =>
  "passingPct" in limit ? "passingPct" : "retainedPct" in limit ? "retainedPct" : "coarserPct";

const boundsOf = (limit: ApertureLimit): Bounds =>
  "passingPct" in limit ? limit.passingPct : "retainedPct" in limit ? limit.retainedPct : limit.coarserPct;

const isOn = (on: OnAperture, limit: ApertureLimit): boolean =>
  limit.apertureUm === on.apertureUm && shareOf(limit) === on.share;

/** The same as limits are judged by. */
export function limitOnOf(on: EditedOn): LimitOn {
  if (on.kind === "aperture") return { kind: on.share, apertureUm: on.apertureUm };
  const { wish } = on;
  return wish.id === "percentileUm"
    ? { kind: "percentileUm", passingPct: wish.passingPct }
    : { kind: "value", id: wish.id };
}

/** The name by which a value is asked for once. */
export const wishKey = (wish: ValueWish): string =>
  wish.id === "percentileUm" ? `${wish.id}@${wish.passingPct}` : wish.id;

const rowOn = (on: OnAperture, { envelope = [] }: Edited): EditRow => {
  const limit = envelope.find((one) => isOn(on, one));
  return { on, ...(limit ? boundsOf(limit) : {}) };
};

/**
 * The rows in which an envelope is edited: for each sieve of the stack what passes it, with a limit or without, and every
 * other limit on an aperture, coarsest first; then the values asked for in the product's order.
 *
 * @param more limits that are wished for and have no bound yet
 */
export function editRows(product: Edited, more: readonly OnAperture[] = []): readonly EditRow[] {
  const passing = product.stackUm.map(
    (apertureUm): OnAperture => ({ kind: "aperture", share: "passingPct", apertureUm }),
  );
  const limited = (product.envelope ?? []).map(
    (limit): OnAperture => ({ kind: "aperture", share: shareOf(limit), apertureUm: limit.apertureUm }),
  );
  const each = new Map([...passing, ...limited, ...more].map((on) => [`${on.apertureUm} ${on.share}`, on]));
  const apertures = [...each.values()].sort((a, b) => b.apertureUm - a.apertureUm);
  const values = (product.values ?? []).map((wish): EditRow => ({ on: { kind: "value", wish }, ...sidesOf(wish) }));
  return [...apertures.map((on) => rowOn(on, product)), ...values];
}

const sidesOf = ({ min, max }: Bounds): Bounds => ({
  ...(min === undefined ? {} : { min }),
  ...(max === undefined ? {} : { max }),
});

function boundsRefusal(on: EditedOn, { min, max }: Bounds): string | null {
  const isNone = (bound: number | undefined): boolean => bound !== undefined && (bound < 0 || bound > 100);
  const percent = on.kind === "aperture" ? [min, max].find(isNone) : undefined;
  if (percent !== undefined) return `${percent} % is no share of a whole: it lies between 0 and 100`;
  if (min === undefined || max === undefined || min <= max) return null;
  return `at least ${min} is above at most ${max}: nothing could meet both`;
}

/** The limit with these bounds; how the one there was is decided stays. */
function limitOf({ share, apertureUm }: OnAperture, bounds: Bounds, there: ApertureLimit | undefined): ApertureLimit {
  const kept = there?.decision ? { decision: there.decision } : {};
  if (share === "passingPct") return { apertureUm, passingPct: bounds, ...kept };
  return share === "retainedPct"
    ? { apertureUm, retainedPct: bounds, ...kept }
    : { apertureUm, coarserPct: bounds, ...kept };
}

const isOpen = ({ min, max }: Bounds): boolean => min === undefined && max === undefined;

function withApertureBounds(draft: ProductDraft, on: OnAperture, bounds: Bounds): ProductDraft {
  const envelope = draft.envelope ?? [];
  const at = envelope.findIndex((limit) => isOn(on, limit));
  const fresh = isOpen(bounds) ? [] : [limitOf(on, bounds, envelope[at])];
  const next = at < 0 ? [...envelope, ...fresh] : envelope.toSpliced(at, 1, ...fresh);
  return { ...draft, envelope: next.toSorted((a, b) => b.apertureUm - a.apertureUm) };
}

function withWishBounds(draft: ProductDraft, wish: ValueWish, bounds: Bounds): ProductDraft {
  const { min: _m, max: _x, ...asked } = wish;
  const values = (draft.values ?? []).map((one) =>
    wishKey(one) === wishKey(wish) ? ({ ...asked, ...bounds } as ValueWish) : one,
  );
  return { ...draft, values };
}

const withBounds = (draft: ProductDraft, on: EditedOn, bounds: Bounds): ProductDraft =>
  on.kind === "aperture" ? withApertureBounds(draft, on, bounds) : withWishBounds(draft, on.wish, bounds);

/**
 * The draft with one side of one row set, or taken away (null); a limit on an aperture without either side is none.
 *
 * @returns refused where the lower side would be above the upper one, or a percentage is none
 */
export function withBound(draft: ProductDraft, row: EditRow, side: Side, bound: number | null): Outcome<ProductDraft> {
  const { [side]: _replaced, ...other } = sidesOf(row);
  const bounds = bound === null ? other : { ...other, [side]: bound };
  const why = boundsRefusal(row.on, bounds);
  return why === null ? accepted(withBounds(draft, row.on, bounds)) : refused(why);
}

/** The draft without a row: the limit on an aperture, or the value altogether. */
export function withoutRow(draft: ProductDraft, { on }: EditRow): ProductDraft {
  if (on.kind === "aperture") return withApertureBounds(draft, on, {});
  return { ...draft, values: (draft.values ?? []).filter((wish) => wishKey(wish) !== wishKey(on.wish)) };
}

/** The draft with one more value asked for, without a limit yet; refused where it is asked for already. */
export function withWish(draft: ProductDraft, wish: ValueWish): Outcome<ProductDraft> {
  const values = draft.values ?? [];
  if (values.some((one) => wishKey(one) === wishKey(wish))) return refused("this value is asked for already");
  return accepted({ ...draft, values: [...values, wish] });
}

/** The draft decided by the other rule. */
export function withOtherRule(draft: ProductDraft): ProductDraft {
  const rule = draft.decision?.rule === "guarded" ? "simple" : "guarded";
  return { ...draft, decision: { ...draft.decision, rule } };
}
