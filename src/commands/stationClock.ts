import { inZone } from "../record/moment.ts";
import type { Station } from "../record/station.ts";
import { realDisk } from "../store/realDisk.ts";
import { readStation } from "../store/stationFile.ts";
import type { Io } from "./io.ts";

/** The present moment as the clock of the station shows it, wherever the computer stands. */
export const stationNow = ({ timeZone }: Pick<Station, "timeZone">, io: Io): string => inZone(timeZone)(io.now());

/** The same by the station of a folder; the computer's own clock where none can be read there. */
export async function folderNow(folder: string, io: Io): Promise<string> {
  const station = await readStation(folder, realDisk);
  return station.ok && station.value !== null ? stationNow(station.value, io) : io.now();
}
