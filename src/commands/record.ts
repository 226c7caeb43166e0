import { assessTest } from "../assess/assessTest.ts";
import type { Head } from "../record/logEntry.ts";
import { sealOf } from "../record/seal.ts";
import type { TestRecord } from "../record/test.ts";
import { standingOf, type TestHistory, versionsOf } from "../record/versions.ts";
import { pageCurve } from "../report/pageCurve.ts";
import { recordPage } from "../report/recordPage.ts";
import { indexRowOf } from "../store/indexRowOf.ts";
import { readRecordedTest } from "../store/recordedTest.ts";
import { printedJson } from "../terminal/sanitise.ts";
import { done, type Ending, EXIT, faulty } from "./ending.ts";
import type { Io } from "./io.ts";
import { readOnlyCabinet } from "./readOnlyCabinet.ts";
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
  if (found.value === null) return faulty(EXIT.notFound, notFound(number, cabinet.problems));
  const { history, head } = found.value;
  const out = options.json ? recordJson(history, head) : recordText(history, head, options.original === true, io);
  const remark = () => (cabinet.problems.length > 0 ? cabinet.problems.join("; ") : null);
  return { ...done(out), remark };
}

const notFound = (number: number, problems: readonly string[]): string =>
  [`entry ${number} is no recorded test of this station: sievewright log lists the entries`, ...problems].join("; ");

function curveOf(test: TestRecord, { width, ascii }: TextLook): readonly string[] {
  const assessed = assessTest(test);
  return assessed.ok ? pageCurve(assessed.value, test.product, width, ascii) : [];
}

function recordText(history: TestHistory, head: Head, original: boolean, io: Io): string {
  const look = textLook(io);
  const printed = `printed ${io.now().slice(0, 16).replace("T", " ")} by Sievewright ${io.version}`;
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
