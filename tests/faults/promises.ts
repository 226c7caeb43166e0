import { expect } from "vitest";
import type { Store } from "../../src/store/store.ts";

/** What the killed ones were promised over all rounds: entries for good, of drafts the last state. */
export class Promises {
  readonly entries = new Map<string, number>();
  readonly drafts = new Map<string, number>();

  /** Lines of the operator of this folder. */
  take(lines: readonly string[]): void {
    for (const line of lines) {
      const [what, testId = "", figure = ""] = line.split(" ");
      if (what === "draft") this.drafts.set(testId, Number(figure));
      if (what === "entry") {
        this.entries.set(testId, Number(figure));
        this.drafts.delete(testId);
      }
    }
  }

  /** Everything promised is in this store, once, and nothing is in work that is recorded. */
  async expectKept(store: Store): Promise<void> {
    expect(store.readOnly).toBe(null);
    expect(store.problems).toEqual([]);
    const rows = await store.recentRows(Number.POSITIVE_INFINITY);
    const numberOf = new Map(rows.map((row) => [row.testId, row.number]));
    expect(numberOf.size).toBe(rows.length);
    for (const [testId, number] of this.entries) expect([testId, numberOf.get(testId)]).toEqual([testId, number]);
    const weighedIn = new Map(
      store.drafts().map((one) => [one.testId, one.weighings.filter(({ fullG }) => fullG !== null).length]),
    );
    for (const [testId, weighed] of this.drafts)
      if (!numberOf.has(testId)) expect(weighedIn.get(testId), testId).toBeGreaterThanOrEqual(weighed);
    for (const testId of weighedIn.keys()) expect(numberOf.has(testId), testId).toBe(false);
  }
}
