import type { Draft } from "../../record/draft.ts";
import { isPractice } from "../../record/practice.ts";
import { phrase } from "../../words/say.ts";
import type { App } from "../place.ts";

/** One thing to do on the tour, and how it is seen that it was done. */
export interface TourStep {
  /** What to press, in few enough words for two rows of the narrowest window. */
  readonly words: string;
  /** Whether the screens show that it was done; with how much the practice test held when the step began. */
  readonly done: (app: App, entries: number) => boolean;
  /** Goes on with the practice test of the first step. */
  readonly practising?: true;
  /** Where its keys do that; anywhere, if left out. */
  readonly at?: "bench" | "practice" | "record";
  /** Needs a recorded test. */
  readonly onRecord?: true;
}

const stageOf = ({ practice }: App): Draft["stage"] | null => practice?.stage ?? null;
const hasEmpty = ({ practice }: App): boolean => practice?.weighings.some(({ emptyG }) => emptyG !== null) ?? false;
export const entriesOf = ({ practice }: Pick<App, "practice">): number => practice?.trail.length ?? 0;

/** The tour: what an operator does most, in the order of the work. It weighs in a practice test, so nothing it does is recorded. */
export const TOUR: readonly TourStep[] = [
  {
    words: phrase("x sets out a practice test, never recorded"),
    done: ({ place, practice }) => place.name === "run" && Boolean(practice),
    at: "bench",
  },
  {
    words: phrase("Enter takes what stands there; charge: 300, Enter"),
    done: (app) => stageOf(app) !== "set out",
    practising: true,
    at: "practice",
  },
  {
    words: phrase("type the sieve's mass, then Enter; or i invents it"),
    done: hasEmpty,
    practising: true,
    at: "practice",
  },
  {
    words: phrase("u takes the last entry back; a note of it is kept"),
    done: (app, entries) => entriesOf(app) > entries && Boolean(app.practice?.trail.at(-1)?.undo),
    practising: true,
    at: "practice",
  },
  {
    words: phrase("? tells of a place: its use, keys, terms, sources"),
    done: ({ place }) => place.name === "help",
  },
  {
    words: phrase("Esc, step by step, to the bench; nothing is lost"),
    done: ({ place }) => place.name === "bench",
  },
  {
    words: phrase("Down to a recorded test, then Enter opens it"),
    done: ({ place }) => place.name === "record",
    onRecord: true,
    at: "bench",
  },
  {
    words: phrase("v turns its pages: checks, how sure, all entries"),
    done: ({ place }) => place.name === "record" && place.view > 0,
    onRecord: true,
    at: "record",
  },
  {
    words: phrase("Esc, then t: how the product has been running"),
    done: ({ place }) => place.name === "trend",
    onRecord: true,
  },
];

const TO_BENCH = phrase("Esc, step by step, to the bench; nothing is lost");

/** How one comes to where the keys of a step act: from the bench, and from further off. */
const WAY: Record<NonNullable<TourStep["at"]>, Record<"bench" | "elsewhere", string>> = {
  bench: { bench: "", elsewhere: TO_BENCH },
  practice: {
    bench: phrase("x goes on practising"),
    elsewhere: phrase("Esc to the bench; x goes on practising"),
  },
  record: { bench: phrase("Down to a recorded test, then Enter opens it"), elsewhere: TO_BENCH },
};

function isThere({ place }: App, at: TourStep["at"]): boolean {
  if (at === undefined || at === place.name) return true;
  return at === "practice" && place.name === "run" && isPractice(place.run.draft);
}

/** What to press for a step, where one is: its own words, or the way to where its keys act. */
export function wordsHere(app: App, { words, at }: TourStep): string {
  if (at === undefined || isThere(app, at)) return words;
  return WAY[at][app.place.name === "bench" ? "bench" : "elsewhere"];
}
