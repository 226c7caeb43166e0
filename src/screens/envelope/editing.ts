import { parseNumber } from "../../entry/quantityNumber.ts";
import { type EditRow, editRows, withBound, withOtherRule, withoutRow } from "../../envelope/revisions/edits.ts";
import type { ProductDraft } from "../../record/productDraft.ts";
import { say } from "../../words/say.ts";
import { speaking } from "../../words/speaking.ts";
import { spoken } from "../../words/spoken.ts";
import { type App, type Step, stay, step } from "../place.ts";
import type { Drafting, EnvelopePlace } from "../products/places.ts";
import { draftingOf, withDrafting } from "../products/productAnswers.ts";
import { here } from "../room.ts";

export const placeOf = (app: App): EnvelopePlace => here(app, "envelope");

/** The draft in hand; null once it has been published or discarded elsewhere. */
export const draftingHere = (app: App): Drafting | null => draftingOf(app, placeOf(app).code);

export const rowsOf = (app: App): readonly EditRow[] => {
  const drafting = draftingHere(app);
  return drafting === null ? [] : editRows(drafting.draft, placeOf(app).more);
};

export const rowInHand = (app: App): EditRow | undefined => rowsOf(app)[placeOf(app).at];

export const placed = (app: App, change: Partial<EnvelopePlace>): Step =>
  step({ ...app, message: null, place: { ...placeOf(app), ...change } });

/** The most edits of one sitting that can be taken back. */
const MOST_UNDONE = 200;

/** The app with the draft as it now is; it goes to disk at once. */
export function edited(app: App, draft: ProductDraft, change: Partial<EnvelopePlace> = {}): Step {
  const drafting = draftingHere(app);
  if (drafting === null) return stay(app, say`the draft is gone: Esc`);
  const signed = { ...draft, author: placeOf(app).by };
  const past = [...drafting.past, drafting.draft].slice(-MOST_UNDONE);
  const { app: moved } = placed(app, change);
  return step(withDrafting(moved, { draft: signed, past, onDisk: false }), { do: "saveProductDraft", draft: signed });
}

const typedBound = (app: App) => parseNumber(placeOf(app).typed, speaking().decimal);

/** The draft as it would be with what is being typed; as it is, where that can't be taken. */
export function tentative(app: App): ProductDraft | null {
  const { typed, side } = placeOf(app);
  const [draft, row] = [draftingHere(app)?.draft ?? null, rowInHand(app)];
  if (draft === null || row === undefined || typed === "") return draft;
  const bound = typedBound(app);
  const with_ = bound.ok ? withBound(draft, row, side, bound.value) : bound;
  return with_.ok ? with_.value : draft;
}

/** From the lower side to the upper one, then to the row below. */
function onward({ side, at }: EnvelopePlace, rows: number): Partial<EnvelopePlace> {
  if (side === "min") return { typed: "", side: "max" };
  return { typed: "", side: "min", at: Math.min(rows - 1, at + 1) };
}

/** Enter: what is typed becomes the bound; an empty field leaves what stands there. */
export function acceptBound(app: App): Step {
  const place = placeOf(app);
  const [drafting, row] = [draftingHere(app), rowInHand(app)];
  if (drafting === null || row === undefined) return stay(app, say`no row to edit: a adds a limit`);
  const next = onward(place, rowsOf(app).length);
  if (place.typed === "") return placed(app, next);
  const bound = typedBound(app);
  if (!bound.ok) return stay(app, spoken(bound.reason));
  const draft = withBound(drafting.draft, row, place.side, bound.value);
  return draft.ok ? edited(app, draft.value, next) : stay(app, spoken(draft.reason));
}

/** This side of the row without a limit. */
export function clearBound(app: App): Step {
  const place = placeOf(app);
  const [drafting, row] = [draftingHere(app), rowInHand(app)];
  if (place.typed !== "") return placed(app, { typed: "" });
  if (drafting === null || row === undefined || row[place.side] === undefined)
    return stay(app, say`no limit on this side`);
  const draft = withBound(drafting.draft, row, place.side, null);
  return draft.ok ? edited(app, draft.value) : stay(app, spoken(draft.reason));
}

export function removeRow(app: App): Step {
  const [drafting, row] = [draftingHere(app), rowInHand(app)];
  if (drafting === null || row === undefined) return stay(app, say`no row to remove`);
  const { on } = row;
  const more = placeOf(app).more.filter(
    (one) => on.kind !== "aperture" || one.apertureUm !== on.apertureUm || one.share !== on.share,
  );
  if (on.kind === "aperture" && row.min === undefined && row.max === undefined)
    return more.length < placeOf(app).more.length ? placed(app, { more }) : stay(app, say`this row has no limit`);
  const draft = withoutRow(drafting.draft, row);
  const at = Math.min(placeOf(app).at, editRows(draft, more).length - 1);
  return edited(app, draft, { typed: "", more, at: Math.max(0, at) });
}

export function turnRule(app: App): Step {
  const drafting = draftingHere(app);
  return drafting === null ? stay(app) : edited(app, withOtherRule(drafting.draft));
}

/** The draft as it was before the latest edit; that is an edit of its own to the disk. */
export function undo(app: App): Step {
  const drafting = draftingHere(app);
  const before = drafting?.past.at(-1);
  if (drafting === null || before === undefined) return stay(app, say`nothing to take back`);
  const { app: cleared } = placed(app, { typed: "" });
  const rows = editRows(before, placeOf(app).more).length;
  const at = Math.max(0, Math.min(placeOf(app).at, rows - 1));
  const { app: moved } = placed(cleared, { at });
  const draft = { ...before, author: placeOf(app).by };
  const undone = withDrafting(moved, { draft, past: drafting.past.slice(0, -1), onDisk: false });
  return step(undone, { do: "saveProductDraft", draft });
}

export function moveRow(app: App, by: number): Step {
  const last = Math.max(0, rowsOf(app).length - 1);
  return placed(app, { typed: "", at: Math.max(0, Math.min(last, placeOf(app).at + by)) });
}

export const otherSide = (app: App): Step =>
  placed(app, { typed: "", side: placeOf(app).side === "min" ? "max" : "min" });
