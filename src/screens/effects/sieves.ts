import { setImmediate as turn } from "node:timers/promises";
import { referenceRun } from "../../assess/referenceRun.ts";
import { sieveOf } from "../../care/register/register.ts";
import { refused } from "../../entry/outcome.ts";
import { readApertures } from "../../record/apertureCsv.ts";
import type { IndexRow } from "../../record/indexRow.ts";
import type { UntimedEntry } from "../../record/logEntry.ts";
import { readRegisterItem } from "../../record/readExchanged.ts";
import { currentTest } from "../../record/versions.ts";
import { lifeTold, productOfSieve } from "../../store/careReading.ts";
import { outsideFile } from "../../store/outsideFile.ts";
import { readSuspects } from "../../store/suspectReading.ts";
import { say } from "../../words/say.ts";
import { notRecorded } from "../answers.ts";
import * as answers from "../sieves/careAnswers.ts";
import type { CareEffect } from "../sieves/places.ts";
import { readCare } from "./care.ts";
import type { Desk } from "./desk.ts";

const told = (desk: Desk, message: string): void => desk.show({ ...desk.app(), message });
const today = (desk: Desk): string => desk.now().slice(0, 10);

/** Carries out what was asked for with sieves, balances and weights. */
export function carryOutCare(desk: Desk, effect: CareEffect): Promise<void> {
  switch (effect.do) {
    case "readSieve":
      return readSieve(desk, effect.serial);
    case "recordCare":
      return record(desk, effect.entry);
    case "registerFile":
      return registerFile(desk, effect);
    case "readEffective":
      return readEffective(desk, effect.serial);
    case "readApertures":
      return importApertures(desk, effect.path);
    case "readReferenceRows":
      return readRows(desk);
    case "readReference":
      return readReference(desk, effect);
  }
}

async function readSieve(desk: Desk, serial: string): Promise<void> {
  await readCare(desk);
  const { register } = await desk.store.care.known(today(desk));
  const sieve = sieveOf(register, serial);
  if (sieve === undefined) return;
  const life = await lifeTold(desk.store, sieve);
  desk.show(answers.sieveTold(desk.app(), serial, life));
}

/** Back from the form, and what is shown of sieves is read again. */
async function record(desk: Desk, entry: Extract<UntimedEntry, { kind: "care" | "registered" }>): Promise<void> {
  const recorded = await desk.store.record({ ...entry, at: desk.now() });
  if (!recorded.ok) return desk.show(notRecorded(desk.app(), recorded.reason));
  desk.show(answers.careRecorded(desk.app(), recorded.value));
  const { place } = desk.app();
  if (place.name === "sieve") await readSieve(desk, place.serial);
  else await readCare(desk);
  if (recorded.value.kind === "registered") desk.show(answers.listFollows(desk.app(), recorded.value.item));
}

async function registerFile(desk: Desk, asked: Extract<CareEffect, { do: "registerFile" }>): Promise<void> {
  const { path, by, reason } = asked;
  const bytes = await outsideFile(desk.store.folder, path);
  if (!bytes.ok) return desk.show(answers.fileRefused(desk.app(), path, bytes.reason));
  const item = readRegisterItem(bytes.value);
  if (!item.ok) return desk.show(answers.fileRefused(desk.app(), path, `${path}: ${item.reason}`));
  await record(desk, { kind: "registered", by, item: item.value, ...(reason === "" ? {} : { reason }) });
}

/** That it is being worked out is on the screen before it is begun. */
async function readEffective(desk: Desk, serial: string): Promise<void> {
  await turn();
  const product = await productOfSieve(desk.store, serial);
  const read = product === null ? refused(noTest()) : await readSuspects(desk.store, product);
  const other = read.ok && !read.value.serials.includes(serial);
  const found = other
    ? refused(say`${product ?? ""} was tested with other sieves since: nothing is said of this one`)
    : read;
  desk.show(answers.effectiveRead(desk.app(), serial, found));
}

const noTest = (): string => say`no valid test in the log tells the serial of this sieve: set tests out with its set`;

async function importApertures(desk: Desk, path: string): Promise<void> {
  const bytes = await outsideFile(desk.store.folder, path);
  if (!bytes.ok) return told(desk, bytes.reason);
  const read = readApertures(bytes.value);
  if (!read.ok) return told(desk, `${path}: ${read.reason}`);
  desk.show(answers.aperturesArrived(desk.app(), { path, ...read.value }));
}

/** Tests to choose a run of a reference material from: those of the last months, newest first. */
const ENOUGH_ROWS = 300;

async function readRows(desk: Desk): Promise<void> {
  const rows: readonly IndexRow[] = await desk.store.recentRows(ENOUGH_ROWS);
  desk.show(answers.referenceRowsRead(desk.app(), rows));
}

async function readReference(desk: Desk, asked: Extract<CareEffect, { do: "readReference" }>): Promise<void> {
  const history = await desk.store.history(asked.row);
  if (!history.ok) return told(desk, history.reason);
  const check = referenceRun(currentTest(history.value), asked.material);
  if (!check.ok) return told(desk, check.reason);
  desk.show(answers.referenceFound(desk.app(), check.value));
}
