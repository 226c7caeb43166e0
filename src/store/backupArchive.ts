import { createWriteStream } from "node:fs";
import { open, rm } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import { finished } from "node:stream/promises";
import { Header, Pack, ReadEntry } from "tar";
import { MANIFEST_NAME } from "../record/backup.ts";
import type { CopyTarget } from "./backupCopy.ts";
import type { Disk } from "./disk.ts";
import { temporaryName } from "./durableFile.ts";
import { whileBusy } from "./whileBusy.ts";

const OWNER_FILE = 0o600;

/** One file as a copy: a compressed tar archive (POSIX ustar), written as it goes and flushed before it gets its name. */
export async function archiveTarget(path: string, at: string, disk: Disk): Promise<CopyTarget> {
  const temporary = join(dirname(path), temporaryName(basename(path)));
  const pack = new Pack({ gzip: true, portable: true });
  const file = createWriteStream(temporary, { flags: "wx", mode: OWNER_FILE });
  const written = finished(file);
  written.catch(() => undefined); // told by whichever step waits for it
  pack.pipe(file);

  async function put(name: string, bytes: Uint8Array): Promise<void> {
    const header = new Header({ path: name, size: bytes.length, type: "File", mode: OWNER_FILE, mtime: new Date(at) });
    const entry = new ReadEntry(header);
    const taken = entry.promise();
    pack.add(entry);
    entry.end(Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength));
    await Promise.race([taken, written]);
  }

  return {
    put,
    async finish(manifest) {
      await put(MANIFEST_NAME, new TextEncoder().encode(manifest));
      pack.end();
      await written;
      await flushed(temporary);
      await whileBusy(() => disk.rename(temporary, path), disk);
      await disk.syncFolder(dirname(path));
    },
    async abandon() {
      file.destroy();
      await written.catch(() => undefined);
      await rm(temporary, { force: true });
    },
  };
}

async function flushed(path: string): Promise<void> {
  const file = await open(path, "r+");
  try {
    await file.sync();
  } finally {
    await file.close();
  }
}
