import { resolve } from "node:path";
import { shortSeal } from "../record/seal.ts";
import { makeBackup } from "../store/backup.ts";
import type { Copied } from "../store/backupCopy.ts";
import { realDisk } from "../store/realDisk.ts";
import { standingIn } from "../store/restoreStanding.ts";
import { readStation } from "../store/stationFile.ts";
import type { Store } from "../store/store.ts";
import { drawable, printedJson } from "../terminal/sanitise.ts";
import { actorOf } from "./actor.ts";
import { type Ending, EXIT, ended, faulty, reached, type Step } from "./ending.ts";
import type { Io } from "./io.ts";
import { openForWriting } from "./openForWriting.ts";
import type { SignerOptions } from "./signer.ts";
import { stationNow } from "./stationClock.ts";
import { stationFolder } from "./stationFolder.ts";

export interface BackupOptions extends SignerOptions {
  readonly json?: boolean;
  readonly data?: string;
}

const LONGEST_TO = 400;

/** `sievewright backup FILE|FOLDER`: the whole station as one archive or a plain folder, proven by itself. */
export async function backup(to: string, options: BackupOptions, io: Io): Promise<Ending> {
  const folder = await stationFolder(options.data, io);
  if (!folder.ok) return folder.ending;
  const station = await readStation(folder.value, realDisk);
  if (!station.ok || station.value === null)
    return faulty(EXIT.badData, `the station in ${folder.value} can't be read`);
  const signed = await signer(folder.value, options, io);
  if (!signed.ok) return signed.ending;
  const { store, unproven } = signed.value;
  try {
    const about = { station: station.value.station, at: stationNow(station.value, io), program: io.version };
    const made = await makeBackup(folder.value, resolve(to), about);
    if (!made.ok) return faulty(EXIT.ioError, made.reason);
    const unlogged = unproven ?? (await logged(store ?? folder.value, to, made.value, options, io));
    const out = options.json ? asJson(made.value, unlogged) : page(to, made.value, unlogged);
    return { code: EXIT.ok, out, remark: () => remark(made.value, unproven) };
  } finally {
    await store?.close();
  }
}

/** The store with whoever proved to be somebody signed on; none where nobody has to, or, with why, where nobody can. */
interface Signer {
  readonly store: Store | null;
  readonly unproven: string | null;
}

/**
 * A copy holds everything, so where people sign on it is made for somebody who proved to be one: refused before anything is
 * copied. Where the station can't be written to, as another window has it open, nobody can sign on, and it is made anyway.
 */
async function signer(folder: string, options: BackupOptions, io: Io): Promise<Step<Signer>> {
  const { rule } = await standingIn(folder);
  if (rule === "none") return reached({ store: null, unproven: null });
  const store = await openForWriting(folder, io, undefined, options);
  if (store.ok) return reached({ store: store.value, unproven: null });
  const why = "fault" in store.ending ? store.ending.fault : "the station can't be written to";
  if (store.ending.code === EXIT.ioError) return reached({ store: null, unproven: why });
  return ended(EXIT.notPermitted, `${why}; nothing was copied`);
}

/** Tells the log of the copy, in the store that is open for it or the one of the folder; null when it did, else why not. */
async function logged(
  at: Store | string,
  to: string,
  { manifest, sha256 }: Copied,
  options: BackupOptions,
  io: Io,
): Promise<string | null> {
  const store = typeof at === "string" ? await openForWriting(at, io, undefined, options) : reached(at);
  if (!store.ok) return "fault" in store.ending ? store.ending.fault : "the station can't be written to";
  const { files } = manifest;
  const place = drawable(resolve(to)).slice(-LONGEST_TO);
  const by = actorOf(store.value, options, io);
  const entry = await store.value.record({ kind: "backup", at: io.now(), by, to: place, files: files.length, sha256 });
  if (typeof at === "string") await store.value.close();
  return entry.ok ? null : entry.reason;
}

const asJson = ({ manifest, sha256, broken, leftOut }: Copied, unlogged: string | null): string =>
  `${printedJson({ files: manifest.files.length, bytes: bytesIn(manifest), head: manifest.head, manifestSha256: sha256, broken, leftOut, logged: unlogged === null }, 0)}\n`;

const bytesIn = ({ files }: Copied["manifest"]): number => files.reduce((sum, { bytes }) => sum + bytes, 0);

function page(to: string, { manifest, sha256 }: Copied, unlogged: string | null): string {
  const { files, head, station } = manifest;
  return [
    `${station} copied to ${to}: ${files.length} files, ${bytesIn(manifest)} bytes`,
    head.number === 0 ? "its log is empty" : `its log ends with entry ${head.number}, seal ${shortSeal(head.seal)}`,
    `manifest ${sha256}`,
    unlogged === null ? "recorded in the log of the station" : `not recorded in the log of the station: ${unlogged}`,
    "",
  ].join("\n");
}

/** What makes a copy less than it should be. */
function remark({ broken, leftOut }: Copied, unproven: string | null): string | null {
  const words = [
    ...(unproven === null ? [] : ["nobody proved to be somebody for this copy, and the log does not tell of it"]),
    ...(broken === null ? [] : [`the log of this station is broken, and is copied as it is: ${broken}`]),
    ...(leftOut.length === 0 ? [] : [`not copied: ${leftOut.join("; ")}`]),
  ];
  return words.length === 0 ? null : words.join(". ");
}
