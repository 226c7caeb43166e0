import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import type { Change } from "./amendment.ts";
import type { Amendment, TestEntry } from "./logEntry.ts";
import type { TestRecord, Weighing } from "./test.ts";

/** A recorded test with all that was said of it later, in the order of the log. */
export interface TestHistory {
  readonly entry: TestEntry;
  readonly later: readonly Amendment[];
}

/** How a test reads after one more entry about it; the first version is the original. */
export interface Version {
  readonly test: TestRecord;
  /** The entry that made it so: the original, or a correction. */
  readonly number: number;
  readonly at: string;
  readonly by: string;
  readonly reason: string | null;
}

type Masses = Pick<TestRecord, "chargeG" | "washedG" | "moistG" | "dryG">;

const weighingAt = (test: TestRecord, apertureUm: number): Weighing | undefined =>
  test.weighings.find((weighing) => weighing.apertureUm === apertureUm);

/** What stands in a test where a change applies; undefined when the test has no such sieve. */
export function standsAt(test: TestRecord, change: Change): number | string | null | undefined {
  switch (change.field) {
    case "emptyG":
    case "fullG":
      return weighingAt(test, change.apertureUm)?.[change.field];
    case "chargeG":
    case "washedG":
    case "moistG":
    case "dryG":
      return (test satisfies Masses)[change.field] ?? null;
    default:
      return test[change.field];
  }
}

function changed(test: TestRecord, change: Change): TestRecord {
  if (change.field !== "emptyG" && change.field !== "fullG") return { ...test, [change.field]: change.to };
  const weighings = test.weighings.map((weighing) =>
    weighing.apertureUm === change.apertureUm ? { ...weighing, [change.field]: change.to } : weighing,
  );
  return { ...test, weighings };
}

/**
 * A test read with changes: each must find what it says stood there, else it is refused and names the field. The test
 * given is not touched, nor is its trail: what was entered at the time stays what was entered.
 */
export function withChanges(test: TestRecord, changes: readonly Change[]): Outcome<TestRecord> {
  let now = test;
  for (const change of changes) {
    const stood = standsAt(now, change);
    if (stood === undefined) return refused(`the test has no sieve for the correction of ${change.field}`);
    if (stood !== change.from)
      return refused(`the correction of ${change.field} finds ${stood}, where it says ${change.from} stood`);
    now = changed(now, change);
  }
  return accepted(now);
}

interface Versions {
  readonly versions: readonly Version[];
  readonly unfit: readonly number[];
}

/** Histories never change, so that each version is made once: what was found out about it holds as long as it exists. */
const KNOWN = new WeakMap<TestEntry, WeakMap<TestHistory["later"], Versions>>();

/**
 * Every version of a test, the original first. A correction that does not fit what it corrects (which only a tampered log
 * can hold) is left out and its entry number is told in `unfit`.
 */
export function versionsOf({ entry, later }: TestHistory): Versions {
  const ofEntry = KNOWN.get(entry) ?? new WeakMap<TestHistory["later"], Versions>();
  KNOWN.set(entry, ofEntry);
  const known = ofEntry.get(later) ?? drawnVersions({ entry, later });
  ofEntry.set(later, known);
  return known;
}

function drawnVersions({ entry, later }: TestHistory): Versions {
  const { test, number, at, by } = entry;
  const versions: Version[] = [{ test, number, at, by, reason: null }];
  const unfit: number[] = [];
  let now = test;
  for (const one of later) {
    if (one.kind !== "correction") continue;
    const next = withChanges(now, one.changes);
    if (next.ok) {
      now = { ...next.value, signed: one.signed };
      versions.push({ test: now, number: one.number, at: one.at, by: one.by, reason: one.reason });
    } else unfit.push(one.number);
  }
  return { versions, unfit };
}

/** A test as it is to be read today. */
export const currentTest = (history: TestHistory): TestRecord =>
  versionsOf(history).versions.at(-1)?.test ?? history.entry.test;

/** How a test stands among the others: corrected how often, voided or not, waived or not. */
export interface Standing {
  readonly corrections: number;
  readonly voided: boolean;
  readonly waived: boolean;
}

/** The latest word counts: a reinstated test is void no longer. */
export function standingOf({ later }: { readonly later: readonly Pick<Amendment, "kind">[] }): Standing {
  const lastOf = later.findLast(({ kind }) => kind === "voided" || kind === "reinstated");
  return {
    corrections: later.filter(({ kind }) => kind === "correction").length,
    voided: lastOf?.kind === "voided",
    waived: later.some(({ kind }) => kind === "waived"),
  };
}
