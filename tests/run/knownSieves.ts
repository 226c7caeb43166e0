import type { LogEntry } from "../../src/record/logEntry.ts";
import { setOf, sieveOf } from "../care/knownWorld.ts";
import { testRecord } from "../store/records.ts";
import { EMPTY_G, FILTER_SAND } from "./hands.ts";

export const STACK_UM = FILTER_SAND.stackUm.toSorted((a, b) => b - a);
export const serial = (um: number, set: string) => `S-${um}-${set}`;
export const sieves = (set: string) => STACK_UM.map((um) => sieveOf(serial(um, set), um));
export const A = setOf("SET-A", ...STACK_UM.map((um) => serial(um, "a")));
export const B = setOf("SET-B", ...STACK_UM.map((um) => serial(um, "b")));
export const ITEMS = [...sieves("a"), ...sieves("b"), A, B, sieveOf("S-63-z", 63)];

const dayOf = (k: number) => `2026-11-${String(1 + Math.floor(k / 2)).padStart(2, "0")}`;
const momentOf = (k: number) => `${dayOf(k)}T${k % 2 === 0 ? "08" : "16"}:00:00+01:00`;

/** Recorded tests with set A; how many g each sieve was above clean in the k-th. */
export function recorded(count: number, aboveG: (um: number, k: number) => number): LogEntry[] {
  return Array.from({ length: count }, (_, k) => {
    const weighings = [...STACK_UM, 0].map((apertureUm, i) => {
      // The last digit of a balance flickers.
      const emptyG = (EMPTY_G[i] ?? 0) + aboveG(apertureUm, k) + (((k * 7 + i) % 3) - 1) / 100;
      return { apertureUm, emptyG, fullG: emptyG + 50, ...(apertureUm > 0 ? { serial: serial(apertureUm, "a") } : {}) };
    });
    const at = momentOf(k);
    const test = { ...testRecord(`t-${k}`, at), product: FILTER_SAND, weighings, set: "SET-A" };
    const sealed = { number: k + 1, at, day: dayOf(k), station: "TH-DRY1", by: "KO", previous: "0".repeat(64) };
    return { kind: "test", ...sealed, test };
  });
}
