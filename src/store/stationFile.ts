import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { stationKind } from "../record/kinds.ts";
import { faultInWords } from "../record/migrate.ts";
import type { Station } from "../record/station.ts";
import type { Disk } from "./disk.ts";
import { diskTrouble } from "./diskWords.ts";
import { codecOf, durableFile } from "./durableFile.ts";
import { draftsFolder, logFolder, stationPath } from "./layout.ts";

const codec = codecOf(stationKind);

/** The station of a folder; null when the folder has none. It is edited by hand, so it is never set aside. */
export async function readStation(folder: string, disk: Disk): Promise<Outcome<Station | null>> {
  try {
    return accepted(await durableFile(stationPath(folder), codec, disk).read());
  } catch (fault) {
    return refused(diskTrouble(fault, `${stationPath(folder)} can't be used`));
  }
}

/** Makes a new station; refused where records lie without one, for they belong to a station that has lost its file. */
export async function createStation(folder: string, station: Station, disk: Disk): Promise<Outcome<void>> {
  const parsed = stationKind.schema.safeParse(station);
  if (!parsed.success) return refused(`the station can't be made: ${faultInWords(parsed.error)}`);
  try {
    const records = [...(await disk.list(logFolder(folder))), ...(await disk.list(draftsFolder(folder)))];
    if (records.length > 0)
      return refused(`${folder} holds records but no station.json. Restore that file from a backup`);
    return accepted(await durableFile(stationPath(folder), codec, disk).write(station));
  } catch (fault) {
    return refused(diskTrouble(fault, `no station can be made in ${folder}`));
  }
}
