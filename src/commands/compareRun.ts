import { assessTest } from "../assess/assessTest.ts";
import { type Assessment, assess } from "../assess.ts";
import type { TestRecord } from "../record/test.ts";
import { currentTest, standingOf } from "../record/versions.ts";
import { indexRowOf } from "../store/indexRowOf.ts";
import { readRecordedTest } from "../store/recordedTest.ts";
import { EXIT, ended, reached, type Step } from "./ending.ts";
import { inputName } from "./inputFile.ts";
import type { Io } from "./io.ts";
import { readOnlyCabinet } from "./readOnlyCabinet.ts";
import { stationFolder } from "./stationFolder.ts";
import { READABILITY_G, weighedSheet } from "./weighedSheet.ts";

/** A run of a portion through a stack: a recorded test, or a weighing sheet. */
export interface Run {
  readonly name: string;
  /** Null for a sheet. */
  readonly test: TestRecord | null;
  readonly assessment: Assessment;
  /** Serials by aperture, as far as they were noted. */
  readonly serials: ReadonlyMap<number, string>;
}

const NUMBER = /^#?([1-9]\d{0,8})$/;

/** Whether a name is the number of a recorded test. */
export const isNumber = (name: string): boolean => NUMBER.test(name);

/** The run that somebody named: the number of a recorded test, else a weighing sheet. */
export async function runNamed(name: string, data: string | undefined, io: Io): Promise<Step<Run>> {
  const number = NUMBER.exec(name)?.[1];
  return number === undefined ? sheetRun(name, io) : recordedRun(Number(number), data, io);
}

async function sheetRun(name: string, io: Io): Promise<Step<Run>> {
  const weighed = await weighedSheet(name, io);
  if (!weighed.ok) return weighed;
  const { masses, sheet } = weighed.value;
  const assessed = assess(masses, null, { readabilityG: READABILITY_G, balanceUnknown: true });
  if (!assessed.ok) return ended(EXIT.badData, `${inputName(name)}: ${assessed.reason}`);
  const serials = sheet.weighings.flatMap((row): [number, string][] =>
    "pan" in row || row.sieve === undefined ? [] : [[row.apertureUm, row.sieve]],
  );
  return reached({ name: inputName(name), test: null, assessment: assessed.value, serials: new Map(serials) });
}

async function recordedRun(number: number, data: string | undefined, io: Io): Promise<Step<Run>> {
  const folder = await stationFolder(data, io);
  if (!folder.ok) return folder;
  const found = await readRecordedTest(readOnlyCabinet(folder.value), number, indexRowOf);
  if (!found.ok) return ended(EXIT.ioError, found.reason);
  const name = `test no. ${number}`;
  if (found.value === null)
    return ended(EXIT.notFound, `${name} is not in ${folder.value}: sievewright log lists them`);
  const { history } = found.value;
  if (standingOf(history).voided) return ended(EXIT.badData, `${name} is void: name one that counts`);
  const test = currentTest(history);
  const assessed = assessTest(test);
  if (!assessed.ok) return ended(EXIT.badData, `${name} can't be assessed: ${assessed.reason}`);
  const serials = test.weighings.flatMap(({ apertureUm, serial }): [number, string][] =>
    serial === undefined ? [] : [[apertureUm, serial]],
  );
  return reached({ name, test, assessment: assessed.value, serials: new Map(serials) });
}
