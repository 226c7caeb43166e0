import type { CareMatter } from "../care/matters.ts";
import type { Draft } from "../record/draft.ts";
import type { IndexRow } from "../record/indexRow.ts";
import type { LogEntry } from "../record/logEntry.ts";
import { openHolds } from "./holds.ts";
import type { LateSample } from "./sampling.ts";
import { inShift, type Shift } from "./schedule.ts";

/** One kind of entry, picked from the log. */
export type EntryOf<K extends LogEntry["kind"]> = Extract<LogEntry, { kind: K }>;

/** What the next shift must know, as facts; how it reads is the report's affair. */
export interface Handover {
  readonly shift: Shift;
  /** Tests of the shift as they are to be read today, oldest first, voided ones too. */
  readonly tests: readonly IndexRow[];
  readonly inWork: readonly Draft[];
  /** Holds that are open now, whenever they were opened, and those that this shift closed. */
  readonly open: readonly EntryOf<"hold opened">[];
  readonly closed: readonly EntryOf<"hold closed">[];
  readonly lineEvents: readonly EntryOf<"line adjusted">[];
  readonly balanceChecks: readonly EntryOf<"balance check">[];
  /** What was done to sieves and to the register, and what is to be told of them as they stand now. */
  readonly care: readonly EntryOf<"care" | "registered">[];
  readonly careNow: readonly CareMatter[];
  readonly corrections: readonly EntryOf<"correction" | "voided" | "reinstated" | "waived">[];
  readonly ended: readonly EntryOf<"test ended">[];
  readonly notes: readonly EntryOf<"note">[];
  /** What was found amiss with the station itself: files, clock, lock. */
  readonly station: readonly EntryOf<"finding" | "clock set" | "restored" | "station declared">[];
  readonly late: readonly LateSample[];
  /** The latest signature under this shift's page, and whoever took it over since; null: nobody yet. */
  readonly handed: EntryOf<"handover"> | null;
  readonly taken: EntryOf<"handover taken"> | null;
  /** Where the log ended when this was drawn up; null: no entry yet. */
  readonly head: { readonly number: number; readonly seal: string } | null;
}

export interface HandoverSources {
  readonly shift: Shift;
  /** Entries of all production days that the shift touches, in the order of the log; others are left out. */
  readonly entries: readonly LogEntry[];
  /** All hold entries of the station, or those of it that can still be open. */
  readonly holds: readonly LogEntry[];
  readonly rows: readonly IndexRow[];
  readonly drafts: readonly Draft[];
  readonly late: readonly LateSample[];
  readonly careNow?: readonly CareMatter[];
  readonly head: Handover["head"];
}

const ofKind =
  <K extends LogEntry["kind"]>(...kinds: readonly K[]) =>
  (entry: LogEntry): entry is EntryOf<K> =>
    (kinds as readonly string[]).includes(entry.kind);

const sameMoment = (one: string, other: string): boolean => Date.parse(one) === Date.parse(other);

/** Who handed this shift over and who took it, whenever that was signed. */
function signatures(entries: readonly LogEntry[], shift: Shift): Pick<Handover, "handed" | "taken"> {
  const handed = entries.filter(ofKind("handover")).findLast((entry) => sameMoment(entry.shift.began, shift.began));
  const taken = entries.filter(ofKind("handover taken")).find(({ handover }) => handover.number === handed?.number);
  return { handed: handed ?? null, taken: taken ?? null };
}

/** The handover of one shift, from the log. Entries count by their moment, as instants; order is that of the log. */
export function handoverOf({
  shift,
  entries,
  holds,
  rows,
  drafts,
  late,
  careNow = [],
  head,
}: HandoverSources): Handover {
  const during = entries.filter(({ at }) => inShift(at, shift));
  return {
    shift,
    tests: rows.filter(({ at }) => inShift(at, shift)).toSorted((a, b) => a.number - b.number),
    inWork: drafts,
    open: openHolds(holds),
    closed: during.filter(ofKind("hold closed")),
    lineEvents: during.filter(ofKind("line adjusted")),
    balanceChecks: during.filter(ofKind("balance check")),
    care: during.filter(ofKind("care", "registered")),
    careNow,
    corrections: during.filter(ofKind("correction", "voided", "reinstated", "waived")),
    ended: during.filter(ofKind("test ended")),
    notes: during.filter(ofKind("note")),
    station: during.filter(ofKind("finding", "clock set", "restored", "station declared")),
    late,
    ...signatures(entries, shift),
    head,
  };
}
