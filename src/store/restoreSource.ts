import { quoted } from "../entry/quoted.ts";
import type { BackupManifest } from "../record/backup.ts";
import { isCopiedPath, MANIFEST_NAME } from "../record/backup.ts";
import { backupKind } from "../record/kinds.ts";
import { readRecord } from "../record/migrate.ts";
import { sha256Of } from "./backupCopy.ts";

/** A copy that can't be restored as it is; says why, and nothing was touched. */
export class UnfitBackup extends Error {
  override readonly name = "UnfitBackup";
}

/** One file of a copy, larger than anything that a station keeps, is none of its files. */
export const LARGEST_FILE_BYTES = 256 * 2 ** 20;
const MOST_FILES = 500_000;

/** Takes in the files of a copy one after another and proves, at the end, that they are what its manifest says. */
export class ProvenFiles {
  readonly #seen = new Map<string, { readonly bytes: number; readonly sha256: string }>();
  #manifest: { readonly content: BackupManifest; readonly sha256: string } | null = null;

  /** Refuses a name before any of its bytes are looked at. */
  admit(path: string, bytes: number): void {
    const shown = quoted(path, 80);
    if (path !== MANIFEST_NAME && !isCopiedPath(path))
      throw new UnfitBackup(`it holds ${shown}, which is no path of a station's file`);
    if (bytes > LARGEST_FILE_BYTES)
      throw new UnfitBackup(`it holds ${shown} with ${bytes} bytes: no file of a station is so large`);
    if (this.#seen.has(path.toLowerCase()) || (path === MANIFEST_NAME && this.#manifest !== null))
      throw new UnfitBackup(`it holds ${shown} twice`);
    if (this.#seen.size >= MOST_FILES) throw new UnfitBackup(`it holds more than ${MOST_FILES} files`);
  }

  /** True for a file of the station, to be written; the manifest is kept here. */
  take(path: string, bytes: Uint8Array): boolean {
    const sha256 = sha256Of(bytes);
    if (path !== MANIFEST_NAME) {
      this.#seen.set(path.toLowerCase(), { bytes: bytes.length, sha256 });
      return true;
    }
    this.#manifest = { content: manifestFrom(bytes), sha256 };
    return false;
  }

  /** The manifest, once every file that it names was seen as it says, and no other. */
  proven(): { readonly manifest: BackupManifest; readonly sha256: string } {
    const manifest = this.#manifest;
    if (manifest === null)
      throw new UnfitBackup(`it has no ${MANIFEST_NAME}: it is no backup of Sievewright, or half of one`);
    const left = new Map(this.#seen);
    for (const { path, bytes, sha256 } of manifest.content.files) {
      const seen = left.get(path.toLowerCase());
      if (seen === undefined) throw new UnfitBackup(`${path} is missing in it`);
      if (seen.bytes !== bytes || seen.sha256 !== sha256)
        throw new UnfitBackup(
          `${path} in it is not as it was copied: its bytes or its SHA-256 differ from the manifest`,
        );
      left.delete(path.toLowerCase());
    }
    const [stranger] = left.keys();
    if (stranger !== undefined) throw new UnfitBackup(`it holds ${stranger}, which its manifest doesn't name`);
    return { manifest: manifest.content, sha256: manifest.sha256 };
  }
}

export function manifestFrom(bytes: Uint8Array): BackupManifest {
  const read = readRecord(textOf(bytes), backupKind);
  if (read.is !== "read") throw new UnfitBackup(`its ${MANIFEST_NAME} can't be used: ${read.why}`);
  return read.value;
}

function textOf(bytes: Uint8Array): string {
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    throw new UnfitBackup(`its ${MANIFEST_NAME} is not UTF-8 text`);
  }
}
