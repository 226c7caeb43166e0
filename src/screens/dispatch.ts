import type { Key } from "../terminal/keys.ts";
import { fits } from "../terminal/size.ts";
import { ENGLISH } from "../words/manner.ts";
import { say } from "../words/say.ts";
import { inManner } from "../words/speaking.ts";
import { withinBody } from "./frame.ts";
import { GENERAL_KEYS } from "./general.ts";
import type { App, Size, Step } from "./place.ts";
import { stay } from "./place.ts";
import { unrecorded } from "./practice/practice.ts";
import type { Binding, Field } from "./room.ts";
import { roomOf } from "./rooms.ts";
import { sent } from "./sent/sent.ts";
import { toured } from "./tour/tour.ts";

/** What a number field takes besides digits: decimal marks, a sign behind something, and the letters of g and kg. */
const NUMBER = /^[0-9.,gGkK ]$/;

const typesIn = (field: Field, text: string): boolean =>
  field === "text" ? true : field === "number" && NUMBER.test(text);

/** Whether a character would do something just now instead of being typed. */
export const actsNow = (app: App, text: string): boolean => !typesIn(roomOf(app.place).field(app), text);

const find = (keys: readonly Binding[], key: string): Binding | undefined => keys.find((b) => b.keys.includes(key));

function perform(app: App, binding: Binding, at: string): Step {
  const refusal = binding.refusal?.(app);
  return refusal ? stay(app, refusal) : binding.does(app, at);
}

/** Every other letter is an action; one that means nothing here says so instead of doing nothing in silence. */
function unknown(app: App, key: string): Step {
  return key.length === 1 ? stay(app, say`${key} does nothing here; ? shows the keys`) : stay(app, app.message);
}

function actedOn(app: App, key: string, at: string): Step {
  const binding = find(roomOf(app.place).keys(app), key) ?? find(GENERAL_KEYS, key);
  if (binding) return perform(app, binding, at);
  return key === "backspace" ? roomOf(app.place).erased(app) : unknown(app, key);
}

const ACTS_UNSEEN: readonly Key["name"][] = ["ctrl+c", "ctrl+l"];

/** In a window too small to be read nothing is taken unseen: one can only leave, or draw anew. */
export const actsAt = (key: Key, size: Size): boolean => fits(size) || ACTS_UNSEEN.includes(key.name);

/** A lot that comes back in view is read again: what was said of its tests meanwhile has changed it. */
function lotReadAgain(before: App, { app, effects }: Step): Step {
  const { place } = app;
  if (place.name !== "lot" || before.place.name === "lot") return { app, effects };
  const { product, lot, line } = place;
  return { app, effects: [...effects, { do: "readLot", product, lot, line, again: true }] };
}

const USUAL: Size = { columns: 80, rows: 24 };
const windowOf = ({ window }: App): Size => window ?? USUAL;

/** A body begins at its top again once a key has changed anything in it; it is never scrolled beyond its end. */
const settled = (before: App, { app, effects }: Step): Step =>
  app.scrolled === undefined
    ? { app, effects }
    : {
        app: app.place === before.place ? withinBody(app, windowOf(app)) : { ...app, scrolled: 0 },
        effects,
      };

/** One key, one scan or one paste, in the place where the operator is. */
export const pressed = (app: App, key: Key, at: string): Step =>
  inManner(app.manner ?? ENGLISH, () => {
    const before = withinBody(app, windowOf(app));
    const { app: next, effects } = unrecorded(before, settled(before, lotReadAgain(before, taken(before, key, at))));
    return { app: toured(next), effects };
  });

function taken(app: App, key: Key, at: string): Step {
  const room = roomOf(app.place);
  if (key.name === "entry") return sent(app, key.text, key.ended, at);
  if (key.name !== "char") return actedOn(app, key.name, at);
  if (typesIn(room.field(app), key.text)) return room.typed(app, key.text);
  return actedOn(app, key.text, at);
}
