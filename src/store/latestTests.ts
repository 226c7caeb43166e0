import { type IndexRow, isCounted } from "../record/indexRow.ts";
import type { TestRecord } from "../record/test.ts";
import { currentTest } from "../record/versions.ts";
import type { Store } from "./store.ts";
import { MOST_MONTHS } from "./trendReading.ts";

/** How many of the newest tests make a typical one. */
export const PLAN_TESTS = 12;

/** A recorded test as it reads today, with its number and when it was recorded. */
export interface NumberedTest extends TestRecord {
  readonly number: number;
  readonly at: string;
}

export interface LatestTests {
  /** Newest first. */
  readonly tests: readonly NumberedTest[];
  /** Why some are missing, if so. */
  readonly problem: string | null;
}

type Read = Pick<Store, "indexMonths" | "indexRows" | "history">;

async function latestRows(store: Read, product: string, atMost: number): Promise<readonly IndexRow[]> {
  const found: IndexRow[] = [];
  for (const month of store.indexMonths().slice(0, MOST_MONTHS)) {
    if (found.length >= atMost) break;
    const rows = (await store.indexRows(month)).filter((row) => row.product === product && isCounted(row));
    found.push(...rows.toReversed());
  }
  return found.slice(0, atMost);
}

/** The newest tests of a product that count (valid or waived, not void), as they read today. Reads no month more than needed. */
export async function latestTests(store: Read, product: string, atMost: number): Promise<LatestTests> {
  const tests: NumberedTest[] = [];
  let problem: string | null = null;
  for (const row of await latestRows(store, product, atMost)) {
    const history = await store.history(row);
    if (history.ok) tests.push({ ...currentTest(history.value), number: row.number, at: row.at });
    else problem ??= history.reason;
  }
  return { tests, problem };
}
