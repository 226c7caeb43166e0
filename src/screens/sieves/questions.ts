import type { Outcome } from "../../entry/outcome.ts";
import { figure } from "../../words/figures.ts";
import { phrase, say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { optionOf } from "../event/forms.ts";
import type { App } from "../place.ts";
import { initialsOf, initialsRefusal } from "../sign/initials.ts";

/** One question of a form about sieves: words, one of some options, or what can be read as something. */
export interface CareQuestion {
  /** In English: its answer is found by it; said where it is shown. */
  readonly word: string;
  readonly asks: string;
  readonly options?: readonly string[];
  /** What Enter takes when nothing is typed. */
  readonly usual?: string;
  readonly mayBeEmpty?: true;
  /** Answered by a number: shown with the decimal sign of the screens. */
  readonly isNumber?: true;
  /** How the answer is kept, or why it is none. */
  readonly read?: (text: string) => Outcome<string>;
  /** What is odd about an answer that can be right all the same; a second Enter takes it. */
  readonly doubt?: (answer: string) => string | null;
}

export const SIGNED = phrase("signed by");
/** What takes away an answer that stands there. */
export const NOTHING = "-";

export type Taken = { readonly answer: string } | { readonly refusal: string };

function signature(app: App, text: string): Taken {
  const by = initialsOf(app, text);
  const refusal = initialsRefusal(app, by);
  return refusal === null ? { answer: by } : { refusal };
}

/** An option by its number, or by how it begins: as it is shown, or in English. */
function optionTyped(options: readonly string[], text: string): string | null {
  const shown = options.map(spoken);
  const chosen = optionOf(shown, text);
  return chosen === null ? optionOf(options, text) : (options[shown.indexOf(chosen)] ?? null);
}

/** An answer as it is shown; what a person wrote stays as it is. */
export function answerShown({ options, isNumber }: CareQuestion, answer: string): string {
  if (options !== undefined) return spoken(answer);
  return isNumber ? figure(answer) : answer;
}

function read({ options, read: reads }: CareQuestion, text: string): Taken {
  if (options !== undefined) {
    const option = optionTyped(options, text);
    return option === null ? { refusal: say`choose by number, or by the first letters` } : { answer: option };
  }
  if (reads === undefined) return { answer: text };
  const found = reads(text);
  return found.ok ? { answer: found.value } : { refusal: found.reason };
}

/** What an answer stands for, or why it is none, or not yet. */
export function taken(app: App, question: CareQuestion, typed: string): Taken {
  const text = typed.trim();
  const { usual, mayBeEmpty, word } = question;
  if (word === SIGNED) return signature(app, text);
  if (text === "" && usual !== undefined) return { answer: usual };
  if (mayBeEmpty && (text === "" || text === NOTHING)) return { answer: "" };
  if (text === "") return { refusal: say`type: ${spoken(word)}` };
  const took = read(question, text);
  const doubt = "answer" in took ? (question.doubt?.(took.answer) ?? null) : null;
  return doubt === null || app.message === doubt ? took : { refusal: doubt };
}

/** The signature comes last and is nobody's choice while somebody is signed on. */
export const signatureOf = (app: App): readonly CareQuestion[] =>
  app.session === null ? [{ word: SIGNED, asks: say`your initials`, usual: app.operator }] : [];

/** The answer to the question of this word; empty where it was not asked. */
export type AnswerOf = (word: string) => string;

export const answersOf =
  (questions: readonly CareQuestion[], answers: readonly string[]): AnswerOf =>
  (word) =>
    answers[questions.findIndex((question) => question.word === word)] ?? "";
