import type { Assessment } from "../assess.ts";
import type { CareKnown } from "../care/known.ts";
import type { Amending } from "../record/amendmentRefusal.ts";
import type { BalanceCheck } from "../record/checks.ts";
import type { Draft } from "../record/draft.ts";
import type { IndexRow } from "../record/indexRow.ts";
import type { TestEntry, UntimedEntry } from "../record/logEntry.ts";
import type { MonthWords } from "../record/monthWords.ts";
import type { Product } from "../record/product.ts";
import type { Program } from "../record/program.ts";
import type { Language, ThemeName } from "../record/screen.ts";
import type { Station } from "../record/station.ts";
import type { StreamName } from "../report/deckFigures.ts";
import type { Run } from "../run/run.ts";
import type { HoldOpened } from "../shift/holds.ts";
import type { LineEvent } from "../shift/lineState.ts";
import type { Shift } from "../shift/schedule.ts";
import type { Session } from "../store/operatorsDesk.ts";
import type { Manner } from "../words/manner.ts";
import type { EventPlace, HandoverPlace, LotPlace } from "./event/places.ts";
import type { PlanEffect, PlanPlace } from "./plan/places.ts";
import type {
  DiffPlace,
  Drafting,
  EnvelopePlace,
  ImportPlace,
  ProductEffect,
  ProductPlace,
  ProductsPlace,
  PublishPlace,
} from "./products/places.ts";
import type { CorrectPlace, ReasonPlace, RecordPlace } from "./record/places.ts";
import type { ReplicatesPlace } from "./replicates/places.ts";
import type { CareEffect, CarePlace } from "./sieves/places.ts";
import type { OperatorFormPlace, OperatorsPlace, PeopleAsk, PeopleShown, SignOnPlace } from "./signOn/people.ts";
import type { TourAt } from "./tour/tourAt.ts";
import type { TrendEffect, TrendPlace } from "./trend/places.ts";

export type { EventAbout, EventPlace, HandoverPlace, LotPlace } from "./event/places.ts";
export type { ProductsPlace } from "./products/places.ts";
export type { CorrectPlace, Reasoned, ReasonPlace, RecordPlace } from "./record/places.ts";

/** What is being typed besides the weighings: a reason, a remark, a filter, initials. */
export interface TextField {
  readonly text: string;
}

export interface BenchPlace {
  readonly name: "bench";
  readonly at: number;
}

/** Words that are asked for while a test runs. */
export type Writing = "skip" | "remark" | "ran";

export interface RunPlace {
  readonly name: "run";
  readonly run: Run;
  /** Which drawing of the result is shown. */
  readonly view: number;
  /** A reason for cutting the shaking short, or a remark, while it is typed. */
  readonly writing: { readonly what: Writing; readonly text: string } | null;
}

/** Signing: what becomes of the product, then who signs. */
export interface SignPlace {
  readonly name: "sign";
  readonly run: Run;
  readonly field: "disposition" | "initials";
  readonly typed: string;
}

/** Recorded tests marked as the streams of a screen deck. */
export type DeckMarks = Readonly<Partial<Record<StreamName, IndexRow>>>;

export interface LogPlace {
  readonly name: "log";
  readonly filter: string;
  readonly at: number;
  readonly rows: readonly IndexRow[];
  /** Months not read yet, newest first. */
  readonly months: readonly string[];
  readonly reading: boolean;
  /** What is known of months without reading them; absent until that is at hand. */
  readonly words?: ReadonlyMap<string, MonthWords>;
  readonly marks: DeckMarks;
}

/** A test whose values are looked into, in progress or recorded. */
export interface ValuesPlace {
  readonly name: "values";
  readonly test: Pick<Draft, "weighings" | "chargeG" | "product" | "balance" | "lot">;
  readonly at: number;
}

/** The balance being checked: what it showed for each weight so far, then who signs. */
export interface BalancePlace {
  readonly name: "balance";
  readonly readG: readonly number[];
  readonly typed: string;
}

/** Three recorded tests as the streams of a screen deck. */
export interface DeckPlace {
  readonly name: "deck";
  readonly streams: Readonly<Record<StreamName, TestEntry>>;
  /** Where recoveries are taken: 0 for the sieve nearest the cut size, else the n-th sieve from the coarsest. */
  readonly cutAt: number;
  readonly view: "curve" | "classes";
}

/** The motion of the library's programs, as written or restated for the other mains frequency. */
export interface ShakerPlace {
  readonly name: "shaker";
  readonly at: number;
  readonly restated: boolean;
}

export interface HelpPlace {
  readonly name: "help";
  readonly of: Exclude<Place, HelpPlace>;
}

export type Place =
  | BenchPlace
  | RunPlace
  | SignPlace
  | LogPlace
  | RecordPlace
  | CorrectPlace
  | ReasonPlace
  | ValuesPlace
  | BalancePlace
  | DeckPlace
  | ShakerPlace
  | ProductsPlace
  | ProductPlace
  | EnvelopePlace
  | DiffPlace
  | PublishPlace
  | ImportPlace
  | SignOnPlace
  | OperatorsPlace
  | OperatorFormPlace
  | EventPlace
  | HandoverPlace
  | LotPlace
  | TrendPlace
  | PlanPlace
  | ReplicatesPlace
  | CarePlace
  | HelpPlace;

export type PlaceName = Place["name"];

