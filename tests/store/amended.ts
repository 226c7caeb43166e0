// Later entries about recorded tests, as somebody would have them recorded.
import { correctionOf, refTo } from "../../src/assess/correctionOf.ts";
import type { Change } from "../../src/record/amendment.ts";
import type { NewEntry } from "../../src/record/logEntry.ts";
import { currentTest, standsAt } from "../../src/record/versions.ts";
import type { Store } from "../../src/store/store.ts";
import { must } from "./opened.ts";
import { testEntry } from "./records.ts";

export interface Place {
  readonly day: string;
  readonly number: number;
}

/** Records a test and tells where it lies. */
export async function recordedTest(store: Store, testId: string, at?: string): Promise<Place> {
  const { day, number } = must(await store.record(testEntry(testId, at)));
  return { day, number };
}

/** A correction with the verdicts that follow; its changes say what is there now. */
export async function correction(
  store: Store,
  place: Place,
  changed: Pick<Change, "field" | "to"> & { apertureUm?: number },
  at = "2026-11-24T12:00:00+01:00",
): Promise<NewEntry> {
  const history = must(await store.history(place));
  const sought = { ...changed, from: null } as Change;
  const change = { ...changed, from: standsAt(currentTest(history), sought) ?? null } as Change;
  return { ...must(correctionOf(history, [change], "misread at the balance", "0.2.0")), at, by: "KO" };
}

export async function saying(
  store: Store,
  kind: "voided" | "reinstated" | "waived",
  place: Place,
  at = "2026-11-24T12:30:00+01:00",
): Promise<NewEntry> {
  const { entry } = must(await store.history(place));
  return { kind, of: refTo(entry), reason: "the wrong sample was taken", at, by: "KO" };
}
