import { say } from "../../words/say.ts";
import { line } from "../line.ts";
import { type App, leave, type Step, stay, step } from "../place.ts";
import { type Binding, here, type Room } from "../room.ts";
import { deckBody } from "./deckView.ts";
import { judgedDeck } from "./judged.ts";

function moveCut(app: App, by: number): Step {
  const place = here(app, "deck");
  const deck = judgedDeck(place);
  const last = deck.ok ? deck.value.sievesUm.length : 0;
  return step({ ...app, message: null, place: { ...place, cutAt: Math.max(0, Math.min(last, place.cutAt + by)) } });
}

function turn(app: App): Step {
  const place = here(app, "deck");
  return step({ ...app, message: null, place: { ...place, view: place.view === "curve" ? "classes" : "curve" } });
}

const unjudged = (app: App): string | null => {
  const deck = judgedDeck(here(app, "deck"));
  return deck.ok ? null : say`there is nothing to look into: see above`;
};

export const DECK_KEYS: readonly Binding[] = [
  {
    keys: ["up", "-"],
    word: "cut",
    help: "Recoveries at the next coarser sieve; above the coarsest: at the one nearest the cut size.",
    does: (app) => moveCut(app, -1),
    refusal: unjudged,
  },
  {
    keys: ["down", "+"],
    word: "cut",
    help: "Recoveries at the next finer sieve.",
    does: (app) => moveCut(app, 1),
    refusal: unjudged,
    quiet: true,
  },
  { keys: ["v"], word: "view", help: "The curve, or the classes as a table.", does: turn, refusal: unjudged },
  {
    keys: ["escape", "enter"],
    word: "back",
    help: "Back to the log; the marks stay.",
    does: (app) => step(leave(app)),
  },
];

/** How well a screen deck separates, from three recorded tests. */
export const deckRoom: Room = {
  title: () => ({ left: say`screen deck`, right: line(say`from three recorded tests`, "dim") }),
  body: deckBody,
  keys: () => DECK_KEYS,
  field: () => "none",
  typed: (app) => stay(app),
  erased: (app) => stay(app),
  scanned: (app) => stay(app),
  about: [
    "How well a screen deck separates: what share goes over, and the three that plants call efficiency, each by its own",
    "name. Oversize recovery: of what should go over, the part that did. Undersize recovery: of what should go through, the",
    "part that did. Overall effectiveness: the two multiplied. The curve: % of each size that goes over.",
  ],
};
