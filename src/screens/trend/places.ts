import type { UntimedEntry } from "../../record/logEntry.ts";
import type { TrendView } from "../../report/trendDrawing.ts";
import type { TrendSwitches } from "../../shift/trend.ts";
import type { Zoom } from "../../shift/trendWindow.ts";
import type { TrendReach, TrendRead } from "../../store/trendReading.ts";

/** Pages of the trend: the chart of one figure, curves over one another, all limits small; and lists to choose from. */
export type TrendPage = "chart" | "curves" | "limits" | "figures" | "products" | "rules" | "words";

/** Limits about to be frozen: why, then who signs. */
export interface Keeping {
  readonly field: "reason" | "initials";
  readonly reason: string;
  readonly typed: string;
}

export interface TrendPlace {
  readonly name: "trend";
  readonly product: string;
  /** Null until it is known on which line the product was tested last. */
  readonly line: string | null;
  /** The figure, as limits are named; null: the one to begin with. */
  readonly on: string | null;
  /** Null while nothing has been read yet. */
  readonly read: TrendRead | null;
  /** What is on its way from the log; null: nothing. */
  readonly reading: TrendReach | null;
  /** How far back was asked for last: where that brought no more, it is not asked for again. */
  readonly reached: TrendReach | null;
  readonly zoom: Zoom;
  /** Id of the test in hand; null: the newest. */
  readonly cursor: string | null;
  /** How many of the newest tests lie beyond the right edge. */
  readonly beyond: number;
  readonly view: TrendView;
  readonly switches: TrendSwitches;
  readonly page: TrendPage;
  /** Of the list or page in hand: the mark, and what is typed to narrow it. */
  readonly at: number;
  readonly filter: string;
  /** Tests marked for the overlay, by id. */
  readonly marked: readonly string[];
  /** How many curves lie over one another when none is marked. */
  readonly curves: number;
  readonly keeping: Keeping | null;
}

export type TrendEffect =
  | { readonly do: "readTrend"; readonly product: string; readonly line: string | null; readonly reach: TrendReach }
  | { readonly do: "freezeLimits"; readonly entry: Extract<UntimedEntry, { kind: "limits frozen" }> };
