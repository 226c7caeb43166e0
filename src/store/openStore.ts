import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { inZone } from "../record/moment.ts";
import type { Station } from "../record/station.ts";
import { AmendedTests } from "./amendedTests.ts";
import { type Cabinet, found, report } from "./cabinet.ts";
import { Care } from "./care.ts";
import { CareLedgerOf } from "./careLedger.ts";
import { copyPlace, generationsOf, lostSinceCopy } from "./copyWitness.ts";
import type { Disk } from "./disk.ts";
import { diskTrouble } from "./diskWords.ts";
import { type Drafts, openDrafts } from "./drafts.ts";
import type { IndexRowOf } from "./drawnRow.ts";
import { Findings } from "./findings.ts";
import { guardedDisk } from "./guardedDisk.ts";
import { draftsFolder, indexFolder, logFolder } from "./layout.ts";
import { Library } from "./library.ts";
import { type Lock, takeLock } from "./lock.ts";
import { Log } from "./log.ts";
import { MonthIndex } from "./monthIndex.ts";
import { listInForce } from "./operatorsFile.ts";
import { peopleInLog } from "./operatorsRule.ts";
import { OperatorsState } from "./operatorsState.ts";
import type { PinCost } from "./operatorsVerifier.ts";
import { realDisk } from "./realDisk.ts";
import { finishSwap, SWAP_UNDER_WAY } from "./restoreSwap.ts";
import { createStation, readStation } from "./stationFile.ts";
import { StationStore } from "./stationStore.ts";
import type { Store } from "./store.ts";
import { clearTemporary } from "./tidy.ts";

export interface OpenOptions {
  /** The present moment with its offset; the store turns it into station time. */
  readonly now: () => string;
  /** Draws the index row of a recorded test. */
  readonly indexRowOf: IndexRowOf;
  /** Makes this station where the folder has none and no records either. */
  readonly create?: Station;
  /** Where sign-on isn't required, the first entry of a new log is preceded by one that says so. */
  readonly declares?: boolean;
  /** Only to look: takes no lock, changes and makes nothing. */
  readonly reading?: boolean;
  readonly pid?: number;
  /** What trying a new PIN costs: less than usual only where nobody guesses. */
  readonly pinCost?: PinCost;
  readonly disk?: Disk;
}

/**
 * Opens a station's folder: reads the station, the drafts, the head and the newest day, and leaves the rest for when it is
 * asked for. Whoever comes second gets the same store for reading, with who has it in `readOnly`. Refused in words when the
 * folder holds no station that can be read.
 */
export async function openStore(folder: string, options: OpenOptions): Promise<Outcome<Store>> {
  const disk = options.disk ?? realDisk;
  try {
    if (!options.reading && (await finishSwap(folder, disk)) === "under way") return refused(SWAP_UNDER_WAY);
    const there = await readStation(folder, disk);
    if (!there.ok) return there;
    if (there.value === null && options.create === undefined)
      return refused(`there is no station in ${folder}: station.json is missing. Check the folder (--data)`);
    if (there.value === null) await disk.makeFolder(folder);
    const inStationTime = { ...options, now: clockOf(there.value ?? options.create, options.now) };
    return await openFolder(await disk.trueName(folder), disk, inStationTime);
  } catch (fault) {
    return refused(diskTrouble(fault, `${folder} can't be opened`));
  }
}

/** The clock that is handed in, in the zone of the station: a log has one clock. */
function clockOf(station: Station | undefined, now: () => string): () => string {
  if (station === undefined) return now;
  const there = inZone(station.timeZone);
  return () => there(now());
}

const ONLY_READING = "this command only reads";

async function openFolder(folder: string, disk: Disk, options: OpenOptions): Promise<Outcome<Store>> {
  const lock = options.reading
    ? refused(ONLY_READING)
    : await takeLock(folder, disk, options.pid ?? process.pid, options.now());
  try {
    const station = lock.ok ? await prepared(folder, disk, options.create) : await stationIn(folder, disk);
    if (station.ok) return accepted(await drawersOf(folder, disk, station.value, lock, options));
    if (lock.ok) await lock.value.release();
    return station;
  } catch (fault) {
    if (lock.ok) await lock.value.release();
    throw fault;
  }
}

