import type { Effect } from "../place.ts";

/** What may come of something scanned: reading, and keeping what was typed. Whatever is not named here takes a hand. */
const HARMLESS: ReadonlySet<Effect["do"]> = new Set<Effect["do"]>([
  "save",
  "saveProductDraft",
  "readMonth",
  "readMonthWords",
  "readAgain",
  "open",
  "openDeck",
  "learnUsual",
  "learnLatest",
  "readHandover",
  "readLot",
  "readCare",
  "readSieve",
  "readEffective",
  "readApertures",
  "readReferenceRows",
  "readReference",
  "readTrend",
  "readPlan",
  "bell",
]);

/** A badge may be scanned to sign on: it records that somebody is here, and nothing else. */
const isSignOn = (effect: Effect): boolean => effect.do === "people" && effect.ask.is === "sign on";

/** Whether nothing is recorded, ended, dropped, published or left by these. */
export const onlyReads = (effects: readonly Effect[]): boolean =>
  effects.every((effect) => HARMLESS.has(effect.do) || isSignOn(effect));
