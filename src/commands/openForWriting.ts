import type { Station } from "../record/station.ts";
import { indexRowOf } from "../store/indexRowOf.ts";
import { openStore } from "../store/openStore.ts";
import type { Store } from "../store/store.ts";
import { EXIT, ended, reached, type Step } from "./ending.ts";
import type { Io } from "./io.ts";

/** The store of a folder, open for writing; refused while another Sievewright has it. */
export async function openForWriting(folder: string, { now }: Io, create?: Station): Promise<Step<Store>> {
  const store = await openStore(folder, { now, indexRowOf, ...(create ? { create } : {}) });
  if (!store.ok) return ended(EXIT.ioError, store.reason);
  const { readOnly } = store.value;
  if (readOnly === null) return reached(store.value);
  await store.value.close();
  return ended(EXIT.ioError, readOnly);
}
