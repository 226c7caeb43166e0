import { accepted, type Outcome, refused } from "../../entry/outcome.ts";
import { firstFault, pathText } from "../../record/faults.ts";
import { type RegisterItem, RegisterItemSchema } from "../../record/register.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import type { App } from "../place.ts";
import { changed, ending, named, standing } from "./formParts.ts";
import type { CareFormPlace, REGISTER_FORMS } from "./places.ts";
import { type AnswerOf, answersOf, type CareQuestion, signatureOf } from "./questions.ts";
import { name, reason, words } from "./reads.ts";
import { sieveBuilt, sieveQuestions } from "./sieveForm.ts";
import { balanceBuilt, balanceQuestions, weightBuilt, weightQuestions } from "./weightForms.ts";

export type RegisterFormName = (typeof REGISTER_FORMS)[number];

const FORMS: Readonly<Record<RegisterItem["schema"], RegisterFormName>> = {
  "sievewright.sieve/1": "sieve",
  "sievewright.stack/1": "set",
  "sievewright.balance/1": "balance",
  "sievewright.checkWeight/1": "check weight",
  "sievewright.referenceMaterial/1": "file",
};

/** The form that changes an item. */
export const formOf = (item: RegisterItem): RegisterFormName => FORMS[item.schema];

const SERIALS_APART = /[\s,;]+/;

function setQuestions(app: App, place: CareFormPlace): readonly CareQuestion[] {
  const set = changed(place, "sievewright.stack/1");
  return [
    ...named(place, { word: "code", asks: say`what it is called and scanned by`, read: name }),
    { word: "name", asks: say`what it is for`, ...standing(set?.name), read: words(80) },
    {
      word: "sieves",
      asks: say`serials of its sieves, apart by blanks; the pan is understood`,
      ...standing(set?.serials.join(" ")),
      read: (typed) => accepted(typed.split(SERIALS_APART).join(" ")),
    },
    ...ending(app, place),
  ];
}

const setBuilt = (place: CareFormPlace, answerOf: AnswerOf): object => ({
  schema: "sievewright.stack/1",
  code: answerOf("code"),
  ...changed(place, "sievewright.stack/1"),
  name: answerOf("name"),
  serials: answerOf("sieves").split(" "),
});

const fileQuestions = (): readonly CareQuestion[] => [
  {
    word: "file",
    asks: say`a JSON file of a sieve, set, balance, weight or reference material; its path, or from the station's folder on`,
  },
  {
    word: "why",
    asks: say`why the register is changed, where it is there already; Enter for something new`,
    mayBeEmpty: true,
    read: reason,
  },
];

/** What a form of the register asks, in order. */
export function registerQuestions(app: App, place: CareFormPlace, form: RegisterFormName): readonly CareQuestion[] {
  switch (form) {
    case "sieve":
      return sieveQuestions(app, place);
    case "set":
      return setQuestions(app, place);
    case "balance":
      return balanceQuestions(app, place);
    case "check weight":
      return weightQuestions(app, place);
    case "file":
      return [...fileQuestions(), ...signatureOf(app)];
  }
}

type BuiltForm = Exclude<RegisterFormName, "file">;

const BUILT: Readonly<Record<BuiltForm, (place: CareFormPlace, answerOf: AnswerOf) => object>> = {
  sieve: sieveBuilt,
  set: setBuilt,
  balance: balanceBuilt,
  "check weight": weightBuilt,
};

/** The item of a filled form, or what of it can't be, in words. */
export function itemAnswered(
  app: App,
  place: CareFormPlace,
  form: BuiltForm,
  answers: readonly string[],
): Outcome<RegisterItem> {
  const item = BUILT[form](place, answersOf(registerQuestions(app, { ...place, answers }, form), answers));
  const read = RegisterItemSchema.safeParse(item);
  if (read.success) return accepted(read.data);
  const { path, reason: why } = firstFault(read.error, item);
  return refused(say`${pathText(path) || say`this`} ${spoken(why)}: Esc goes back to it`);
}
