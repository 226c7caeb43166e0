import { indexRowOf } from "../store/indexRowOf.ts";
import { openStore } from "../store/openStore.ts";
import type { Store } from "../store/store.ts";
import { EXIT, ended, reached, type Step } from "./ending.ts";
import type { Io } from "./io.ts";
import { stationFolder } from "./stationFolder.ts";

/** The store of a station that is there, to look at while others may work on it: no lock is taken, nothing changes. */
export async function openForReading(asked: string | undefined, io: Io): Promise<Step<Store>> {
  const folder = await stationFolder(asked, io);
  if (!folder.ok) return folder;
  const store = await openStore(folder.value, { now: io.now, indexRowOf, reading: true });
  return store.ok ? reached(store.value) : ended(EXIT.ioError, store.reason);
}
