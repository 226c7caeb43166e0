import type { Effect } from "../place.ts";
import * as amending from "./amending.ts";
import { readCare } from "./care.ts";
import type { Desk } from "./desk.ts";
import * as drafts from "./drafts.ts";
import * as fetching from "./fetching.ts";
import { carryOutProduct } from "./products.ts";
import * as recording from "./recording.ts";
import { keepTheme, speak } from "./screen.ts";
import { carryOutShift } from "./shift.ts";
import { carryOutCare } from "./sieves.ts";
import { people } from "./signOn.ts";
import { carryOutTrend } from "./trend.ts";

/** Carries out what a key asked for; resolves when it is done and its answer is on the screen. */
export async function carryOut(desk: Desk, effect: Exclude<Effect, { do: "quit" }>): Promise<void> {
  switch (effect.do) {
    case "save":
      return drafts.save(desk, effect.draft);
    case "drop":
      return drafts.drop(desk, effect.draft);
    case "record":
      return recording.record(desk, effect.draft, effect.by, effect.assessment);
    case "amend":
      return amending.amend(desk, effect.amending, effect.by);
    case "endTest":
      return amending.endTest(desk, effect.draft, effect.reason, effect.by);
    case "recordCheck":
      return recording.recordCheck(desk, effect.check);
    case "readMonth":
      return fetching.readMonth(desk, effect.month);
    case "readMonthWords":
      return fetching.readMonthWords(desk);
    case "open":
      return fetching.open(desk, effect.row);
    case "openDeck":
      return fetching.openDeck(desk, effect.rows);
    case "learnUsual":
      return fetching.learnUsual(desk, effect.product);
    case "readCare":
      return readCare(desk);
    case "people":
      return people(desk, effect.ask);
    case "draftProduct":
    case "saveProductDraft":
    case "discardProductDraft":
    case "publishProduct":
    case "learnLatest":
    case "importShared":
      return carryOutProduct(desk, effect);
    case "recordEvent":
    case "readAgain":
    case "readHandover":
    case "readLot":
    case "keepPage":
      return carryOutShift(desk, effect);
    case "readTrend":
    case "freezeLimits":
      return carryOutTrend(desk, effect);
    case "speak":
      return speak(desk, effect.language);
    case "keepTheme":
      return keepTheme(desk, effect.theme);
    case "readPlan":
      return fetching.readPlan(desk, effect.product);
    case "readSieve":
    case "recordCare":
    case "registerFile":
    case "readEffective":
    case "readApertures":
    case "readReferenceRows":
    case "readReference":
      return carryOutCare(desk, effect);
    case "bell":
      return desk.bell();
  }
}
