import { randomUUID } from "node:crypto";
import { hostname } from "node:os";
import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { codeOf, type Disk, UnfitFile } from "./disk.ts";
import { diskTrouble } from "./diskWords.ts";
import { temporaryName } from "./durableFile.ts";
import { lockPath } from "./layout.ts";
import { HEARTBEAT_MS, type Holder, holderInWords, isLeftOver, readHolder } from "./lockHolder.ts";

/** The right to write to one station. */
export interface Lock {
  /** Null while it holds; else what happened to it, and then for good. */
  confirm(): Promise<string | null>;
  release(): Promise<void>;
}

/** Locks that this very process holds: its own number in a lock that is not among them is of an earlier life. */
const heldHere = new Set<string>();

/** Takes the lock of a station, clearing away one that is left over; refused in words when somebody has it. */
export async function takeLock(folder: string, disk: Disk, pid: number, now: string): Promise<Outcome<Lock>> {
  const path = lockPath(folder);
  const me: Holder = { schema: "sievewright.lock/1", pid, host: hostname(), since: now, token: randomUUID(), folder };
  try {
    for (let attempt = 0; attempt < 5; attempt += 1) {
      if (await createdNew(path, `${JSON.stringify(me)}\n`, disk)) return accepted(held(path, me, disk));
      const other = await lookAt(path, me, disk);
      if (other.is === "held") return refused(holderInWords(other.holder, me.host, now));
      if (other.is === "left over") await clearAway(path, other.text, disk);
    }
    return refused("another Sievewright is just opening this station");
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

type Other =
  | { readonly is: "gone" }
  | { readonly is: "held"; readonly holder: Holder | null }
  | { readonly is: "left over"; readonly text: string | null };

async function lookAt(path: string, me: Holder, disk: Disk): Promise<Other> {
  const modifiedAtMs = await disk.modifiedAtMs(path);
  if (modifiedAtMs === null) return { is: "gone" };
  const text = await textOf(path, disk);
  const holder = text === null ? null : readHolder(text);
  const alive = holder !== null && isAlive(holder);
  const ageMs = (await diskNowMs(path, disk)) - modifiedAtMs;
  const leftOver = isLeftOver(holder, { host: me.host, folder: me.folder, ageMs, alive });
  return leftOver ? { is: "left over", text } : { is: "held", holder };
}

/** The time by the clock that also dates the lock, which need not be this computer's. */
async function diskNowMs(path: string, disk: Disk): Promise<number> {
  const probe = temporaryName(path);
  await disk.writeAndSync(probe, "");
  try {
    return (await disk.modifiedAtMs(probe)) ?? Date.now();
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

/** Two may clear away at once: whoever finds that the lock taken away was a fresh one puts it back. */
async function clearAway(path: string, leftOver: string | null, disk: Disk): Promise<void> {
  const away = temporaryName(path);
  try {
    await disk.rename(path, away);
  } catch (fault) {
    if (codeOf(fault) === "ENOENT") return;
    throw fault;
  }
  const taken = await textOf(away, disk);
  if (taken !== null && taken !== leftOver) await createdNew(path, taken, disk);
  await disk.remove(away);
}

function held(path: string, me: Holder, disk: Disk): Lock {
  let lost: string | null = null;
  let seenAtMs: number | null = null;
  heldHere.add(me.token);

  /** The time of the file tells most of the time; only when it has changed is the file read. */
  async function confirm(): Promise<string | null> {
    if (lost !== null) return lost;
    const modifiedAtMs = await disk.modifiedAtMs(path);
    if (modifiedAtMs !== null && modifiedAtMs === seenAtMs) return null;
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

  return {
    confirm,
    async release() {
      clearInterval(heartbeat);
      heldHere.delete(me.token);
      const ours = (await confirm().catch(() => "unknown")) === null;
      if (ours) await disk.remove(path).catch(() => undefined);
    },
  };
}

function lostTo(holder: Holder | null, me: Holder): string {
  const who =
    holder === null
      ? "the lock of this station is gone"
      : `${holderInWords(holder, me.host, me.since)}: it took over while this one was asleep`;
  return `${who}. Nothing more is saved here; close this one and open it again`;
}
