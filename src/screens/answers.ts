import { hasPassed } from "../procedure/balance/balanceState.ts";
import type { BalanceCheck } from "../record/checks.ts";
import type { Draft } from "../record/draft.ts";
import type { IndexRow } from "../record/indexRow.ts";
import type { TestEntry } from "../record/logEntry.ts";
import type { TestHistory } from "../record/versions.ts";
import type { EmptiedTest } from "../run/emptied.ts";
import { minuteToGo } from "../run/proving.ts";
import { reduceRun } from "../run/reduce.ts";
import { secondsToGo } from "../run/shake.ts";
import type { Usual } from "../run/usual.ts";
import { say } from "../words/say.ts";
import { spoken } from "../words/spoken.ts";
import { type App, type DeckPlace, enter, onBench, type Step, stay, step } from "./place.ts";
import { followDay } from "./products/inForce.ts";
import { onDiskAgain, refusedByDisk } from "./unsaved.ts";
import { dispositionText, shortVerdict } from "./words.ts";

/** The draft with this much of its trail is on disk, flushed. */
export const draftSaved = (app: App, draft: Draft): App =>
  onDiskAgain({ ...app, saved: new Map(app.saved).set(draft.testId, draft.trail.length) });

/** The disk refused; the draft stays in memory and is tried again, whole, until the disk takes it. */
export const draftNotSaved = (app: App, reason: string): App => refusedByDisk(app, reason);

const without = (drafts: readonly Draft[], testId: string) => drafts.filter((d) => d.testId !== testId);

export const draftDropped = (app: App, testId: string): App => ({
  ...app,
  drafts: without(app.drafts, testId),
  message: say`dropped: nothing had been weighed in it`,
});

/** The test is on record: back to the bench, where it now stands first among the recorded ones. */
export function testRecorded(app: App, entry: TestEntry, row: IndexRow, holds: App["holds"] = app.holds): App {
  const { test, by } = entry;
  const words = [
    say`recorded as no. ${entry.number}: ${test.product.code} lot ${test.lot}`,
    shortVerdict(row.test, row.verdict).text,
    dispositionText(test.disposition),
  ];
  const drafts = without(app.drafts, test.testId);
  const recent = [row, ...(app.recent ?? [])];
  const month = row.day.slice(0, 7);
  const months = app.months.includes(month) ? app.months : [month, ...app.months];
  const held = holds.find(({ of }) => of?.number === entry.number);
  const told = held === undefined ? words : [...words, say`lot on hold by no. ${held.number}`];
  return { ...onBench({ ...app, drafts, recent, months, holds, operator: by }), message: told.join(" · ") };
}

export const notRecorded = (app: App, reason: string): App => ({
  ...app,
  message: say`not recorded: ${spoken(reason)}`,
});

/** The check is on record; tests set out from now on know of it. */
export const balanceChecked = (app: App, check: BalanceCheck): App => ({
  ...onBench({ ...app, balanceCheck: check, operator: check.by }),
  message: hasPassed(check)
    ? say`balance checked: every weight read within its tolerance`
    : say`balance FAILED its check: take it out of use; what is weighed on it now proves nothing`,
});

/** A recorded test has been read from the log, with all that was said of it later. */
export const testOpened = (app: App, history: TestHistory): App =>
  enter(app, { name: "record", entry: history.entry, later: history.later, view: 0 });

/** The three tests of a deck have been read; whoever has left the log meanwhile stays where they are. */
export const deckOpened = (app: App, streams: DeckPlace["streams"]): App =>
  app.place.name === "log" ? enter(app, { name: "deck", streams, cutAt: 0, view: "curve" }) : app;

/** What is usual for the product of the run in hand has been read from its last tests. */
export function usualLearnt(app: App, code: string, usual: Usual, emptied: readonly EmptiedTest[] = []): App {
  const { place } = app;
  if (place.name !== "run" || place.run.draft.product.code !== code) return app;
  return { ...app, place: { ...place, run: reduceRun(place.run, { type: "usualLearnt", usual, emptied }) } };
}

const isShaking = ({ shaking, stage }: Draft): boolean =>
  stage === "shake" && shaking.startedAt !== null && shaking.endedAt === null && shaking.skipped === null;

/** Places whose drawing changes with the clock; on all others a tick would only disturb the typing. */
function showsClock(app: App): boolean {
  const { place } = app;
  if (place.name !== "run") return place.name === "bench";
  const { draft } = place.run;
  const minute = draft.stage === "weigh full" ? minuteToGo(draft, Date.parse(app.now)) : null;
  return draft.stage === "shake" || (minute !== null && minute > 0);
}

/** A moment has passed: clocks move where they are shown, and a countdown that ran out rings once. */
export function ticked(app: App, now: string): Step {
  const inWork = app.practice ? [...app.drafts, app.practice] : app.drafts;
  const over = inWork.filter(
    (d) => isShaking(d) && secondsToGo(d.shaking, Date.parse(now)) === 0 && !app.rung.has(d.testId),
  );
  const today = followDay(app, now);
  const clocked = showsClock(app) ? { ...today, now } : today;
  const [first] = over;
  if (!first) return step(clocked);
  const rung = new Set([...app.rung, ...over.map((d) => d.testId)]);
  return {
    ...stay({ ...clocked, rung }, say`${first.product.code} lot ${first.lot}: shaking time is up`),
    effects: [{ do: "bell" }],
  };
}
