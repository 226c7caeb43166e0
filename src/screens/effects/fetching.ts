import type { IndexRow } from "../../record/indexRow.ts";
import type { Product } from "../../record/product.ts";
import { usualOf } from "../../run/usual.ts";
import * as answers from "../answers.ts";
import { monthRead } from "../log/logPlace.ts";
import type { Effect } from "../place.ts";
import type { Desk } from "./desk.ts";

/** How many of a product's latest tests tell what is usual for it. */
const USUAL_TESTS = 12;

export async function readMonth(desk: Desk, month: string): Promise<void> {
  const rows = await desk.store.indexRows(month);
  desk.take(monthRead(desk.app(), month, rows));
}

export async function open(desk: Desk, row: IndexRow): Promise<void> {
  const entry = await desk.store.testEntry(row);
  desk.show(entry.ok ? answers.testOpened(desk.app(), entry.value) : { ...desk.app(), message: entry.reason });
}

export async function openDeck(desk: Desk, rows: Extract<Effect, { do: "openDeck" }>["rows"]): Promise<void> {
  const { store } = desk;
  const [feed, oversize, undersize] = await Promise.all([
    store.testEntry(rows.feed),
    store.testEntry(rows.oversize),
    store.testEntry(rows.undersize),
  ]);
  const unread = [feed, oversize, undersize].find((entry) => !entry.ok);
  if (!feed.ok || !oversize.ok || !undersize.ok)
    return desk.show({ ...desk.app(), message: unread?.ok === false ? unread.reason : null });
  desk.show(answers.deckOpened(desk.app(), { feed: feed.value, oversize: oversize.value, undersize: undersize.value }));
}

export async function learnUsual(desk: Desk, product: Product): Promise<void> {
  const rows = (desk.app().recent ?? []).filter((row) => row.product === product.code && row.test !== "invalid");
  const entries = await Promise.all(rows.slice(0, USUAL_TESTS).map((row) => desk.store.testEntry(row)));
  const tests = entries.flatMap((entry) => (entry.ok ? [entry.value.test] : []));
  const sameStack = tests.filter((test) => test.weighings.length === product.stackUm.length + 1);
  desk.show(answers.usualLearnt(desk.app(), product.code, usualOf(sameStack)));
}
