import { say } from "../../words/say.ts";
import { line } from "../line.ts";
import { clearOrLeave, filtered, filterField, moved } from "../list.ts";
import { type App, leave, type Step, stay, step } from "../place.ts";
import { type Binding, here, type Room } from "../room.ts";
import { changeRefusal, registerRefusal } from "./may.ts";
import type { SievesPlace, WithCare } from "./places.ts";
import { toForm, toSieve } from "./reach.ts";
import { toReference } from "./referenceRoom.ts";
import { formOf } from "./registerForms.ts";
import { otherItems, sieveRows } from "./rows.ts";
import { sievesBody } from "./sievesView.ts";

const placeOf = (app: App): WithCare<SievesPlace> => ({ ...here(app, "sieves"), known: app.care ?? null });
const put = (app: App, change: Partial<SievesPlace>): Step =>
  step({ ...app, message: null, place: { ...here(app, "sieves"), ...change } });

const lengthOf = (place: WithCare<SievesPlace>): number =>
  place.list === "sieves" ? sieveRows(place).length : otherItems(place).length;

const move = (app: App, by: number): Step => put(app, moved(here(app, "sieves"), by, lengthOf(placeOf(app))));

/** On to the sieve's page; what else is registered is opened to be changed. */
function open(app: App): Step {
  const place = placeOf(app);
  if (place.known === null) return stay(app, say`still reading: one moment`);
  if (place.list === "sieves") {
    const row = sieveRows(place)[place.at];
    return row ? toSieve(app, row.sieve.serial) : stay(app, say`nothing matches`);
  }
  const item = otherItems(place)[place.at];
  if (item === undefined) return stay(app, say`nothing matches`);
  const refusal = changeRefusal(app, item);
  if (refusal !== null) return stay(app, refusal);
  return toForm(app, { form: formOf(item), serial: "", before: item, known: place.known });
}

function register(app: App): Step {
  const { known } = placeOf(app);
  return known === null
    ? stay(app, say`still reading: one moment`)
    : toForm(app, { form: "what", serial: "", before: null, known });
}

function reference(app: App): Step {
  const { known } = placeOf(app);
  return known === null ? stay(app, say`still reading: one moment`) : toReference(app, known);
}

const refilter = (app: App, change: (filter: string) => string): Step => {
  const place = here(app, "sieves");
  return step({ ...app, message: null, place: filtered(place, change(place.filter)) });
};

const PAGE = 12;

export const SIEVES_KEYS: readonly Binding[] = [
  {
    keys: ["enter"],
    word: "open",
    help: "The page of the sieve that the mark points at; of anything else the form that changes it.",
    does: open,
  },
  { keys: ["up"], word: "row", help: "The mark one row up.", does: (app) => move(app, -1) },
  { keys: ["down"], word: "row", help: "The mark one row down.", does: (app) => move(app, 1), quiet: true },
  {
    keys: ["f2", "ctrl+w"],
    word: "weights",
    help: "Between the sieves and all else: balances, check weights, sets, reference materials.",
    does: (app) => put(app, { list: placeOf(app).list === "sieves" ? "others" : "sieves", at: 0, filter: "" }),
  },
  {
    keys: ["f3", "ctrl+r"],
    word: "register",
    help: "Register a sieve, a set, a balance, a check weight, or what a file holds.",
    does: register,
    refusal: registerRefusal,
  },
  {
    keys: ["f4", "ctrl+t"],
    word: "reference",
    help: "Check the sieves by a certified reference material that was run like a test.",
    does: reference,
  },
  {
    keys: ["escape"],
    word: "back",
    help: "Clears the filter; without one, back to the bench.",
    does: (app) => clearOrLeave(app, here(app, "sieves"), leave(app)),
  },
  { keys: ["page up", "ctrl+b"], word: "page", help: "A page up.", does: (app) => move(app, -PAGE), quiet: true },
  { keys: ["page down", "ctrl+f"], word: "page", help: "A page down.", does: (app) => move(app, PAGE), quiet: true },
];

/** Everything that the station sieves and weighs with. */
export const sievesRoom: Room = {
  title: (app) => ({
    left: placeOf(app).list === "sieves" ? say`sieves` : say`balances, weights, sets, reference materials`,
    right: line(say`type to find`, "dim"),
  }),
  body: (app, size) => sievesBody(placeOf(app), size),
  keys: () => SIEVES_KEYS,
  ...filterField(refilter, open),
  about: [
    "What the station sieves and weighs with, set by set: how each sieve stands, what it was used for since its latest inspection, the day it is due, and how far its empty mass lies off its own cleaned level now (! where it is told).",
    "Type or scan any part of a serial, aperture, set or state. Whether an overdue sieve makes a test invalid is the product's choice; nothing here changes a result by itself.",
  ],
};
