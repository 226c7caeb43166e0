import type { LogEntry, NewEntry } from "../record/logEntry.ts";
import { actOf } from "../record/permissions.ts";
import { EXIT, ended, reached, type Step } from "./ending.ts";
import type { Io } from "./io.ts";
import type { SignedStore } from "./productSigner.ts";
import { stationNow } from "./stationClock.ts";

type Unsigned<K extends NewEntry["kind"]> = Omit<Extract<NewEntry, { kind: K }>, "by" | "at">;
/** What is told to the log of sieves, balances and weights. */
export type Telling = Unsigned<"care"> | Unsigned<"registered">;

/** Records one entry in the name of whoever signed on, or says why the store refuses it: disk, role, or the entry itself. */
export async function recordedEntry({ store, by }: SignedStore, telling: Telling, io: Io): Promise<Step<LogEntry>> {
  const entry: NewEntry = { ...telling, by, at: stationNow(store.station, io) };
  const recorded = await store.record(entry);
  if (recorded.ok) return reached(recorded.value);
  if (store.readOnly !== null) return ended(EXIT.ioError, recorded.reason);
  const act = actOf(entry);
  const permitted = act === null || store.operators.refusal(act) === null;
  return ended(permitted ? EXIT.badData : EXIT.notPermitted, recorded.reason);
}
