import { accepted, type Outcome } from "../../entry/outcome.ts";
import type { IndexRow } from "../../record/indexRow.ts";
import type { LogEntry, UntimedEntry } from "../../record/logEntry.ts";
import type { MonthWords } from "../../record/monthWords.ts";
import { type TestHistory, versionsOf } from "../../record/versions.ts";
import { entryWords } from "../../report/entryLine.ts";
import { openHolds } from "../../shift/holds.ts";
import type { Shift } from "../../shift/schedule.ts";
import { readHandover, untakenHandover } from "../../store/shiftReading.ts";
import { clockText } from "../../words/figures.ts";
import { phrase, say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import * as answers from "../answers.ts";
import { type App, type Effect, enter, leave } from "../place.ts";
import { withLibraryAndLog, withPlanFacts } from "../reading.ts";
import { readCare } from "./care.ts";
import type { Desk } from "./desk.ts";

type ShiftEffect = Extract<Effect, { do: "recordEvent" | "readHandover" | "readLot" | "keepPage" | "readAgain" }>;

const told = (desk: Desk, message: string): void => desk.show({ ...desk.app(), message });

/** Carries out what was asked for with the shift. */
export function carryOutShift(desk: Desk, effect: ShiftEffect): Promise<void> {
  switch (effect.do) {
    case "recordEvent":
      return recordEvent(desk, effect.entry, effect.page);
    case "readHandover":
      return showHandover(desk, effect.shift);
    case "readLot":
      return showLot(desk, effect);
    case "keepPage":
      return keepPage(desk, effect.page, effect.shift);
    case "readAgain":
      return readAgain(desk);
  }
}

/** Back from the form to what was behind it, with the new entry taken in. */
function eventRecorded(app: App, entry: LogEntry, holds: App["holds"], further: string): App {
  const back = app.place.name === "event" ? leave(app) : app;
  const lineEvents = entry.kind === "line adjusted" ? [...app.lineEvents, entry] : app.lineEvents;
  const message = say`no. ${entry.number}: ${spoken(entryWords(entry))}${further}`;
  return { ...back, holds, lineEvents, operator: entry.by, message };
}

async function recordEvent(desk: Desk, asked: UntimedEntry, page: string | undefined): Promise<void> {
  const recorded = await desk.store.record({ ...asked, at: desk.now() });
  if (!recorded.ok) return desk.show(answers.notRecorded(desk.app(), recorded.reason));
  const entry = recorded.value;
  const kept = entry.kind === "handover" && page !== undefined ? await pageKept(desk, page, entry.shift) : "";
  const holds = openHolds(await desk.store.matters());
  desk.show(eventRecorded(desk.app(), entry, holds, kept));
  if (entry.kind === "care" || entry.kind === "registered") await readCare(desk);
  const { place } = desk.app();
  if (place.name === "handover") await showHandover(desk, place.handover.shift);
  if (place.name === "lot") await showLot(desk, { ...place, again: true });
}

const WRITER_ENDED = phrase("that window has ended: leave and start again to write");

/** What another window has written meanwhile; nobody goes on waiting for one that was ended. */
async function readAgain(desk: Desk): Promise<void> {
  await desk.store.catchUp();
  const read = await withLibraryAndLog({ ...desk.app(), months: desk.store.indexMonths() }, desk.store);
  const learnt = await withPlanFacts(desk.store, desk.now());
  const { place, behind, now } = desk.app();
  const isDone = ({ testId }: { testId: string }) => (read.recent ?? []).some((row) => row.testId === testId);
  const drafts = read.drafts.filter((draft) => !isDone(draft));
  const shown = learnt({ ...read, drafts, place, behind, now, message: say`read again, as of ${clockText(now)}` });
  desk.show((await desk.store.writerEnded()) ? { ...shown, readOnly: WRITER_ENDED } : shown);
}

const pageName = ({ name, began }: Pick<Shift, "name" | "began">): string =>
  `handover-${began.slice(0, 10)}-${name.replace(/[^A-Za-z0-9]+/g, "")}`;

async function pageKept(desk: Desk, page: string, shift: Pick<Shift, "name" | "began">): Promise<string> {
  const kept = await desk.store.keepPage(pageName(shift), page);
  return kept.ok ? say`; page kept as ${kept.value}` : `; ${kept.reason}`;
}

async function keepPage(desk: Desk, page: string, shift: Shift): Promise<void> {
  const kept = await desk.store.keepPage(pageName(shift), page);
  told(desk, kept.ok ? say`page kept as ${kept.value}` : kept.reason);
}

/** The handover place with another shift, or entered with one; what was said last stays to be read. */
async function showHandover(desk: Desk, shift: Shift): Promise<void> {
  const handover = await readHandover(desk.store, shift, desk.now());
  const untaken = await untakenHandover(desk.store);
  const app = desk.app();
  const place = { name: "handover", handover, untaken } as const;
  if (app.place.name === "handover") desk.show({ ...app, place });
  else if (app.place.name === "bench") desk.show(enter(app, place));
}

/** How many months are looked through for tests of a lot; earlier ones where it is known that they have such tests. */
const MONTHS_OF_A_LOT = 12;

/** Whether a month can have tests of a lot; what bore it before a correction is not among the words, so that is looked into. */
const mayHoldLot = (known: MonthWords | undefined, lot: string): boolean =>
  known === undefined ||
  known.words.includes(lot) ||
  known.states.some(({ amended }) => amended !== undefined && amended.corrections > 0);

/** Tests that bear the lot, or bore it before a correction. */
async function lotHistories(desk: Desk, product: string, lot: string): Promise<Outcome<readonly TestHistory[]>> {
  const words = await desk.store.monthWords();
  const isLooked = (month: string, i: number) =>
    i < MONTHS_OF_A_LOT ? mayHoldLot(words.get(month), lot) : words.get(month)?.words.includes(lot) === true;
  const months = desk.store.indexMonths().filter(isLooked).toReversed();
  const rows: IndexRow[] = [];
  for (const month of months) rows.push(...(await desk.store.indexRows(month)));
  const may = rows.filter((row) => row.product === product && (row.lot === lot || (row.amended?.corrections ?? 0) > 0));
  const histories: TestHistory[] = [];
  for (const row of may) {
    const history = await desk.store.history(row);
    if (!history.ok) return history;
    if (versionsOf(history.value).versions.some(({ test }) => test.lot === lot)) histories.push(history.value);
  }
  return accepted(histories);
}

/** The latest closing of a hold on a lot, looked for in the last months and since its first test. */
async function lastClosed(desk: Desk, { product, lot }: LotAsked, tests: readonly TestHistory[]) {
  const [first] = tests.map(({ entry }) => entry.day.slice(0, 7)).toSorted();
  const isLooked = (month: string, i: number) => i < MONTHS_OF_A_LOT || (first !== undefined && month >= first);
  for (const month of desk.store.indexMonths().filter(isLooked)) {
    const events = await desk.store.events(month);
    const found = events.findLast((one) => one.kind === "hold closed" && one.product === product && one.lot === lot);
    if (found?.kind === "hold closed") return found;
    if (month === first) return null;
  }
  return null;
}

type LotAsked = Pick<Extract<Effect, { do: "readLot" }>, "product" | "lot" | "line" | "again">;

/** The place of a lot, read from the log; the mark stays on its test where the lot was in view already. */
async function showLot(desk: Desk, asked: LotAsked): Promise<void> {
  const { product, lot, line, again } = asked;
  const found = await lotHistories(desk, product, lot);
  if (!found.ok) return told(desk, found.reason);
  const histories = found.value;
  const closed = await lastClosed(desk, asked, histories);
  const app = desk.app();
  const there = app.place.name === "lot" && app.place.product === product && app.place.lot === lot ? app.place : null;
  if (again && there === null) return;
  const marked = there?.histories[there.at]?.entry.number;
  const same = histories.findIndex(({ entry }) => entry.number === marked);
  const at = same >= 0 ? same : Math.max(0, histories.length - 1);
  const place = { name: "lot", product, lot, line, histories, closed, at } as const;
  desk.show(app.place.name === "lot" ? { ...app, place } : enter(app, place));
}
