import { join } from "node:path";
import { z } from "zod";
import { headKind } from "../record/kinds.ts";
import type { Head } from "../record/logEntry.ts";
import { isTooDeep } from "../record/nesting.ts";
import { type Break, joinBreaks, type Link, missing, type Run, runsOf } from "./chainRuns.ts";
import type { Disk } from "./disk.ts";
import { diskTrouble } from "./diskWords.ts";
import { codecOf, durableFile } from "./durableFile.ts";
import { dayPath, headPath, shortName } from "./layout.ts";
import { allDays } from "./logFolder.ts";
import { realDisk } from "./realDisk.ts";

export interface Verified {
  readonly entries: number;
  readonly ok: boolean;
  readonly firstBroken?: Break;
  /** The last entry and its seal: written down elsewhere, they prove later that nothing up to here was changed. */
  readonly head: { readonly number: number; readonly seal: string } | null;
}

/** Looks at no more than the chain needs and changes nothing: the seal is taken over exactly what lies in the file. */
const isDay = (json: unknown): json is { entries: readonly Link[] } => DaySchema.safeParse(json).success;
const DaySchema = z.looseObject({
  schema: z.string().regex(/^sievewright\.day\//),
  entries: z.array(z.looseObject({ number: z.int().positive(), day: z.string(), previous: z.string() })),
});

/**
 * Walks a log from its first entry to its last, a day at a time, and finds the first entry that is changed, missing, out of
 * order or cut off the end. It tells what was changed without the seals after it; against somebody who makes all seals anew
 * only a head that was written down elsewhere helps. Takes no lock and writes nothing.
 */
export async function verifyLog(folder: string, disk: Disk = realDisk): Promise<Verified> {
  const head = await headOf(folder, disk); // first, so that an entry recorded meanwhile does not look like a cut
  const runs: Run[] = [];
  const breaks: Break[] = head.trouble === null ? [] : [{ file: "log/head.json", entry: 0, how: head.trouble }];
  let entries = 0;
  for await (const day of allDays(folder, disk)) {
    const file = shortName(folder, dayPath(folder, day));
    const links = await linksOf(join(folder, file), disk);
    if (typeof links === "string") {
      breaks.push({ file, entry: (runs.at(-1)?.last ?? 0) + 1, how: links });
      continue;
    }
    entries += links.length;
    const found = runsOf(file, day, links);
    runs.push(...found.runs);
    breaks.push(...found.breaks);
  }
  breaks.push(...joinBreaks(runs), ...headBreaks(head.head, runs));
  return verdict(entries, breaks, runs);
}

function verdict(entries: number, breaks: readonly Break[], runs: readonly Run[]): Verified {
  const [firstBroken] = [...breaks].sort((a, b) => a.entry - b.entry);
  const last = lastRun(runs);
  const head = last === undefined ? null : { number: last.last, seal: last.lastSeal };
  return firstBroken === undefined ? { entries, ok: true, head } : { entries, ok: false, firstBroken, head };
}

const lastRun = (runs: readonly Run[]): Run | undefined =>
  runs.reduce<Run | undefined>((last, run) => (last === undefined || run.last > last.last ? run : last), undefined);

/** Whether the log ends where its head says. A head one crash behind is fine: what follows it is chained all the same. */
function headBreaks(head: Head | null, runs: readonly Run[]): Break[] {
  const last = lastRun(runs);
  if (head === null) return headMissing(runs);
  if (head.number === 0) return [];
  const end = last?.last ?? 0;
  if (head.number > end)
    return [{ file: last?.file ?? "log/head.json", entry: end + 1, how: missing(end + 1, head.number) }];
  const sealed = runs.find((run) => run.last === head.number);
  if (sealed === undefined || sealed.lastSeal === head.seal) return [];
  return [{ file: sealed.file, entry: head.number, how: "was changed: log/head.json holds another seal of it" }];
}

/** Without a head nobody can tell whether entries were cut off the end. */
const headMissing = (runs: readonly Run[]): Break[] =>
  runs.length === 0
    ? []
    : [
        {
          file: "log/head.json",
          entry: (lastRun(runs)?.last ?? 0) + 1,
          how: "may be missing: there is no head to tell",
        },
      ];

async function headOf(folder: string, disk: Disk): Promise<{ head: Head | null; trouble: string | null }> {
  try {
    return { head: await durableFile(headPath(folder), codecOf(headKind), disk).read(), trouble: null };
  } catch (fault) {
    return { head: null, trouble: diskTrouble(fault, "can't be read") };
  }
}

/** The entries as they lie in the file, or why they can't be read. */
async function linksOf(path: string, disk: Disk): Promise<readonly Link[] | string> {
  try {
    const bytes = (await disk.read(path)) ?? new Uint8Array();
    const text = new TextDecoder("utf-8", { fatal: true }).decode(bytes);
    if (isTooDeep(text)) return "the file nests brackets deeper than any record does";
    const json: unknown = JSON.parse(text);
    return isDay(json) ? json.entries : "the file is no day of a log";
  } catch (fault) {
    if (fault instanceof SyntaxError || fault instanceof TypeError) return "the file is not JSON";
    return diskTrouble(fault, "the file can't be read");
  }
}
