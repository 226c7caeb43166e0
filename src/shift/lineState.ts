import type { IndexRow } from "../record/indexRow.ts";
import type { LogEntry } from "../record/logEntry.ts";
import { ADJUSTMENTS } from "../record/shiftEvents.ts";

/** What was logged of a line besides tests. */
export type LineEvent = Extract<LogEntry, { kind: "line adjusted" }>;

export const isAdjustment = ({ what }: LineEvent): boolean => (ADJUSTMENTS as readonly string[]).includes(what);

/** A recorded test as the sampling plan sees it; a voided one is not seen at all. */
export type Sampled = Pick<
  IndexRow,
  "product" | "line" | "samplingPoint" | "lot" | "at" | "test" | "verdict" | "amended"
>;

/** What the plan has to go by, of the last days, in any order. */
export interface Facts {
  readonly tests: readonly Sampled[];
  readonly events: readonly LineEvent[];
}

export const ms = (at: string): number => Date.parse(at);

export const latest = <T extends { readonly at: string }>(of: readonly T[]): T | null =>
  of.reduce<T | null>((last, one) => (last === null || ms(one.at) >= ms(last.at) ? one : last), null);

export const countable = (tests: readonly Sampled[]): readonly Sampled[] =>
  tests.filter((one) => one.amended?.voided !== true);

/** What runs on a line now: the product of its latest changeover or test, and whether it stands still. */
export interface LineState {
  readonly product: string | null;
  /** Since when this product runs, if a changeover or a start was logged. */
  readonly since: string | null;
  readonly stopped: boolean;
}

/** The state of a line from what was logged and tested on it; nothing known of it: no product, running. */
export function lineState(line: string, { tests, events }: Facts): LineState {
  const ofLine = events.filter((event) => event.line === line);
  const changeover = latest(ofLine.filter(({ what, product }) => what === "changeover" && product !== undefined));
  const test = latest(countable(tests).filter((one) => one.line === line));
  const told = changeover !== null && (test === null || ms(changeover.at) >= ms(test.at));
  const ran = latest(ofLine.filter(({ what }) => what === "stopped" || what === "started"));
  const since = latest([changeover, ran?.what === "started" ? ran : null].filter((event) => event !== null));
  return {
    product: told ? (changeover.product ?? null) : (test?.product ?? null),
    since: since?.at ?? null,
    stopped: ran?.what === "stopped",
  };
}
