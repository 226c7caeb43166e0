import type { ThemeName } from "../../record/screen.ts";
import type { Store } from "../../store/store.ts";
import type { Manner } from "../../words/manner.ts";
import type { App, Size, Step } from "../place.ts";

/** How the screens look and sound when they open. */
export interface LookAtStart {
  readonly theme: ThemeName;
  readonly manner: Manner;
  readonly reader: boolean;
  /** Why what was chosen last is not known. */
  readonly problem: string | null;
}

/** What the outside gives the screens. */
export interface Outside {
  readonly store: Store;
  readonly now: () => string;
  readonly programVersion: string;
  readonly bell: () => void;
  /** A clock that only runs forward, in ms, to tell a bouncing key from a wanted one. */
  readonly clockMs: () => number;
  /** How large the window is; absent where there is none. */
  readonly size?: () => Size;
  readonly look?: LookAtStart;
  /** Whether the tour is offered from the start, as on the demo station. */
  readonly tour?: boolean;
}

/** Where an effect works: the outside, and the screens' state as it is at that moment, never as it was before an await. */
export interface Desk extends Outside {
  readonly app: () => App;
  readonly show: (next: App) => void;
  readonly take: (step: Step) => void;
}
