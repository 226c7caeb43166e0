import { readdir } from "node:fs/promises";
import { type Filling, fillStation } from "../demo/fillStation.ts";
import { DEMO_STATION } from "../demo/station.ts";
import { done, type Ending, EXIT, faulty } from "./ending.ts";
import type { Io } from "./io.ts";
import { openForWriting } from "./openForWriting.ts";

export interface DemoOptions {
  readonly data?: string;
  readonly fill?: number;
  readonly seed: number;
  readonly tour: boolean;
}

/** Three months of tests, a few a shift. */
const USUAL_TESTS = 360;
/** A station that is written to be kept ends its season here, so that the same seed gives the same files. */
const SEASON_ENDS = Date.parse("2026-11-24T02:41:00+01:00");

const isEmpty = async (folder: string): Promise<boolean> => {
  const names = await readdir(folder).catch((fault: NodeJS.ErrnoException) => {
    if (fault.code === "ENOENT") return [];
    throw fault;
  });
  return names.length === 0;
};

async function written(folder: string, filling: Filling, io: Io): Promise<Ending> {
  if (!(await isEmpty(folder)))
    return faulty(EXIT.usage, `${folder} is not empty: name an empty folder for the demo station`);
  const store = await openForWriting(folder, io, DEMO_STATION);
  if (!store.ok) return store.ending;
  const filled = await fillStation(store.value, filling);
  await store.value.close();
  if (!filled.ok) return faulty(EXIT.ioError, filled.reason);
  return done(`${filled.value} invented tests written to ${folder}; open them with: sievewright --data ${folder}\n`);
}

/** The invented plant: on the screens in a temporary folder, or written into a folder to keep. */
export async function demo({ data, fill, seed, tour }: DemoOptions, io: Io): Promise<Ending> {
  const filling = { tests: fill ?? USUAL_TESTS, seed, programVersion: io.version };
  if (data !== undefined) return written(data, { ...filling, untilMs: SEASON_ENDS }, io);
  if (fill !== undefined) return faulty(EXIT.usage, "--fill goes with --data: name the folder to write to");
  return io.showDemo({ ...filling, untilMs: Date.parse(io.now()) }, tour);
}
