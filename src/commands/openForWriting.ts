import type { Station } from "../record/station.ts";
import { noteClock } from "../store/clockNote.ts";
import { indexRowOf } from "../store/indexRowOf.ts";
import { openStore } from "../store/openStore.ts";
import type { Store } from "../store/store.ts";
import { EXIT, ended, reached, type Step } from "./ending.ts";
import type { Io } from "./io.ts";
import { type SignerOptions, signedOn } from "./signer.ts";

/**
 * The store of a folder, open for writing; refused while another Sievewright has it. A command that records something
 * passes its `signer`: where the station asks for it, it is signed on before the store is handed over.
 */
export async function openForWriting(
  folder: string,
  io: Io,
  create?: Station,
  signer?: SignerOptions,
): Promise<Step<Store>> {
  const options = { now: io.now, indexRowOf, declares: true, ...(io.pinCost ? { pinCost: io.pinCost } : {}) };
  const store = await openStore(folder, { ...options, ...(create ? { create } : {}) });
  if (!store.ok) return ended(EXIT.ioError, store.reason);
  const { readOnly } = store.value;
  const ready = readOnly === null ? await signedIn(store.value, signer, io) : ended(EXIT.ioError, readOnly);
  if (ready.ok) return signer === undefined ? reached(store.value) : handedOver(store.value, io.now());
  await store.value.close();
  return ready;
}

/** Whoever records by command may find the clock set since the last entry, as the screens do. */
async function handedOver(store: Store, now: string): Promise<Step<Store>> {
  await noteClock(store, now);
  return reached(store);
}

const signedIn = (store: Store, signer: SignerOptions | undefined, io: Io): Promise<Step<void>> | Step<void> =>
  signer === undefined ? reached(undefined) : signedOn(store, signer, io);