async function drawersOf(
  folder: string,
  disk: Disk,
  station: Station,
  lock: Outcome<Lock>,
  { indexRowOf, now, pinCost, declares = false }: OpenOptions,
): Promise<Store> {
  const locked = lockedCabinet(folder, disk, lock);
  const findings = new Findings(folder, locked.disk);
  const cabinet: Cabinet = { ...locked, findings };
  const log = await Log.open(cabinet);
  if (lock.ok && lock.value.clearedAway !== null) cabinet.findings?.add(lock.value.clearedAway);
  await lookAtCopies(cabinet, log.end().number, station);
  if (lock.ok) await clearTemporary(folder, log.lastWritten(), disk);
  const drafts = await openDrafts(cabinet);
  const index = new MonthIndex(cabinet, log, indexRowOf);
  const amended = new AmendedTests(cabinet, log, index, indexRowOf);
  const library = new Library(cabinet);
  const ledger = new CareLedgerOf(cabinet, log);
  const care = new Care(ledger, library, station);
  await retireRecorded(log, drafts, cabinet);
  const people = await peopleInLog(log);
  const operators = new OperatorsState(cabinet, await listInForce(cabinet, people), people.rule, now, pinCost);
  if (operators.trouble !== null) report(cabinet, operators.trouble);
  const kept = { cabinet, station, drafts, log, index, amended, library, ledger, care };
  return new StationStore({ ...kept, operators, declares, findings, now }, lock);
}

const AFTER_THE_FIRST_FRAME_MS = 1000;

/** Copies in the station's folder are looked at once; elsewhere may be a share that answers late, and nobody waits for it. */
async function lookAtCopies(cabinet: Cabinet, logEnd: number, station: Station): Promise<void> {
  const look = (): Promise<void> => tellOfCopies(cabinet, logEnd, station);
  if (station.backups?.folder === undefined) return look();
  setTimeout(() => void look(), AFTER_THE_FIRST_FRAME_MS).unref();
}

/** Copies that know more of the log than it did when it was opened. */
async function tellOfCopies(cabinet: Cabinet, logEnd: number, station: Station): Promise<void> {
  const copies = await generationsOf(copyPlace(cabinet.folder, station), cabinet.disk);
  const lost = lostSinceCopy(copies, logEnd);
  if (lost !== null) found(cabinet, `${lost}. Run \`sievewright verify\` and tell whoever keeps the records`);
}

/** The station, made if there is none, and the folders that every save needs. */
async function prepared(folder: string, disk: Disk, create: Station | undefined): Promise<Outcome<Station>> {
  const there = await readStation(folder, disk);
  if (!there.ok) return there;
  const station = there.value ?? create;
  if (station === undefined) return refused(`there is no station in ${folder}`);
  if (there.value === null) {
    const made = await createStation(folder, station, disk);
    if (!made.ok) return made;
  }
  for (const needed of [draftsFolder(folder), logFolder(folder), indexFolder(folder)]) {
    const why = await makingTrouble(needed, disk);
    if (why !== null) return refused(why);
  }
  return accepted(station);
}

async function makingTrouble(folder: string, disk: Disk): Promise<string | null> {
  try {
    await disk.makeFolder(folder);
    return null;
  } catch (fault) {
    return diskTrouble(fault, `${folder} can't be used`);
  }
}

async function stationIn(folder: string, disk: Disk): Promise<Outcome<Station>> {
  const there = await readStation(folder, disk);
  if (!there.ok) return there;
  return there.value === null ? refused(`there is no station in ${folder} yet`) : accepted(there.value);
}

/** A crash between recording a test and removing its draft leaves a draft of a test that is in one of the last days. */
async function retireRecorded(log: Log, drafts: Drafts, cabinet: Cabinet): Promise<void> {
  for (const testId of cabinet.readOnly() === null ? log.lastTests : []) {
    const gone = await drafts.retire(testId);
    if (!gone.ok) report(cabinet, gone.reason);
  }
}

function lockedCabinet(folder: string, disk: Disk, lock: Outcome<Lock>): Cabinet {
  let readOnly: string | null = lock.ok ? null : lock.reason;
  const becomeReadOnly = (why: string): void => {
    readOnly ??= why;
    if (lock.ok) void lock.value.release();
  };
  const refusal = async (): Promise<string | null> => {
    if (readOnly !== null || !lock.ok) return readOnly;
    try {
      const lost = await lock.value.confirm();
      if (lost !== null) becomeReadOnly(lost);
      return lost;
    } catch (fault) {
      return diskTrouble(fault, "nothing is saved while the lock of this station can't be read");
    }
  };
  const guarded = guardedDisk(disk, refusal);
  return { folder, disk: guarded, problems: [], readOnly: () => readOnly, becomeReadOnly, refusal };
}
