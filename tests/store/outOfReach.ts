// The disk of this computer with files that it can't read for a while.
import { basename } from "node:path";
import { realDisk } from "../../src/store/realDisk.ts";
import { fault } from "../faults/modelDisk.ts";

/** Reads of these files (by their names) fail as those of a bad sector do; what is in `names` can change meanwhile. */
export function diskWithout(names: Set<string>): typeof realDisk {
  return {
    ...realDisk,
    read: async (path) => {
      if (names.has(basename(path))) throw fault("EIO");
      return realDisk.read(path);
    },
  };
}
