import { expect, onTestFinished } from "vitest";
import { type OpenOptions, openStore } from "../../src/store/openStore.ts";
import type { Store } from "../../src/store/store.ts";
import { indexRowOf, now, station } from "./records.ts";

/** Opens a station's folder, made if it is not there, and closes it when the test is over. */
export async function opened(folder: string, options: Partial<OpenOptions> = {}): Promise<Store> {
  const store = await openStore(folder, { now, indexRowOf, create: station, ...options });
  if (!store.ok) throw new Error(store.reason);
  onTestFinished(() => store.value.close());
  return store.value;
}

export const must = <T>(outcome: { ok: true; value: T } | { ok: false; reason: string }): T => {
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
};

export const mustNot = (outcome: { ok: true; value: unknown } | { ok: false; reason: string }): string => {
  expect(outcome).toMatchObject({ ok: false });
  return outcome.ok ? "" : outcome.reason;
};
