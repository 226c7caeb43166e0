import { headKind } from "../record/kinds.ts";
import type { Head } from "../record/logEntry.ts";
import type { Break, Link, Run } from "./chainParts.ts";
import type { Disk } from "./disk.ts";
import { diskTrouble } from "./diskWords.ts";
import { codecOf, durableFile } from "./durableFile.ts";
import { headPath } from "./layout.ts";
import { LogWalk } from "./logWalk.ts";
import { realDisk } from "./realDisk.ts";
import { contradiction, isExcused, type Witness } from "./witness.ts";

export interface Verified {
  readonly entries: number;
  readonly ok: boolean;
  readonly firstBroken?: Break;
  /** The last entry and its seal: written down elsewhere, they prove later that nothing up to here was changed. */
  readonly head: { readonly number: number; readonly seal: string } | null;
  /** Months whose index doesn't say what the log says; only where that was asked. The log is no worse for it. */
  readonly indexAmiss?: readonly string[];
}

export interface VerifyOptions {
  /** What is known of this log elsewhere: its copies, a head on paper. */
  readonly witnesses?: readonly Witness[];
  /** Compares the index of every month with its days. */
  readonly index?: boolean;
  /** Sees every entry, as it lies in its file, with its seal. */
  readonly passing?: (link: Link, seal: string) => void;
}

/**
 * Walks a log from its first day to its last, a day in memory at a time, and finds the first entry that is changed, missing,
 * out of order or cut off the end. Witnesses are the head file, the index and whatever else is given; against somebody who
 * makes seals, head and index anew only what lies elsewhere helps. Takes no lock and writes nothing.
 */
export async function verifyLog(
  folder: string,
  disk: Disk = realDisk,
  { witnesses = [], index = false, passing }: VerifyOptions = {},
): Promise<Verified> {
  const head = await headOf(folder, disk); // first, so that an entry recorded meanwhile does not look like a cut
  const all = [...(head.head === null ? [] : [headWitness(head.head)]), ...witnesses];
  const numbers = all.map(({ number }) => number);
  const walk = new LogWalk(folder, disk, numbers, passing);
  await walk.all(index || head.head === null ? "all" : "newest");
  const { chain, watch } = walk;
  const told = all
    .filter((one) => !isExcused(one, watch.replaced))
    .map((one) => contradiction(one, watch.met.get(one.number), chain.end(), walk.fileOf));
  chain.note(...told.filter((one) => one !== null));
  walk.noteGone();
  if (head.head === null) chain.note(...headAmiss(head.trouble, chain.end()));
  const firstBroken = chain.firstBreak(walk.goneBetween);
  const end = chain.end();
  return {
    entries: chain.entries,
    ok: firstBroken === null,
    ...(firstBroken === null ? {} : { firstBroken }),
    head: end === null ? null : { number: end.last, seal: end.lastSeal },
    ...(index ? { indexAmiss: walk.amiss } : {}),
  };
}

const headWitness = ({ number, seal, day }: Head): Witness => ({ who: "log/head.json", number, seal, day });

/** Without a head nobody can tell by the log alone whether entries were cut off its end. */
function headAmiss(trouble: string | null, end: Run | null): Break[] {
  if (end === null && trouble === null) return [];
  const what = trouble === null ? "missing: the file is gone" : `unreadable: ${trouble}`;
  const entry = (end?.last ?? 0) + 1;
  return [
    { file: "log/head.json", entry, how: `${what}, so nothing tells whether entries from ${entry} on were cut off` },
  ];
}

async function headOf(folder: string, disk: Disk): Promise<{ head: Head | null; trouble: string | null }> {
  try {
    return { head: await durableFile(headPath(folder), codecOf(headKind), disk).read(), trouble: null };
  } catch (fault) {
    return { head: null, trouble: diskTrouble(fault, "it can't be read") };
  }
}
