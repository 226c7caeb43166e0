import type { Sieve } from "../../record/sieve.ts";
import { type App, enter, type Step, step } from "../place.ts";
import type { CareFormPlace, SievePlace, SievesPlace } from "./places.ts";

const SIEVES: SievesPlace = { name: "sieves", list: "sieves", filter: "", at: 0 };

/** Into the list of what is registered. */
export const toSieves = (app: App): Step => step(enter(app, SIEVES), { do: "readCare" });

/** The registered sieve that a scan names. */
export function sieveNamed({ care }: App, scanned: string): Sieve | undefined {
  const name = scanned.trim().toLowerCase();
  return care?.register.sieves.find(({ serial }) => serial.toLowerCase() === name);
}

/** Onto the page of one sieve. */
export function toSieve(app: App, serial: string): Step {
  const place: SievePlace = { name: "sieve", serial, page: "sieve", told: null, effective: null };
  return step(enter(app, place), { do: "readSieve", serial });
}

/** Into a form about a sieve, or about what is registered. */
export const toForm = (app: App, form: Omit<CareFormPlace, "name" | "answers" | "typed" | "signing">): Step =>
  step(enter(app, { name: "careForm", answers: [], typed: "", signing: false, ...form }));
