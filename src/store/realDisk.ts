import * as fs from "node:fs";
import { dirname } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { promisify } from "node:util";
import { codeOf, type Disk, UnfitFile } from "./disk.ts";

const flush = promisify(fs.fsync);
const OWNER_FILE = 0o600;
const OWNER_FOLDER = 0o700;
const LARGEST_BYTES = 256 * 1024 * 1024;
/** What file systems answer that cannot flush a folder; a flush that failed (EIO) is not among them. */
const CANNOT_FLUSH_FOLDERS = ["EINVAL", "ENOTSUP", "ENOSYS", "EISDIR"];

/**
 * The disk of this computer. The quick calls of a save are made directly and only the flush is waited for aside: each trip to
 * the thread pool costs a tenth of the whole save, while a flush can take long and must not hold up the keys.
 * Links inside the station's folder are refused, so that a save never lands outside it; the folder itself may be one.
 */
export const realDisk: Disk = {
  async read(path) {
    const found = fs.lstatSync(path, { throwIfNoEntry: false });
    if (found === undefined) return null;
    if (!found.isFile()) throw new UnfitFile(found.isSymbolicLink() ? "it is a link" : "it is no plain file");
    if (found.size > LARGEST_BYTES) throw new UnfitFile(`it is larger than ${LARGEST_BYTES / 2 ** 20} MiB`);
    return orNull(fs.promises.readFile(path));
  },

  async writeAndSync(path, content) {
    const file = fs.openSync(path, "wx", OWNER_FILE);
    try {
      fs.writeFileSync(file, content);
      await flush(file);
    } catch (fault) {
      fs.rmSync(path, { force: true });
      throw fault;
    } finally {
      fs.closeSync(file);
    }
  },

  async rename(from, to) {
    fs.renameSync(from, to);
  },

  async remove(path) {
    fs.rmSync(path, { force: true });
  },

  async syncFolder(folder) {
    if (process.platform === "win32") return;
    const names = fs.openSync(folder, "r");
    try {
      await flush(names);
    } catch (fault) {
      if (!CANNOT_FLUSH_FOLDERS.includes(codeOf(fault))) throw fault;
    } finally {
      fs.closeSync(names);
    }
  },

  async list(folder) {
    const found = fs.lstatSync(folder, { throwIfNoEntry: false });
    if (found === undefined) return [];
    mustBeFolder(found);
    return ((await orNull(fs.promises.readdir(folder))) ?? []).sort();
  },

  async makeFolder(folder) {
    const first = fs.mkdirSync(folder, { recursive: true, mode: OWNER_FOLDER });
    if (first === undefined) return mustBeFolder(fs.lstatSync(folder));
    for (let made = folder; made.length >= first.length; made = dirname(made)) await this.syncFolder(dirname(made));
  },

  async modifiedAtMs(path) {
    return fs.lstatSync(path, { throwIfNoEntry: false })?.mtimeMs ?? null;
  },

  async touch(path, start) {
    const file = fs.openSync(path, "r+");
    try {
      fs.writeSync(file, start, 0);
    } finally {
      fs.closeSync(file);
    }
  },

  trueName: (folder) => fs.promises.realpath(folder),
  pause: (ms) => pause(ms),
};

function mustBeFolder(found: fs.Stats): void {
  if (!found.isDirectory()) throw new UnfitFile(found.isSymbolicLink() ? "it is a link" : "it is no folder");
}

async function orNull<T>(asked: Promise<T>): Promise<T | null> {
  try {
    return await asked;
  } catch (fault) {
    if (codeOf(fault) === "ENOENT") return null;
    throw fault;
  }
}
