import type { LogEntry } from "../record/logEntry.ts";
import { dayMayHold, holds, type Period, periodOf } from "../record/period.ts";
import { entryLine } from "../report/entryLine.ts";
import { entrySubject } from "../report/entrySubject.ts";
import { LOG_CSV_HEADING, logCsvRow } from "../report/logCsv.ts";
import { type Cabinet, readFrom } from "../store/cabinet.ts";
import { dayCodec } from "../store/dayCodec.ts";
import { dayPath } from "../store/layout.ts";
import { allDays } from "../store/logFolder.ts";
import { printedJson } from "../terminal/sanitise.ts";
import { type Ending, EXIT, faulty } from "./ending.ts";
import type { Io } from "./io.ts";
import { readOnlyCabinet } from "./readOnlyCabinet.ts";
import { stationFolder } from "./stationFolder.ts";

export interface LogOptions {
  readonly json?: boolean;
  readonly csv?: boolean;
  readonly product?: string;
  readonly lot?: string;
  readonly since?: string;
  readonly until?: string;
  readonly data?: string;
}

type Wanted = (entry: LogEntry) => boolean;

/** `sievewright log`: entries from the log, a day in memory at a time. */
export async function log(options: LogOptions, io: Io): Promise<Ending> {
  const period = periodOf(options.since, options.until);
  if (!period.ok) return faulty(EXIT.usage, `--${period.reason}`);
  const folder = await stationFolder(options.data, io);
  if (!folder.ok) return folder.ending;
  const cabinet = readOnlyCabinet(folder.value);
  const wanted: Wanted = (entry) => holds(period.value, entry) && isAbout(entry, options);
  const out = lines(cabinet, period.value, wanted, options);
  return { code: EXIT.ok, out, remark: () => (cabinet.problems.length > 0 ? cabinet.problems.join("; ") : null) };
}

/** How an entry is printed, with the end of its line. */
function printedBy({ json, csv }: LogOptions): (entry: LogEntry) => string {
  if (csv) return logCsvRow;
  return json ? (entry) => `${printedJson(entry, 0)}\n` : (entry) => `${entryLine(entry)}\n`;
}

async function* lines(cabinet: Cabinet, period: Period, wanted: Wanted, options: LogOptions): AsyncGenerator<string> {
  const printed = printedBy(options);
  if (options.csv) yield LOG_CSV_HEADING;
  for await (const day of allDays(cabinet.folder, cabinet.disk)) {
    if (!dayMayHold(period, day)) continue;
    const found = await readFrom(cabinet, dayPath(cabinet.folder, day), dayCodec);
    const entries = found.is === "read" ? found.content.entries.filter(wanted) : [];
    if (entries.length > 0) yield entries.map(printed).join("");
  }
}

function isAbout(entry: LogEntry, { product, lot }: LogOptions): boolean {
  const subject = entrySubject(entry);
  return (product === undefined || subject.product === product) && (lot === undefined || subject.lot === lot);
}
