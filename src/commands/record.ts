import { assessTest } from "../assess/assessTest.ts";
import type { Head } from "../record/logEntry.ts";
import { sealOf } from "../record/seal.ts";
import type { TestRecord } from "../record/test.ts";
import { standingOf, type TestHistory, versionsOf } from "../record/versions.ts";
import { endedPage } from "../report/endedPage.ts";
import { pageCurve } from "../report/pageCurve.ts";
import { recordPage } from "../report/recordPage.ts";
import type { Cabinet } from "../store/cabinet.ts";
import { readEndedTest } from "../store/endedTest.ts";
import { indexRowOf } from "../store/indexRowOf.ts";
import { type RecordedTest, readRecordedTest } from "../store/recordedTest.ts";
import { printedJson } from "../terminal/sanitise.ts";
import { done, type Ending, EXIT, faulty } from "./ending.ts";
import type { Io } from "./io.ts";
import { readOnlyCabinet } from "./readOnlyCabinet.ts";
import { folderNow } from "./stationClock.ts";
import { stationFolder } from "./stationFolder.ts";
import { type TextLook, textLook, textPage } from "./textPage.ts";

export interface RecordOptions {
  readonly json?: boolean;
  readonly original?: boolean;
  readonly data?: string;
}

/** `sievewright record NUMBER`: one recorded test with all its versions, for an auditor. Takes no lock, changes nothing. */
export async function record(asked: string, options: RecordOptions, io: Io): Promise<Ending> {
  const number = /^[1-9]\d{0,8}$/.test(asked) ? Number(asked) : null;
  if (number === null) return faulty(EXIT.usage, `"${asked}" is no entry number; sievewright log lists them`);
  const folder = await stationFolder(options.data, io);
  if (!folder.ok) return folder.ending;
  const cabinet = readOnlyCabinet(folder.value);
  const found = await readRecordedTest(cabinet, number, indexRowOf);
  if (!found.ok) return faulty(EXIT.ioError, found.reason);
  const print = { ...options, printed: printedWords(await folderNow(folder.value, io), io) };
  const out = found.value === null ? await endedTest(cabinet, number, print, io) : recordedTest(found.value, print, io);
  if (out === null) return faulty(EXIT.notFound, notFound(number, cabinet.problems));
  const remark = () => (cabinet.problems.length > 0 ? cabinet.problems.join("; ") : null);
  return { ...done(out), remark };
}

interface Print extends RecordOptions {
  readonly printed: string;
}

const printedWords = (now: string, { version }: Io): string =>
  `printed ${now.slice(0, 16).replace("T", " ")} by Sievewright ${version}`;

const recordedTest = ({ history, head }: RecordedTest, print: Print, io: Io): string =>
  print.json ? recordJson(history, head) : recordText(history, head, print, io);

/** A test that came to nothing is on record as well; null when the number is none of these either. */
async function endedTest(cabinet: Cabinet, number: number, print: Print, io: Io): Promise<string | null> {
  const found = await readEndedTest(cabinet, number);
  if (found === null) return null;
  const { entry, head } = found;
  const { printed } = print;
  const look = textLook(io);
  return print.json
    ? `${printedJson({ entry, seals: [{ number, seal: sealOf(entry) }], head: { number: head.number, seal: head.seal } })}\n`
    : textPage(endedPage(entry, { width: look.width, printed, head }), look);
}

const notFound = (number: number, problems: readonly string[]): string =>
  [`entry ${number} is no recorded test of this station: sievewright log lists the entries`, ...problems].join("; ");

function curveOf(test: TestRecord, { width, ascii }: TextLook): readonly string[] {
  const assessed = assessTest(test);
  return assessed.ok ? pageCurve(assessed.value, test.product, width, ascii) : [];
}

function recordText(history: TestHistory, head: Head, { printed, original = false }: Print, io: Io): string {
  const look = textLook(io);
  const page = recordPage(history, {
    width: look.width,
    curveOf: (test) => curveOf(test, look),
    printed,
    head,
    original,
  });
  return textPage(page, look);
}

/** The entries as recorded, each version as it reads, how the test stands, and the seals. */
function recordJson(history: TestHistory, { number, seal }: Head): string {
  const { entry, later } = history;
  const { versions, unfit } = versionsOf(history);
  const seals = [entry, ...later].map((one) => ({ number: one.number, seal: sealOf(one) }));
  const told = { entry, later, versions, unfit, standing: standingOf(history), seals, head: { number, seal } };
  return `${printedJson(told)}\n`;
}
