import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { onTestFinished } from "vitest";
import type { TestEntry } from "../../src/record/logEntry.ts";
import type { Product } from "../../src/record/product.ts";
import type { Station } from "../../src/record/station.ts";
import { indexRowOf } from "../../src/store/indexRowOf.ts";
import { openStore } from "../../src/store/openStore.ts";
import type { Store } from "../../src/store/store.ts";
import { FILTER_SAND, TEN_MINUTES } from "../run/hands.ts";
import { STATION } from "../screens/stage.ts";

const AT = "2026-11-01T06:00:00+01:00";

/** Two seconds, so that a test can wait for the end of shaking. */
export const SHORT = { ...TEN_MINUTES, code: "V2S", name: "two seconds", durationS: 2 };
export const QUICK_SAND: Product = { ...FILTER_SAND, method: { ...FILTER_SAND.method, program: "V2S" } };

export async function opened(folder: string, create: Station = STATION): Promise<Store> {
  const store = await openStore(folder, { now: () => AT, indexRowOf, create });
  if (!store.ok) throw new Error(store.reason);
  return store.value;
}

/** The folder of a station that has these products and these recorded tests; gone after the test. */
export async function stationFolder(
  products: readonly Product[] = [QUICK_SAND],
  recorded: readonly TestEntry[] = [],
  station: Station = STATION,
): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), "sievewright-terminal-"));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const store = await opened(folder, station);
  const loading = { fromPath: "test", bytesSha256: "0".repeat(64), by: "SB", at: AT };
  await store.addProgram(SHORT, loading);
  await store.addProgram(TEN_MINUTES, loading);
  for (const product of products) {
    const added = await store.addProduct(product, loading);
    if (!added.ok) throw new Error(added.reason);
  }
  for (const { number: _n, day: _d, station: _s, previous: _p, ...entry } of recorded) await store.record(entry);
  await store.close();
  return folder;
}
