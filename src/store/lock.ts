import { randomUUID } from "node:crypto";
import { hostname } from "node:os";
import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { codeOf, type Disk, UnfitFile } from "./disk.ts";
import { diskTrouble } from "./diskWords.ts";
import { temporaryName } from "./durableFile.ts";
import { lockPath, stationPath } from "./layout.ts";
import {
  HEARTBEAT_MS,
  type Holder,
  holderInWords,
  isLeftOver,
  leftOverInWords,
  readHolder,
  STALE_MS,
} from "./lockHolder.ts";

/** The right to write to one station. */
export interface Lock {
  /** Whose lock was cleared away for this one, in words; null when the station was free. */
  readonly clearedAway: string | null;
  /** Null while it holds; else what happened to it, and then for good. Throws while the disk can't tell. */
  confirm(): Promise<string | null>;
  /** Gives the station free, the first time it is called. */
  release(): Promise<void>;
}

/** Locks that this very process holds: its own number in a lock that is not among them is of an earlier life. */
const heldHere = new Set<string>();

/** Takes the lock of a station, clearing away one that is left over; refused in words when somebody has it. */
export async function takeLock(folder: string, disk: Disk, pid: number, now: string): Promise<Outcome<Lock>> {
  const path = lockPath(folder);
  const me: Holder = { schema: "sievewright.lock/1", pid, host: hostname(), since: now, token: randomUUID(), folder };
  try {
    let cleared: string | null = null;
    for (let attempt = 0; attempt < 20; attempt += 1) {
      if (await createdNew(path, `${JSON.stringify(me)}\n`, disk)) return accepted(held(path, me, disk, cleared));
      const other = await lookAt(path, me, disk);
      if (other.is === "held") return refused(holderInWords(other.holder, me.host, now));
      if (other.is === "left over") {
        await clearAway(path, me, disk);
        cleared = leftOverInWords(other.holder, me);
      }
    }
    return refused(holderInWords(null, me.host, now));
  } catch (fault) {
    return refused(diskTrouble(fault, "this station can't be opened for writing"));
  }
}

async function createdNew(path: string, text: string, disk: Disk): Promise<boolean> {
  try {
    await disk.writeAndSync(path, text);
    return true;
  } catch (fault) {
    if (codeOf(fault) === "EEXIST") return false;
    throw fault;
  }
}

type Other = { readonly is: "gone" } | { readonly is: "held" | "left over"; readonly holder: Holder | null };

async function lookAt(path: string, me: Holder, disk: Disk): Promise<Other> {
  const ageMs = await ageOf(path, disk);
  if (ageMs === null) return { is: "gone" };
  const text = await textOf(path, disk);
  const holder = text === null ? null : readHolder(text);
  const alive = holder !== null && isAlive(holder);
  const leftOver = isLeftOver(holder, { host: me.host, folder: me.folder, ageMs, alive });
  return { is: leftOver ? "left over" : "held", holder };
}

/** Whether whoever holds a station was a process of this host that runs no more; only looks, and writes nothing. */
export async function holderEnded(folder: string, disk: Disk): Promise<boolean> {
  const text = await textOf(lockPath(folder), disk).catch(() => null);
  const holder = text === null ? null : readHolder(text);
  return holder !== null && holder.host === hostname() && !isAlive(holder);
}

/** How long ago a file was written, by the clock that dates it, which need not be this computer's; null: no file. */
async function ageOf(path: string, disk: Disk): Promise<number | null> {
  const modifiedAtMs = await disk.modifiedAtMs(path);
  if (modifiedAtMs === null) return null;
  const probe = temporaryName(path);
  await disk.writeAndSync(probe, "");
  try {
    return ((await disk.modifiedAtMs(probe)) ?? Date.now()) - modifiedAtMs;
  } finally {
    await disk.remove(probe);
  }
}

async function textOf(path: string, disk: Disk): Promise<string | null> {
  try {
    const bytes = await disk.read(path);
    return bytes === null ? null : new TextDecoder().decode(bytes);
  } catch (fault) {
    if (fault instanceof UnfitFile) return null;
    throw fault;
  }
}

function isAlive(holder: Holder): boolean {
  if (holder.pid === process.pid) return heldHere.has(holder.token);
  try {
    process.kill(holder.pid, 0);
    return true;
  } catch (fault) {
    return codeOf(fault) !== "ESRCH";
  }
}

/**
 * Removes a lock that is left over. Only one at a time may, and looks again before it does: otherwise the slower of two would
 * remove the fresh lock of the quicker one.
 */
async function clearAway(path: string, me: Holder, disk: Disk): Promise<void> {
  const turn = `${path}.clearing`;
  if (await createdNew(turn, "", disk)) {
    try {
      if ((await lookAt(path, me, disk)).is === "left over") await disk.remove(path);
    } finally {
      await disk.remove(turn);
    }
    return;
  }
  if (((await ageOf(turn, disk)) ?? 0) > STALE_MS) await disk.remove(turn);
  await disk.pause(50);
}

function held(path: string, me: Holder, disk: Disk, clearedAway: string | null): Lock {
  let lost: string | null = null;
  let seenAtMs: number | null = null;
  heldHere.add(me.token);

  /** The time of the file tells most of the time; only when it has changed is the file read. */
  async function confirm(): Promise<string | null> {
    if (lost !== null) return lost;
    const modifiedAtMs = await disk.modifiedAtMs(path);
    if (modifiedAtMs !== null && modifiedAtMs === seenAtMs) return null;
    if (modifiedAtMs === null) await stationMustBeThere(me.folder, disk);
    const text = await textOf(path, disk);
    const holder = text === null ? null : readHolder(text);
    if (holder?.token === me.token) seenAtMs = modifiedAtMs;
    else lost = lostTo(holder, me);
    return lost;
  }

  async function renew(): Promise<void> {
    if ((await confirm()) === null) await disk.touch(path, "{");
  }
  const heartbeat = setInterval(() => void renew().catch(() => undefined), HEARTBEAT_MS);
  heartbeat.unref();

  async function give(): Promise<void> {
    clearInterval(heartbeat);
    heldHere.delete(me.token);
    const ours = (await confirm().catch(() => "unknown")) === null;
    if (ours) await disk.remove(path).catch(() => undefined);
  }
  // Once only: a second time it would remove the lock of whoever came after.
  let given: Promise<void> | null = null;
  const release = (): Promise<void> => {
    given ??= give();
    return given;
  };
  return { clearedAway, confirm, release };
}

/** A disk that was pulled took the lock along and may bring it back: until then nothing is lost, and nothing is saved. */
async function stationMustBeThere(folder: string, disk: Disk): Promise<void> {
  if ((await disk.modifiedAtMs(stationPath(folder))) !== null) return;
  throw Object.assign(new Error(`${folder} is gone`), { code: "ENOENT" });
}

function lostTo(holder: Holder | null, me: Holder): string {
  const who =
    holder === null
      ? "the lock of this station is gone"
      : `${holderInWords(holder, me.host, me.since)}: it took over while this one was asleep`;
  return `${who}. Nothing more is saved here; close this one and open it again`;
}
