import type { BalanceCheck } from "../record/checks.ts";
import type { Draft } from "../record/draft.ts";
import { openHolds } from "../shift/holds.ts";
import { planFacts } from "../store/shiftReading.ts";
import type { Store } from "../store/store.ts";
import type { App } from "./place.ts";
import { libraryRead } from "./products/productAnswers.ts";
import { peopleOf } from "./signOn/people.ts";

/** Enough to fill the bench and its trend. */
const RECENT_TESTS = 60;

/** Which test in work was touched last: after a power cut the hands are still on its stack. */
function lastWorkedOn(drafts: readonly Draft[]): number {
  const touchedMs = drafts.map((draft) => Date.parse(draft.trail.at(-1)?.at ?? draft.startedAt));
  return Math.max(0, touchedMs.indexOf(Math.max(...touchedMs)));
}

/** The screens before the log and the library have been read: enough for a first frame. */
export const startingApp = (store: Store, now: string, programVersion: string): App => ({
  place: { name: "bench", at: lastWorkedOn(store.drafts()) },
  behind: [],
  station: store.station,
  programVersion,
  now,
  readOnly: store.readOnly,
  problems: [...store.problems],
  drafts: store.drafts(),
  recent: null,
  months: store.indexMonths(),
  revisions: [],
  products: [],
  productDrafts: [],
  programs: [],
  holds: [],
  earlier: [],
  lineEvents: [],
  balanceCheck: null,
  session: store.session,
  people: peopleOf(store),
  touchedAt: now,
  operator: "",
  saved: new Map(store.drafts().map((d) => [d.testId, d.trail.length])),
  rung: new Set(),
  message: null,
});

/** A check older than this is no longer looked for: by any rule it is overdue. */
const DAYS_LOOKED_BACK = 7;
const DAY_MS = 24 * 3_600_000;

async function lastBalanceCheck(store: Store, now: string): Promise<BalanceCheck | null> {
  for (let back = -1; back < DAYS_LOOKED_BACK; back++) {
    const day = new Date(Date.parse(now) - back * DAY_MS).toISOString().slice(0, 10);
    const entries = await store.entriesOfDay(day);
    const last = entries.findLast((entry) => entry.kind === "balance check");
    if (last?.kind === "balance check") return last.check;
  }
  return null;
}

/** The screens with the library and the latest tests. */
export async function withLibraryAndLog(app: App, store: Store): Promise<App> {
  const [shelf, drafts, programs, recent, balanceCheck, matters] = await Promise.all([
    store.products(),
    store.productDrafts(),
    store.programs(),
    store.recentRows(RECENT_TESTS),
    lastBalanceCheck(store, app.now),
    store.matters(),
  ]);
  return {
    ...libraryRead(app, { shelf, drafts, programs }),
    balanceCheck,
    recent,
    holds: openHolds(matters),
    readAt: app.now,
    operator: recent[0]?.by ?? "",
    problems: [...store.problems],
  };
}

/** The screens with what the sampling plan counts from; read once the hands can work, since it may take two months of index. */
export async function withPlanFacts(store: Store, now: string): Promise<(app: App) => App> {
  const { tests, events } = await planFacts(store, now);
  return (app) => {
    const shown = new Set((app.recent ?? []).map(({ number }) => number));
    const known = new Set(events.map(({ number }) => number));
    return {
      ...app,
      earlier: tests.filter(({ number }) => !shown.has(number)),
      lineEvents: [...events, ...app.lineEvents.filter(({ number }) => !known.has(number))],
    };
  };
}
