import { apertureText } from "../../report/figures.ts";
import { say } from "../../words/say.ts";
import { type App, leave, type Step, stay } from "../place.ts";
import type { Room } from "../room.ts";
import { conditionSpan } from "./conditionSpan.ts";
import { sieveNamed, toSieve } from "./reach.ts";
import { shownOf } from "./shown.ts";
import { sieveKeys } from "./sieveKeys.ts";
import { sieveBody, sievePlace } from "./sievePages.ts";

function title(app: App) {
  const place = sievePlace(app);
  const shown = shownOf(place);
  const name = shown === null ? place.serial : `${place.serial} · ${apertureText(shown.sieve.apertureUm)}`;
  return { left: name, right: shown === null ? [] : [conditionSpan(shown.condition)] };
}

/** A scanned sieve is opened in place of the one in hand. */
function scanned(app: App, text: string): Step {
  const sieve = sieveNamed(app, text);
  return sieve
    ? toSieve(leave(app), sieve.serial)
    : stay(app, say`"${text.trim()}" is not the serial of a registered sieve`);
}

/** One sieve: how it stands, what was done to it, what it weighs empty, what its tests say of it. */
export const sieveRoom: Room = {
  title,
  body: sieveBody,
  keys: sieveKeys,
  field: () => "none",
  typed: (app) => stay(app),
  erased: (app) => stay(app),
  scanned: (app, text) => scanned(app, text),
  about: [
    "One sieve; another one is opened by scanning it. Its state and what to do; its life, newest first; its empty masses over time with its own cleaned level and the masses from which on a change is told;",
    "and what routine tests say of its aperture: the size that it sieves like if its neighbours are right, with the range that holds for all sieves of the stack together.",
    "That advises a check and never changes a result by itself. What is noted here goes to the log; nothing is ever taken away.",
    "A torn sieve has sharp wires: hold it by the frame. Clean with dust extraction; what the bath needs stands on its label.",
  ],
};
