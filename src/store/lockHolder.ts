import { z } from "zod";
import { moment, text } from "../record/fields.ts";
import { isTooDeep } from "../record/nesting.ts";

const HolderSchema = z.strictObject({
  schema: z.literal("sievewright.lock/1"),
  pid: z.int().positive(),
  host: text(255),
  since: moment,
  /** Of this one taking of the lock. */
  token: z.uuid(),
  /** The folder's true name on that host: a lock that was copied along with a folder tells by it. */
  folder: z.string(),
});

/** Who has a station open, as its lock file tells. */
export type Holder = z.infer<typeof HolderSchema>;

/** How long a lock holds that nobody renews. */
export const STALE_MS = 30_000;
export const HEARTBEAT_MS = 5_000;

export function readHolder(lockText: string): Holder | null {
  if (isTooDeep(lockText)) return null;
  try {
    return HolderSchema.parse(JSON.parse(lockText));
  } catch {
    return null;
  }
}

/** What can be found out here about the one who holds the lock. */
export interface Circumstances {
  readonly host: string;
  readonly folder: string;
  /** Since the lock was last renewed; negative where a clock was set back. */
  readonly ageMs: number;
  /** Whether a process of that number runs on this host. */
  readonly alive: boolean;
}

/**
 * Whether a lock is left over. On the same host: its process is gone, or it names another folder (a copy). Anywhere: nobody
 * has renewed it for half a minute, or it was renewed in the future. Null is a lock that can't be read: age alone decides.
 */
export function isLeftOver(holder: Holder | null, here: Circumstances): boolean {
  const sameHost = holder?.host === here.host;
  if (sameHost && (!here.alive || holder.folder !== here.folder)) return true;
  return Math.abs(here.ageMs) > STALE_MS;
}

/** "another Sievewright (process 4711, since 22:04) has this station open". */
export function holderInWords(holder: Holder | null, host: string, now: string): string {
  if (holder === null) return "another Sievewright is just opening this station";
  const where = holder.host === host ? "" : ` on ${holder.host}`;
  const sameDay = holder.since.slice(0, 10) === now.slice(0, 10);
  const since = sameDay ? holder.since.slice(11, 16) : `${holder.since.slice(0, 10)} ${holder.since.slice(11, 16)}`;
  return `another Sievewright (process ${holder.pid}${where}, since ${since}) has this station open`;
}

/** What a lock that is left over tells of whoever held it: a copied folder, or a program that was not closed. */
export function leftOverInWords(holder: Holder | null, me: Pick<Holder, "host" | "folder">): string {
  if (holder === null) return "a lock that could not be read was cleared away";
  const { host, folder, pid, since } = holder;
  const when = since.slice(0, 16).replace("T", " ");
  if (host === me.host && folder !== me.folder)
    return `this folder was copied from ${folder} while Sievewright (process ${pid}) had that one open since ${when}`;
  const where = host === me.host ? "" : ` on ${host}`;
  return `Sievewright (process ${pid}${where}), open since ${when}, was not closed: its lock was cleared away`;
}
