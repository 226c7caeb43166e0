import type { RegisterItem } from "../../record/register.ts";
import { say } from "../../words/say.ts";
import type { App } from "../place.ts";
import type { CareFormPlace } from "./places.ts";
import { type AnswerOf, type CareQuestion, signatureOf } from "./questions.ts";
import { dayTyped, filled, reason, words } from "./reads.ts";

/** The item that a form changes, if it is of this kind. */
export function changed<S extends RegisterItem["schema"]>({ before }: CareFormPlace, schema: S) {
  return before?.schema === schema ? (before as Extract<RegisterItem, { schema: S }>) : null;
}

/** The name is asked only of what is new. */
export const named = (place: CareFormPlace, question: CareQuestion): readonly CareQuestion[] =>
  place.before === null ? [question] : [];

/** What stands there already, for Enter to take; nothing where nothing does. */
export const standing = (value: string | number | undefined): { readonly usual?: string } =>
  value === undefined || value === "" ? {} : { usual: `${value}` };

export const OPEN = { mayBeEmpty: true } as const;

/** Answered by a number. */
export const numbered = (read: NonNullable<CareQuestion["read"]>) => ({ isNumber: true, read }) as const;

/** Why what was there is changed, and who signs. */
export const ending = (app: App, place: CareFormPlace): readonly CareQuestion[] => [
  ...(place.before === null ? [] : [{ word: "why", asks: say`why the register is changed`, read: reason }]),
  ...signatureOf(app),
];

interface Certified {
  readonly number?: string | undefined;
  readonly day: string;
  readonly laboratory: string;
  readonly due?: string | undefined;
}

/** What is asked of the certificate of a balance or a weight. */
export const certifiedQuestions = (certificate: Certified | undefined): readonly CareQuestion[] => [
  {
    word: "certified",
    asks: say`day of its certificate, like 2026-11-24; Enter without one`,
    ...standing(certificate?.day),
    ...OPEN,
    read: dayTyped,
  },
  { word: "laboratory", asks: say`who certified it`, ...standing(certificate?.laboratory), ...OPEN, read: words(80) },
  { word: "due", asks: say`until which day it is relied on`, ...standing(certificate?.due), ...OPEN, read: dayTyped },
];

/** The certificate of the answers; the same one keeps its number, which is not asked for. */
export function certificateAnswered(answerOf: AnswerOf, former: Certified | undefined, more: object = {}) {
  const day = answerOf("certified");
  if (day === "") return undefined;
  const number = former?.day === day ? former.number : undefined;
  return filled({ number, day, laboratory: answerOf("laboratory"), due: answerOf("due"), ...more });
}
