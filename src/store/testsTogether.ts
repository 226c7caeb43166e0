import type { RepeatedTest } from "../assess/repeatedTests.ts";
import { accepted, type Outcome } from "../entry/outcome.ts";
import type { IndexRow } from "../record/indexRow.ts";
import { currentTest, standingOf, type TestHistory } from "../record/versions.ts";
import type { Store } from "./store.ts";

type Read = Pick<Store, "indexMonths" | "indexRows" | "history">;

/** A recorded test as it reads today, with what became of it. */
export function repeatedTestOf(history: TestHistory): RepeatedTest {
  const { voided, waived } = standingOf(history);
  const { number, at } = history.entry;
  return { ...currentTest(history), number, at, voided, waived };
}

async function testsOf(store: Read, rows: readonly IndexRow[]): Promise<Outcome<readonly RepeatedTest[]>> {
  const tests: RepeatedTest[] = [];
  for (const row of rows) {
    const history = await store.history(row);
    if (!history.ok) return history;
    tests.push(repeatedTestOf(history.value));
  }
  return accepted(tests.toSorted((a, b) => a.number - b.number));
}

/** The tests of these entry numbers, in the order of the log; months are read from the newest back until all are found. */
export async function testsNumbered(
  store: Read,
  numbers: readonly number[],
): Promise<Outcome<readonly RepeatedTest[]>> {
  const found: IndexRow[] = [];
  for (const month of store.indexMonths()) {
    if (found.length === numbers.length) break;
    found.push(...(await store.indexRows(month)).filter(({ number }) => numbers.includes(number)));
  }
  return testsOf(store, found);
}

/** Every test of a lot, as its lot reads today; of one product, where that is named. */
export async function testsOfLot(
  store: Read,
  lot: string,
  product: string | undefined,
): Promise<Outcome<readonly RepeatedTest[]>> {
  const rows: IndexRow[] = [];
  for (const month of store.indexMonths())
    rows.push(
      ...(await store.indexRows(month)).filter(
        (row) => row.lot === lot && (product === undefined || row.product === product),
      ),
    );
  return testsOf(store, rows);
}
