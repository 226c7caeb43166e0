import { codeOf, type Disk } from "./disk.ts";

/** What Windows answers while a scanner, an indexer or a synchroniser holds a file for a moment. */
const BUSY = ["EPERM", "EACCES", "EBUSY"];
/** Together about two and a half seconds: a weighing must not be lost to a scanner. */
const PATIENT_MS = [5, 10, 20, 40, 80, 160, 320, 640, 1200];
const BRIEF_MS = [5, 10, 20];

/** Does it, and again after growing pauses while the file is held by somebody; at last throws what was thrown. */
export async function whileBusy<T>(step: () => Promise<T>, disk: Disk, pausesMs = PATIENT_MS): Promise<T> {
  for (const pauseMs of pausesMs) {
    try {
      return await step();
    } catch (fault) {
      if (!BUSY.includes(codeOf(fault))) throw fault;
      await disk.pause(pauseMs);
    }
  }
  return step();
}

/** The same for reading, where the wait is short: a file without rights stays so. */
export const readWhileBusy = <T>(step: () => Promise<T>, disk: Disk): Promise<T> => whileBusy(step, disk, BRIEF_MS);
