import type { Disk } from "./disk.ts";

/** This process may not write to the station, or no longer; nothing was written. */
export class NotOurs extends Error {
  override readonly name = "NotOurs";
}

/** A disk that writes no file unless the station is ours at that moment. */
export const guardedDisk = (disk: Disk, refusal: () => Promise<string | null>): Disk => ({
  ...disk,
  async writeAndSync(path, text) {
    const why = await refusal();
    if (why !== null) throw new NotOurs(why);
    return disk.writeAndSync(path, text);
  },
});
