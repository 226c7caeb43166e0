import { join } from "node:path";
import type { NewEntry } from "../../src/record/logEntry.ts";
import { cared, SERIALS, weighed, withSet } from "../store/careWorld.ts";
import { must, opened } from "../store/opened.ts";
import { folder, run, type Setting } from "./inProcess.ts";

export const BLINDED = "S-0710-1";
const hour = (k: number): string =>
  `2026-11-${String(2 + Math.floor(k / 10)).padStart(2, "0")}T${String(8 + (k % 10)).padStart(2, "0")}:00:00+01:00`;

/** 30 tests with one set; grains stay in the mesh of one of its sieves in the last ten. */
export const blinding = (): NewEntry[] =>
  Array.from({ length: 30 }, (_, k) => weighed(`t-${k}`, hour(k), { [BLINDED]: k < 20 ? 0 : 0.05 * (k - 19) }));

/** The same set with nothing wrong. */
export const quiet = (tests: number): NewEntry[] => Array.from({ length: tests }, (_, k) => weighed(`t-${k}`, hour(k)));

/** A station with a registered set and these entries; `at` runs commands there. */
export async function careStation(entries: readonly NewEntry[] = []) {
  const data = join(folder(), "station");
  const store = await withSet(await opened(data));
  must(await store.recordAll([...entries]));
  await store.close();
  const at = (argv: readonly string[], setting?: Setting) => run([...argv, "--data", data], setting);
  const json = async (argv: readonly string[]) => JSON.parse((await at([...argv, "--json"])).out);
  const last = async () => JSON.parse((await at(["log", "--json"])).out.trimEnd().split("\n").at(-1) ?? "");
  return { data, at, json, last };
}

export const quarantined = (serial: string): NewEntry =>
  cared({ did: "quarantine", serials: [serial], reason: "dented rim" });
export { SERIALS };
