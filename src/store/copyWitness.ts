import { isAbsolute, join } from "node:path";
import { shortSeal } from "../record/seal.ts";
import type { Station } from "../record/station.ts";
import { type Generation, generationsIn } from "./backupGenerations.ts";
import type { Disk } from "./disk.ts";
import type { Witness } from "./witness.ts";

const USUAL_KEEP = 14;

/** Where a station keeps its automatic copies, how many, and whether that place is its own folder. */
export interface CopyPlace {
  readonly root: string;
  readonly keep: number;
  /** A folder that must be there already (another disk); null where copies lie in the station's own folder. */
  readonly mustExist: string | null;
}

export function copyPlace(folder: string, station: Pick<Station, "station" | "backups">): CopyPlace {
  const keep = station.backups?.keep ?? USUAL_KEEP;
  const asked = station.backups?.folder;
  if (asked === undefined) return { root: join(folder, "backups"), keep, mustExist: null };
  const elsewhere = isAbsolute(asked) ? asked : join(folder, asked);
  return { root: join(elsewhere, station.station), keep, mustExist: elsewhere };
}

export const copiesFolder = (root: string): string => join(root, "copies");

/** The automatic copies of a station, oldest first; none where they can't be reached. */
export async function generationsOf(place: CopyPlace, disk: Disk): Promise<readonly Generation[]> {
  return generationsIn(await disk.list(copiesFolder(place.root)).catch(() => []));
}

const inWords = ({ madeAt }: Generation): string =>
  madeAt
    .slice(0, 16)
    .replace("T", " ")
    .replace(/-(\d\d)$/, ":$1");

/** What the names of the copies alone tell of the log: that an entry was there, with which seal. */
export const witnessOf = (copy: Generation): Witness => ({
  who: `the copy of ${inWords(copy)} UTC`,
  number: copy.number,
  seal: copy.seal,
  madeMs: copy.madeMs,
});

/** A copy that knows more than the log does, in words; null when none does. */
export function lostSinceCopy(copies: readonly Generation[], logEnd: number): string | null {
  const most = copies.reduce<Generation | null>((a, b) => (a !== null && a.number >= b.number ? a : b), null);
  if (most === null || most.number <= logEnd) return null;
  const knows = `the copy of ${inWords(most)} UTC holds the log up to entry ${most.number}, seal ${shortSeal(most.seal)}`;
  return `the log ends with entry ${logEnd}, but ${knows}: entries were cut off its end`;
}
