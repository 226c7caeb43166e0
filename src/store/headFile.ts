import { headKind } from "../record/kinds.ts";
import type { DayFile, Head } from "../record/logEntry.ts";
import { type Cabinet, found, readFrom } from "./cabinet.ts";
import { type ChainEnd, endTrouble, headAt, movedOn, NO_HEAD } from "./chainEnd.ts";
import { dayCodec } from "./dayCodec.ts";
import { codecOf, durableFile } from "./durableFile.ts";
import { dayPath, headPath } from "./layout.ts";
import { allDays } from "./logFolder.ts";

const codec = codecOf(headKind);

export const writeHead = (cabinet: Cabinet, head: Head): Promise<void> =>
  durableFile(headPath(cabinet.folder), codec, cabinet.disk).write(head);

/** The head file; null when there is none that can be read. */
export async function readHead(cabinet: Cabinet): Promise<Head | null> {
  const read = await readFrom(cabinet, headPath(cabinet.folder), codec);
  if (read.is === "out of reach") cabinet.becomeReadOnly(read.why);
  return read.is === "read" ? read.content : null;
}

/**
 * Where the chain goes on: from the head file and the days that can lie beyond it; without a head file from the whole log,
 * which takes as long as the log is long.
 */
export async function findEnd(cabinet: Cabinet, written: Head | null, days: readonly DayFile[]): Promise<Head> {
  if (written === null && days.length === 0) return NO_HEAD;
  const { head, trouble } = written === null ? await endOfAll(cabinet) : endFrom(written, days);
  if (trouble !== null) found(cabinet, `${trouble}. Run \`sievewright verify\` and tell whoever keeps the records`);
  return head;
}

function endFrom(written: Head, days: readonly DayFile[]): ChainEnd {
  const moved = movedOn(written, days);
  return { head: moved.head, trouble: endTrouble(written, days) ?? moved.trouble };
}

async function endOfAll(cabinet: Cabinet): Promise<ChainEnd> {
  let head = NO_HEAD;
  for await (const day of allDays(cabinet.folder, cabinet.disk)) {
    const read = await readFrom(cabinet, dayPath(cabinet.folder, day), dayCodec);
    const entries = read.is === "read" ? read.content.entries : [];
    for (const entry of entries) if (entry.number > head.number) head = headAt(entry);
  }
  return { head, trouble: "log/head.json was missing; the end of the log was found again from its days" };
}
