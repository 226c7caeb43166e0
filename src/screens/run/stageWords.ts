import type { Stage } from "../../record/draft.ts";
import { phrase } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";

const WORDS: Readonly<Record<Stage, string>> = {
  "set out": phrase("set out"),
  "weigh empty": phrase("weigh empty"),
  shake: phrase("shake"),
  "weigh full": phrase("weigh full"),
  result: phrase("result"),
};

/** What is being done in a test, in the language of the screens. */
export const stageWord = (stage: Stage): string => spoken(WORDS[stage]);
