import type { Cabinet } from "../store/cabinet.ts";
import { guardedDisk } from "../store/guardedDisk.ts";
import { realDisk } from "../store/realDisk.ts";

const ONLY_READING = "this command only reads";

/** A station's files for a command that only reads: it takes no lock, changes nothing and makes nothing. */
export function readOnlyCabinet(folder: string): Cabinet {
  const refusal = async () => ONLY_READING;
  const disk = guardedDisk(realDisk, refusal);
  return { folder, disk, problems: [], readOnly: () => ONLY_READING, becomeReadOnly: () => undefined, refusal };
}
