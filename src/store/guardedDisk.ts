import type { Disk } from "./disk.ts";

/** This process may not write to the station, or no longer; nothing was written. */
export class NotOurs extends Error {
  override readonly name = "NotOurs";
}

/** A disk that begins no file unless the station is ours at that moment. */
export const guardedDisk = (disk: Disk, refusal: () => Promise<string | null>): Disk => ({
  async writeAndSync(path, content) {
    const why = await refusal();
    if (why !== null) throw new NotOurs(why);
    return disk.writeAndSync(path, content);
  },
  read: (path) => disk.read(path),
  rename: (from, to) => disk.rename(from, to),
  remove: (path) => disk.remove(path),
  syncFolder: (folder) => disk.syncFolder(folder),
  list: (folder) => disk.list(folder),
  makeFolder: (folder) => disk.makeFolder(folder),
  modifiedAtMs: (path) => disk.modifiedAtMs(path),
  touch: (path, start) => disk.touch(path, start),
  trueName: (folder) => disk.trueName(folder),
  pause: (ms) => disk.pause(ms),
});
