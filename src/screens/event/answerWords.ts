import type { LineEventName } from "../../record/shiftEvents.ts";
import { phrase, say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";

/** One question of a form: words to type, or one of some options. */
export interface Question {
  readonly word: string;
  readonly asks: string;
  readonly options?: readonly string[];
  /** Whether the options are words of the program, which a screen says in its own language; else they are names. */
  readonly ours?: true;
  /** What Enter takes when nothing is typed. */
  readonly usual?: string;
  readonly mayBeEmpty?: true;
}

/** Who decides on a lot that is kept back, if nobody else is named. */
export const USUAL_OWNER = "quality";

/** Whoever decides on a lot: a name stands as it was typed. */
export const ownerText = (owner: string): string => (owner === USUAL_OWNER ? say`quality` : owner);

const EVENT_WORDS: Readonly<Record<LineEventName, string>> = {
  deck: phrase("deck"),
  "feed rate": phrase("feed rate"),
  "dryer temperature": phrase("dryer temperature"),
  speed: phrase("speed"),
  other: phrase("other"),
  changeover: phrase("changeover"),
  "new lot": phrase("new lot"),
  stopped: phrase("stopped"),
  started: phrase("started"),
};

/** An answer or an option as the screen says it. */
export function answerText({ ours, word }: Question, answer: string): string {
  if (answer === "") return "–";
  if (word === "decides") return ownerText(answer);
  if (!ours) return answer;
  const words: Readonly<Record<string, string>> = EVENT_WORDS;
  return spoken(words[answer] ?? answer);
}
