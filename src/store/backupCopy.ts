import { createHash } from "node:crypto";
import { join } from "node:path";
import type { BackupManifest, CopiedFile } from "../record/backup.ts";
import { headKind } from "../record/kinds.ts";
import { FIRST_PREVIOUS } from "../record/seal.ts";
import { stationFiles } from "./backupFiles.ts";
import { ChainWalk } from "./chainWalk.ts";
import { linksIn } from "./dayLinks.ts";
import { type Disk, UnfitFile } from "./disk.ts";
import { codecOf } from "./durableFile.ts";
import { plainJson } from "./plainJson.ts";
import { Watch } from "./watch.ts";
import { contradiction } from "./witness.ts";

/** Where a copy goes; nothing of it bears the name that was asked for before `finish`. */
export interface CopyTarget {
  put(path: string, bytes: Uint8Array): Promise<void>;
  finish(manifest: string): Promise<void>;
  abandon(): Promise<void>;
}

export interface About {
  readonly station: string;
  readonly at: string;
  readonly program: string;
}

export interface Copied {
  readonly manifest: BackupManifest;
  /** SHA-256 of the manifest as it lies in the copy. */
  readonly sha256: string;
  /** How the log in the copy does not hang together; null when it does. */
  readonly broken: string | null;
  /** Files that lie in the station and could not be copied, with why. */
  readonly leftOut: readonly string[];
}

export const sha256Of = (bytes: Uint8Array | string): string => createHash("sha256").update(bytes).digest("hex");
export const manifestText = (manifest: BackupManifest): string => `${plainJson(manifest)}\n`;

/**
 * Copies a station file by file, one in memory at a time, and follows the chain of its log on the way. Null, and the target
 * unfinished, where that chain does not hang together and `takeBroken` says that it was torn by the copying.
 */
export async function copyStation(
  folder: string,
  disk: Disk,
  target: CopyTarget,
  about: About,
  takeBroken: () => Promise<boolean>,
): Promise<Copied | null> {
  const chain = new CopiedChain();
  const files: CopiedFile[] = [];
  const leftOut: string[] = [];
  for await (const path of stationFiles(folder, disk)) {
    const bytes = await bytesOf(join(folder, path), disk);
    if (bytes === null) continue; // gone, as a draft that was recorded meanwhile
    if (typeof bytes === "string") {
      leftOut.push(`${path}: ${bytes}`);
      continue;
    }
    await target.put(path, bytes);
    files.push({ path, bytes: bytes.length, sha256: sha256Of(bytes) });
    chain.pass(path, bytes);
  }
  const { end, broken } = chain.verdict();
  if (broken !== null && !(await takeBroken())) return null;
  const manifest: BackupManifest = { schema: "sievewright.backup/1", ...about, head: end, files };
  const text = manifestText(manifest);
  await target.finish(text);
  return { manifest, sha256: sha256Of(text), broken, leftOut };
}

async function bytesOf(path: string, disk: Disk): Promise<Uint8Array | string | null> {
  try {
    return await disk.read(path);
  } catch (fault) {
    if (fault instanceof UnfitFile) return fault.message;
    throw fault;
  }
}

/** Where the log of a copy ends, and whether it hangs together up to there. */
class CopiedChain {
  #watch = new Watch([]);
  #head: { number: number; seal: string } | null = null;
  readonly #walk = new ChainWalk((...passed) => this.#watch.pass(...passed));

  pass(path: string, bytes: Uint8Array): void {
    if (path === "log/head.json") this.#take(bytes);
    const day = /^log\/\d{4}\/\d{2}\/(\d{4}-\d{2}-\d{2})\.json$/.exec(path)?.[1];
    if (day === undefined) return;
    const links = linksIn(bytes);
    if (typeof links === "string") this.#walk.note({ file: path, entry: 0, how: `unreadable: ${links}` });
    else this.#walk.day(path, day, links);
  }

  verdict(): { end: { number: number; seal: string }; broken: string | null } {
    const last = this.#walk.end();
    const head = this.#head;
    if (head !== null) {
      const told = contradiction(
        { who: "log/head.json", ...head },
        this.#watch.met.get(head.number),
        last,
        (day) => day,
      );
      if (told !== null) this.#walk.note(told);
    }
    const broken = this.#walk.firstBreak();
    const end = last === null ? { number: 0, seal: FIRST_PREVIOUS } : { number: last.last, seal: last.lastSeal };
    return { end, broken: broken === null ? null : `${broken.file} ${broken.how}` };
  }

  #take(bytes: Uint8Array): void {
    const read = codecOf(headKind).decode(new TextDecoder().decode(bytes));
    if (read.is !== "read") return;
    this.#head = { number: read.value.number, seal: read.value.seal };
    this.#watch = new Watch([read.value.number]);
  }
}
