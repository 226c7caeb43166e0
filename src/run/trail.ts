import type { Draft } from "../record/draft.ts";
import { DISPOSITIONS, type Entered, type Shaking, standing, type TrailItem } from "../record/test.ts";
import { withoutLastPortion } from "./portions.ts";
import { checkMinuteIn, ranIn } from "./stillStanding.ts";

/** The draft with one more item on its trail. Nothing on a trail is ever changed or removed. */
export const withItem = (draft: Draft, item: TrailItem): Draft => ({ ...draft, trail: [...draft.trail, item] });

export function weighingSet(draft: Draft, apertureUm: number, column: "emptyG" | "fullG", grams: number | null): Draft {
  const weighings = draft.weighings.map((w) => (w.apertureUm === apertureUm ? { ...w, [column]: grams } : w));
  return { ...draft, weighings };
}

const TAKEN_BACK: Record<string, Partial<Shaking>> = {
  started: { startedAt: null },
  ended: { endedAt: null },
  skipped: { skipped: null, endedAt: null },
};

type Revert = (draft: Draft, item: TrailItem) => Draft;

const revertWeighing =
  (column: "emptyG" | "fullG"): Revert =>
  (draft, item) =>
    weighingSet(draft, item.apertureUm ?? 0, column, typeof item.from === "number" ? item.from : null);

/** Null before: the entry took the word that stood there already, so that word stays. */
const revertText =
  (field: "lot" | "line" | "samplingPoint" | "remark"): Revert =>
  (draft, item) =>
    typeof item.from === "string" ? { ...draft, [field]: item.from } : draft;

const revertMass =
  (field: "moistG" | "dryG" | "chargeG" | "washedG"): Revert =>
  (draft, item) => ({ ...draft, [field]: typeof item.from === "number" ? item.from : null });

/** Whatever stood before the latest standing entry. */
const earlier = ({ trail }: Draft): TrailItem[] => standing(trail).slice(0, -1);

/** How each kind of entry is taken back. A product comes from the library, which is not at hand here. */
const REVERT: Record<Entered, Revert> = {
  product: (draft) => draft,
  lot: revertText("lot"),
  line: revertText("line"),
  samplingPoint: revertText("samplingPoint"),
  remark: revertText("remark"),
  // What set and sieves were before comes from the register, which is not at hand here.
  set: (draft) => draft,
  serial: (draft) => draft,
  moistG: revertMass("moistG"),
  dryG: revertMass("dryG"),
  chargeG: revertMass("chargeG"),
  washedG: revertMass("washedG"),
  emptyG: revertWeighing("emptyG"),
  fullG: revertWeighing("fullG"),
  shaking: (draft, item) => {
    const word = String(item.to).split(":")[0] ?? "";
    return { ...draft, shaking: { ...draft.shaking, ...TAKEN_BACK[word] } };
  },
  ran: (draft) => {
    const { ran: _ran, ...planned } = draft;
    const ran = ranIn(earlier(draft));
    return ran ? { ...planned, ran } : planned;
  },
  portion: (draft) => ({ ...withoutLastPortion(draft), checkMinute: checkMinuteIn(earlier(draft)) }),
  checkMinute: (draft) => ({ ...draft, checkMinute: checkMinuteIn(earlier(draft)) }),
  disposition: (draft, item) => ({
    ...draft,
    disposition: DISPOSITIONS.find((disposition) => disposition === item.from) ?? null,
  }),
};

/** Takes the latest standing entry back: its former content returns, and the trail says so. Null if there is none. */
export function takenBack(draft: Draft, at: string): { draft: Draft; item: TrailItem } | null {
  const item = standing(draft.trail).at(-1);
  if (!item) return null;
  const reverted = REVERT[item.field](draft, item);
  return { draft: withItem(reverted, { ...item, at, from: item.to, to: item.from, undo: true }), item };
}
