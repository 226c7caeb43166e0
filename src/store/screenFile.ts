import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { screenKind } from "../record/kinds.ts";
import type { ScreenChoice } from "../record/screen.ts";
import type { Disk } from "./disk.ts";
import { diskTrouble } from "./diskWords.ts";
import { codecOf, durableFile } from "./durableFile.ts";
import { screenPath } from "./layout.ts";
import { realDisk } from "./realDisk.ts";

const fileIn = (folder: string, disk: Disk) => durableFile(screenPath(folder), codecOf(screenKind), disk);

/** What was chosen at a station's screens; null where nothing was, refused where the file can't be read. */
export async function readScreenChoice(folder: string, disk: Disk = realDisk): Promise<Outcome<ScreenChoice | null>> {
  try {
    return accepted(await fileIn(folder, disk).read());
  } catch (fault) {
    return refused(diskTrouble(fault, "screen.json can't be read, so the station's own look is shown"));
  }
}

/** Keeps a choice for the next start; it is no record, so an unreadable one before it is replaced. */
export async function keepScreenChoice(
  folder: string,
  choice: Omit<ScreenChoice, "schema">,
  disk: Disk = realDisk,
): Promise<Outcome<void>> {
  try {
    return accepted(await fileIn(folder, disk).write({ schema: "sievewright.screen/1", ...choice }));
  } catch (fault) {
    return refused(diskTrouble(fault, "the choice is not kept for the next start"));
  }
}
