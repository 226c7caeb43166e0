import type { Draft } from "../../record/draft.ts";
import type { IndexRow } from "../../record/indexRow.ts";
import type { HoldOpened } from "../../shift/holds.ts";
import type { App } from "../place.ts";

/** What Enter can open on the bench, from top to bottom. */
export type BenchItem =
  | { readonly kind: "draft"; readonly draft: Draft }
  | { readonly kind: "new" }
  | { readonly kind: "hold"; readonly hold: HoldOpened }
  | { readonly kind: "test"; readonly row: IndexRow };

const RECENT_SHOWN = 6;
export const HOLDS_SHOWN = 3;

export const benchItems = (app: App): readonly BenchItem[] => [
  ...app.drafts.map((draft) => ({ kind: "draft", draft }) as const),
  { kind: "new" },
  ...app.holds.slice(0, HOLDS_SHOWN).map((hold) => ({ kind: "hold", hold }) as const),
  ...(app.recent ?? []).slice(0, RECENT_SHOWN).map((row) => ({ kind: "test", row }) as const),
];