/** Everything that the screens draw from. */
export interface App {
  readonly place: Place;
  /** Where Esc leads, nearest last. */
  readonly behind: readonly Place[];
  readonly station: Station;
  readonly programVersion: string;
  readonly now: string;
  /** Why nothing can be recorded here, if so. */
  readonly readOnly: string | null;
  /** When the log was read; a window that only reads does not follow what another one writes. */
  readonly readAt?: string;
  readonly problems: readonly string[];
  readonly drafts: readonly Draft[];
  /** Tests recorded lately, newest first; null until they have been read. */
  readonly recent: readonly IndexRow[] | null;
  readonly months: readonly string[];
  /** Every revision in the library, and the one in force of each product. */
  readonly revisions: readonly Product[];
  readonly products: readonly Product[];
  /** The production day that `products` are in force on; absent until the library has been read. */
  readonly productDay?: string;
  /** Products being written, by code. */
  readonly productDrafts: readonly Drafting[];
  readonly programs: readonly Program[];
  /** Holds that are open. */
  readonly holds: readonly HoldOpened[];
  /** Tests of the last month that `recent` does not cover: the sampling plan counts from them. */
  readonly earlier: readonly IndexRow[];
  /** A practice test that was left; it is in memory alone and in no file. */
  readonly practice?: Draft | null;
  /** How far the tour is; null or absent while none is under way. */
  readonly tour?: TourAt | null;
  /** What was logged of the lines in that time. */
  readonly lineEvents: readonly LineEvent[];
  /** What is known of sieves, balances and weights; absent until it has been read. */
  readonly care?: CareKnown;
  /** The latest check of the balance; null when none was found. */
  readonly balanceCheck: BalanceCheck | null;
  /** Whoever is signed on; then they sign, and nobody else. */
  readonly session: Session | null;
  readonly people: PeopleShown;
  /** When a key was last touched. */
  readonly touchedAt: string;
  /** Initials of whoever signed last. */
  readonly operator: string;
  /** How much of each draft's trail is safely on disk. */
  readonly saved: ReadonlyMap<string, number>;
  /** Tests whose countdown has rung already. */
  readonly rung: ReadonlySet<string>;
  readonly message: string | null;
  /** How it is drawn; dark without it. */
  readonly theme?: ThemeName;
  /** In which language, with which decimal sign; English without it. */
  readonly manner?: Manner;
  /** The letter of each test in work, by which its stack is told from the others. */
  readonly marks?: ReadonlyMap<string, string>;
  /** How many rows the body is scrolled down from where it begins, where it is longer than the window. */
  readonly scrolled?: number;
  /** The window that the latest key was pressed in; 80x24 without it. */
  readonly window?: Size;
  /** Weighing in block digits. */
  readonly big?: boolean;
  /** Nothing is shown until the next key. */
  readonly blank?: boolean;
  /** Drawn as sentences for a screen reader; chosen once, at the start. */
  readonly reader?: boolean;
  /** What the disk said when it last refused an entry; null or absent once everything is on it again. */
  readonly notOnDisk?: string | null;
}

export interface Size {
  readonly columns: number;
  readonly rows: number;
}

/** What the outside must do after a key: the screens themselves touch neither disk nor clock. */
export type Effect =
  | { readonly do: "save"; readonly draft: Draft }
  | { readonly do: "drop"; readonly draft: Draft }
  | { readonly do: "record"; readonly draft: Draft; readonly by: string; readonly assessment: Assessment }
  | { readonly do: "amend"; readonly amending: Amending; readonly by: string }
  | { readonly do: "endTest"; readonly draft: Draft; readonly reason: string; readonly by: string }
  | { readonly do: "recordCheck"; readonly check: BalanceCheck }
  | { readonly do: "readMonth"; readonly month: string }
  | { readonly do: "readMonthWords" }
  | { readonly do: "readAgain" }
  | { readonly do: "open"; readonly row: Pick<IndexRow, "day" | "number"> }
  | { readonly do: "openDeck"; readonly rows: Readonly<Record<StreamName, IndexRow>> }
  | { readonly do: "learnUsual"; readonly product: Product }
  | { readonly do: "recordEvent"; readonly entry: UntimedEntry; readonly page?: string }
  | { readonly do: "readHandover"; readonly shift: Shift }
  | {
      readonly do: "readLot";
      readonly product: string;
      readonly lot: string;
      readonly line: string;
      /** Only where that lot is still in view. */
      readonly again?: true;
    }
  | { readonly do: "keepPage"; readonly page: string; readonly shift: Shift }
  | { readonly do: "readCare" }
  | { readonly do: "people"; readonly ask: PeopleAsk }
  | ProductEffect
  | TrendEffect
  | PlanEffect
  | CareEffect
  | { readonly do: "keepTheme"; readonly theme: ThemeName }
  | { readonly do: "speak"; readonly language: Language }
  | { readonly do: "bell" }
  | { readonly do: "quit" };

export interface Step {
  readonly app: App;
  readonly effects: readonly Effect[];
}

export const stay = (app: App, message: string | null = null): Step => ({ app: { ...app, message }, effects: [] });
export const step = (app: App, ...effects: Effect[]): Step => ({ app, effects });

/** Into another place, the present one behind it. */
export const enter = (app: App, place: Place): App => ({
  ...app,
  message: null,
  place,
  behind: [...app.behind, app.place],
});

/** One step back; on the bench there is nothing behind. */
export function leave(app: App): App {
  const place = app.behind.at(-1);
  return place ? { ...app, message: null, place, behind: app.behind.slice(0, -1) } : app;
}

export const onBench = (app: App): App => ({ ...app, message: null, place: { name: "bench", at: 0 }, behind: [] });
