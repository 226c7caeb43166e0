import type { NewEntry } from "../record/logEntry.ts";
import type { Product } from "../record/product.ts";
import type { RegisterItem } from "../record/register.ts";
import type { Sieve, Stack } from "../record/sieve.ts";

import { demoMaterial } from "./checks.ts";

const DAY_MS = 86_400_000;
const LABORATORY = "Tessel Metrology (invented)";
/** Products whose sieves have certificates, and whose sieves are soon to be inspected. */
export const CERTIFIED = "TH-0510";
const SOON_DUE = "TH-PG3";
/** A spare that nobody may use. */
const SPARE = "S-0710-9";

const dayOf = (ms: number): string => new Date(ms).toISOString().slice(0, 10);

/** "S-0710-2": the aperture in um and the number of its product's set. */
const serialOf = (apertureUm: number, set: number): string => `S-${String(apertureUm).padStart(4, "0")}-${set}`;

/** An invented mean aperture, a few tenths of a per cent off the nominal one, always the same for the same sieve. */
const meanUm = (apertureUm: number, salt: number): number =>
  Math.round(10 * apertureUm * (1 + (((apertureUm * salt) % 7) - 3) / 1500)) / 10;

function certificateOf(apertureUm: number, untilMs: number): NonNullable<Sieve["certificate"]> {
  return {
    number: `TM-${apertureUm}`,
    day: dayOf(untilMs - 300 * DAY_MS),
    laboratory: LABORATORY,
    warp: { meanUm: meanUm(apertureUm, 31), measured: 30 },
    weft: { meanUm: meanUm(apertureUm, 17), measured: 30 },
    expandedUm: Math.max(0.5, Math.round(apertureUm / 100) / 10),
  };
}

function sieveOf(product: Product, apertureUm: number, set: number, untilMs: number): Sieve {
  const used = product.code === SOON_DUE ? 172 : 280;
  return {
    schema: "sievewright.sieve/1",
    serial: serialOf(apertureUm, set),
    apertureUm,
    frameMm: 200,
    frameHeightMm: 50,
    cloth: "woven wire",
    standard: "ISO 3310-1:2016",
    firstUse: dayOf(untilMs - used * DAY_MS),
    ...(product.code === CERTIFIED ? { certificate: certificateOf(apertureUm, untilMs) } : {}),
  };
}

/** The invented set of sieves of each product; its code is the product's with "SET" in front. */
export function demoSet(product: Product, products: readonly Product[]): Stack {
  const number = products.findIndex(({ code }) => code === product.code) + 1;
  const serials = product.stackUm.toSorted((a, b) => b - a).map((um) => serialOf(um, number));
  return { schema: "sievewright.stack/1", code: `SET-${product.code.slice(3)}`, name: product.name, serials };
}

/** The sieves of a product's set, coarsest first. */
export function demoSieves(product: Product, products: readonly Product[], untilMs: number): readonly Sieve[] {
  const number = products.findIndex(({ code }) => code === product.code) + 1;
  return product.stackUm.toSorted((a, b) => b - a).map((um) => sieveOf(product, um, number, untilMs));
}

function itemsOf(products: readonly Product[], untilMs: number): RegisterItem[] {
  const sieves = products.flatMap((product) => demoSieves(product, products, untilMs));
  const calibrated = { day: dayOf(untilMs - 200 * DAY_MS), laboratory: LABORATORY, due: dayOf(untilMs + 165 * DAY_MS) };
  const weight = (name: string, nominalG: number): RegisterItem => ({
    schema: "sievewright.checkWeight/1",
    weight: name,
    nominalG,
    weightClass: "F1",
    certificate: { ...calibrated, massG: nominalG, expandedG: nominalG / 200_000 },
  });
  return [
    ...sieves,
    {
      schema: "sievewright.sieve/1",
      serial: SPARE,
      apertureUm: 710,
      frameMm: 200,
      firstUse: dayOf(untilMs - 900 * DAY_MS),
    },
    ...products.map((product) => demoSet(product, products)),
    {
      schema: "sievewright.balance/1",
      id: "B1",
      balanceClass: "II",
      capacityG: 3100,
      readabilityG: 0.01,
      repeatabilityG: 0.01,
      calibration: calibrated,
    },
    weight("W500", 500),
    weight("W50", 50),
    demoMaterial(),
  ];
}

/** The invented register, an inspection of every sieve but those soon due, and a spare in quarantine. */
export function demoCare(products: readonly Product[], at: string, untilMs: number): readonly NewEntry[] {
  const by = "SB";
  const items = itemsOf(products, untilMs);
  const due = products.find(({ code }) => code === SOON_DUE);
  const left = new Set([SPARE, ...(due ? demoSet(due, products).serials : [])]);
  const looks = { light: "good", wrinkles: "good", tears: "good", solder: "good", seat: "good" } as const;
  const inspected = items.flatMap((item) =>
    item.schema === "sievewright.sieve/1" && !left.has(item.serial) ? [item.serial] : [],
  );
  return [
    ...items.map((item) => ({ kind: "registered", at, by, item }) as const),
    ...inspected.map((serial) => ({ kind: "care", at, by, care: { did: "inspection", serial, looks } }) as const),
    { kind: "care", at, by, care: { did: "quarantine", serials: [SPARE], reason: "dented rim, does not seat" } },
  ];
}
