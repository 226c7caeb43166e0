import { BALANCE_CLASSES } from "../../record/care.ts";
import { WEIGHT_CLASSES } from "../../record/checks.ts";
import { phrase, say } from "../../words/say.ts";
import { speaking } from "../../words/speaking.ts";
import type { App } from "../place.ts";
import {
  certificateAnswered,
  certifiedQuestions,
  changed,
  ending,
  named,
  numbered,
  OPEN,
  standing,
} from "./formParts.ts";
import type { CareFormPlace } from "./places.ts";
import type { AnswerOf, CareQuestion } from "./questions.ts";
import { above0, filled, mass, name, numberOf } from "./reads.ts";

const NO_CLASS = "none";
const classOf = (answer: string): string => (answer === NO_CLASS ? "" : answer);

/** What a balance is asked for. */
export function balanceQuestions(app: App, place: CareFormPlace): readonly CareQuestion[] {
  const balance = changed(place, "sievewright.balance/1");
  const grams = mass(speaking().decimal);
  const own = app.station.balances[0];
  return [
    ...named(place, { word: "id", asks: say`as station.json names it`, ...standing(own?.id), read: name }),
    {
      word: "serial",
      asks: say`its serial number; Enter without one`,
      ...standing(balance?.serial),
      ...OPEN,
      read: name,
    },
    {
      word: "class",
      asks: say`its accuracy class`,
      options: [...BALANCE_CLASSES, NO_CLASS],
      usual: balance?.balanceClass ?? NO_CLASS,
    },
    {
      word: "capacity",
      asks: say`the most that it weighs, in g`,
      ...standing(balance?.capacityG ?? own?.capacityG),
      ...numbered(grams),
    },
    {
      word: "reads to",
      asks: say`its readability in g`,
      ...standing(balance?.readabilityG ?? own?.readabilityG),
      ...numbered(grams),
    },
    {
      word: "repeats to",
      asks: say`standard deviation of weighing the same mass again, in g; Enter if not known`,
      ...standing(balance?.repeatabilityG),
      ...OPEN,
      ...numbered(grams),
    },
    ...certifiedQuestions(balance?.calibration),
    ...ending(app, place),
  ];
}

export function balanceBuilt(place: CareFormPlace, answerOf: AnswerOf): object {
  const { calibration, ...rest } = { calibration: undefined, ...changed(place, "sievewright.balance/1") };
  return filled({
    schema: "sievewright.balance/1",
    id: answerOf("id"),
    ...rest,
    serial: answerOf("serial"),
    balanceClass: classOf(answerOf("class")),
    capacityG: numberOf(answerOf("capacity")),
    readabilityG: numberOf(answerOf(phrase("reads to"))),
    repeatabilityG: numberOf(answerOf(phrase("repeats to"))),
    calibration: certificateAnswered(answerOf, calibration),
  });
}

/** What a check weight is asked for. */
export function weightQuestions(app: App, place: CareFormPlace): readonly CareQuestion[] {
  const weight = changed(place, "sievewright.checkWeight/1");
  const decimal = speaking().decimal;
  const { massG, expandedG } = weight?.certificate ?? {};
  return [
    ...named(place, { word: "name", asks: say`what it is called, like W500`, read: name }),
    { word: "nominal", asks: say`its nominal mass in g`, ...standing(weight?.nominalG), ...numbered(mass(decimal)) },
    {
      word: "class",
      asks: say`its class`,
      options: [...WEIGHT_CLASSES, NO_CLASS],
      usual: weight?.weightClass ?? NO_CLASS,
    },
    ...certifiedQuestions(weight?.certificate),
    {
      word: "found",
      asks: say`the mass that its certificate found, in g; Enter without`,
      ...standing(massG),
      ...OPEN,
      ...numbered(mass(decimal)),
    },
    {
      word: "U",
      asks: say`expanded uncertainty (k = 2) of that mass, in g; Enter without`,
      ...standing(expandedG),
      ...OPEN,
      ...numbered(above0(decimal)),
    },
    ...ending(app, place),
  ];
}

export function weightBuilt(place: CareFormPlace, answerOf: AnswerOf): object {
  const { certificate, ...rest } = { certificate: undefined, ...changed(place, "sievewright.checkWeight/1") };
  const more = { massG: numberOf(answerOf("found")), expandedG: numberOf(answerOf("U")) };
  return filled({
    schema: "sievewright.checkWeight/1",
    weight: answerOf("name"),
    ...rest,
    nominalG: numberOf(answerOf("nominal")),
    weightClass: classOf(answerOf("class")),
    certificate: certificateAnswered(answerOf, certificate, more),
  });
}
