import type { Care } from "../../src/record/care.ts";
import type { NewEntry } from "../../src/record/logEntry.ts";
import type { RegisterItem } from "../../src/record/register.ts";
import type { Sieve, Stack } from "../../src/record/sieve.ts";
import type { Store } from "../../src/store/store.ts";
import { must } from "./opened.ts";
import { product, testRecord } from "./records.ts";

/** The invented set of sieves of the example product. */
export const SERIALS = ["S-1400-1", "S-1000-1", "S-0710-1", "S-0500-1"];
export const SET: Stack = {
  schema: "sievewright.stack/1",
  code: "SET-A",
  name: "filter sand, first set",
  serials: SERIALS,
};
export const sieve = (serial: string, more: Partial<Sieve> = {}): Sieve => ({
  schema: "sievewright.sieve/1",
  serial,
  apertureUm: product.stackUm[SERIALS.indexOf(serial)] ?? 710,
  firstUse: "2026-11-01",
  ...more,
});

export const registered = (item: RegisterItem, reason?: string, at = "2026-11-20T08:00:00+01:00"): NewEntry => ({
  kind: "registered",
  at,
  by: "KO",
  item,
  ...(reason === undefined ? {} : { reason }),
});

export const cared = (care: Care, at = "2026-11-24T09:00:00+01:00"): NewEntry => ({ kind: "care", at, by: "KO", care });

/** A test with the set, every sieve `above` g heavier than clean. */
export function weighed(testId: string, at: string, above: Readonly<Record<string, number>> = {}): NewEntry {
  const test = testRecord(testId, at);
  const weighings = test.weighings.map((w, i) => {
    const serial = SERIALS[i];
    if (serial === undefined) return w;
    const emptyG = 400 + i + (above[serial] ?? 0);
    return { ...w, serial, emptyG, fullG: emptyG + 60 };
  });
  return { kind: "test", at, by: "KO", test: { ...test, set: SET.code, weighings } };
}

/** A station whose set is registered. */
export async function withSet(store: Store): Promise<Store> {
  for (const serial of SERIALS) must(await store.record(registered(sieve(serial))));
  must(await store.record(registered(SET)));
  return store;
}
