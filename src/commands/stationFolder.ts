import { dataFolder } from "../store/dataFolder.ts";
import { realDisk } from "../store/realDisk.ts";
import { finishSwap } from "../store/restoreSwap.ts";
import { readStation } from "../store/stationFile.ts";
import { EXIT, ended, reached, type Step } from "./ending.ts";
import type { Io } from "./io.ts";

/** The folder of a station that is there; what a command that reads a station asks first. */
export async function stationFolder(asked: string | undefined, { env }: Io): Promise<Step<string>> {
  const folder = dataFolder(asked, env);
  await finishSwap(folder, realDisk).catch(() => false);
  const station = await readStation(folder, realDisk);
  if (!station.ok) return ended(EXIT.badData, station.reason);
  if (station.value) return reached(folder);
  return ended(EXIT.notFound, `there is no station in ${folder}: check --data, or start sievewright there once`);
}
