// A station that asks its people to sign on: SB administrator, ML quality, KO operator.
import { onTestFinished } from "vitest";
import type { Role } from "../../src/record/roles.ts";
import { openStore } from "../../src/store/openStore.ts";
import type { Store } from "../../src/store/store.ts";
import { must } from "./opened.ts";
import { indexRowOf, now, station } from "./records.ts";

/** So that a test is not spent on guessing. */
export const CHEAP = { n: 1024, r: 8, p: 1 } as const;

export const PINS = { SB: "471108", ML: "830517", KO: "190734" } as const;
export type Known = keyof typeof PINS;
export const ROLE_OF: Readonly<Record<Known, Role>> = { SB: "administrator", ML: "quality", KO: "operator" };
export const whoOf = (initials: Known) => ({ initials, pin: PINS[initials] });

/** Opens the station at a moment that the test moves. */
export async function openAt(folder: string, clock: () => string = now): Promise<Store> {
  const store = must(await openStore(folder, { now: clock, indexRowOf, create: station, pinCost: CHEAP }));
  onTestFinished(() => store.close());
  return store;
}

export async function setUpAt(folder: string, clock: () => string = now): Promise<{ store: Store; code: string }> {
  const store = await openAt(folder, clock);
  const first = { initials: "SB", name: "S. Baro", pin: PINS.SB };
  const { code } = must(await store.operators.setUp(first, "audit"));
  return { store, code };
}

/** With everybody in the list and nobody signed on. */
export async function staffedAt(folder: string, clock: () => string = now): Promise<{ store: Store; code: string }> {
  const begun = await setUpAt(folder, clock);
  const { store } = begun;
  must(await store.signOn(whoOf("SB")));
  for (const initials of ["ML", "KO"] as const) {
    const person = { initials, name: `${initials} of the plant`, role: ROLE_OF[initials], pin: PINS[initials] };
    must(await store.operators.change({ event: "added", ...person, reason: "" }));
  }
  must(await store.signOff("off"));
  return begun;
}
