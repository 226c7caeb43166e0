import { accepted, type Outcome } from "../../entry/outcome.ts";
import { type IndexRow, isCounted } from "../../record/indexRow.ts";
import type { TestEntry } from "../../record/logEntry.ts";
import type { Product } from "../../record/product.ts";
import { takenOverIn } from "../../record/takenOver.ts";
import { currentTest, standingOf } from "../../record/versions.ts";
import type { EmptiedTest } from "../../run/emptied.ts";
import { usualOf } from "../../run/usual.ts";
import { latestTests, PLAN_TESTS } from "../../store/latestTests.ts";
import type { Store } from "../../store/store.ts";
import * as answers from "../answers.ts";
import { monthRead, wordsRead } from "../log/logPlace.ts";
import type { Effect } from "../place.ts";
import { planRead } from "../plan/reachPlan.ts";
import type { Desk } from "./desk.ts";

/** How many of a product's latest tests tell what is usual for it. */
const USUAL_TESTS = 12;

/** A recorded test as it is to be read today: the weighings of its latest version. */
async function currentEntry(store: Store, row: IndexRow): Promise<Outcome<TestEntry>> {
  const history = await store.history(row);
  return history.ok ? accepted({ ...history.value.entry, test: currentTest(history.value) }) : history;
}

export async function readMonth(desk: Desk, month: string): Promise<void> {
  const rows = await desk.store.indexRows(month);
  desk.take(monthRead(desk.app(), month, rows));
}

export async function readMonthWords(desk: Desk): Promise<void> {
  const words = await desk.store.monthWords();
  desk.take(wordsRead(desk.app(), words));
}

export async function open(desk: Desk, row: Pick<IndexRow, "day" | "number">): Promise<void> {
  const history = await desk.store.history(row);
  desk.show(history.ok ? answers.testOpened(desk.app(), history.value) : { ...desk.app(), message: history.reason });
}

export async function openDeck(desk: Desk, rows: Extract<Effect, { do: "openDeck" }>["rows"]): Promise<void> {
  const { store } = desk;
  const [feed, oversize, undersize] = await Promise.all([
    currentEntry(store, rows.feed),
    currentEntry(store, rows.oversize),
    currentEntry(store, rows.undersize),
  ]);
  const unread = [feed, oversize, undersize].find((entry) => !entry.ok);
  if (!feed.ok || !oversize.ok || !undersize.ok)
    return desk.show({ ...desk.app(), message: unread?.ok === false ? unread.reason : null });
  desk.show(answers.deckOpened(desk.app(), { feed: feed.value, oversize: oversize.value, undersize: undersize.value }));
}

/** How many of the latest tests on a stack are looked through for empty masses to take over. */
const EMPTIED_TESTS = 12;

/**
 * The latest tests on the stack of a product, whatever they were of, where its method takes empty masses over; and those in
 * which their masses were weighed.
 */
async function emptiedLately({ app, store }: Desk, product: Product): Promise<readonly EmptiedTest[]> {
  if (product.method?.emptyMasses !== "each shift") return [];
  const stack = ({ stackUm }: Product) => stackUm.toSorted((a, b) => a - b).join();
  const codes = new Set(
    [product, ...app().revisions].filter((one) => stack(one) === stack(product)).map((p) => p.code),
  );
  const rows = (app().recent ?? []).filter((row) => codes.has(row.product));
  const latest = await emptiedIn(store, rows.slice(0, EMPTIED_TESTS));
  const origins = new Set(latest.flatMap(({ test }) => takenOverIn(test).map(({ number }) => number)));
  for (const { number } of latest) origins.delete(number);
  return [
    ...latest,
    ...(await emptiedIn(
      store,
      rows.filter(({ number }) => origins.has(number)),
    )),
  ];
}

async function emptiedIn(store: Store, rows: readonly IndexRow[]): Promise<readonly EmptiedTest[]> {
  const histories = await Promise.all(rows.map((row) => store.history(row)));
  return histories.flatMap((history) => {
    if (!history.ok) return [];
    const { number } = history.value.entry;
    return [{ number, voided: standingOf(history.value).voided, test: currentTest(history.value) }];
  });
}

export async function learnUsual(desk: Desk, product: Product): Promise<void> {
  const rows = (desk.app().recent ?? []).filter((row) => row.product === product.code && isCounted(row));
  const entries = await Promise.all(rows.slice(0, USUAL_TESTS).map((row) => currentEntry(desk.store, row)));
  const tests = entries.flatMap((entry) => (entry.ok ? [entry.value.test] : []));
  const sameStack = tests.filter((test) => test.weighings.length === product.stackUm.length + 1);
  const emptied = await emptiedLately(desk, product);
  desk.show(answers.usualLearnt(desk.app(), product.code, usualOf(sameStack), emptied));
}

export async function readPlan(desk: Desk, product: string): Promise<void> {
  const latest = await latestTests(desk.store, product, PLAN_TESTS);
  desk.show(planRead(desk.app(), product, latest));
}
