import { editRows, wishKey, withWish } from "../../envelope/revisions/edits.ts";
import { newAperture, type ValueChoice, valueChoices } from "../../envelope/revisions/newLimit.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { type App, type Step, stay, step } from "../place.ts";
import type { Adding } from "../products/places.ts";
import type { Binding } from "../room.ts";
import { draftingHere, edited, placed, placeOf } from "./editing.ts";
import { typedInEnglish } from "./shares.ts";

export const beginAdding = (app: App, what: Adding["what"]): Step =>
  placed(app, { typed: "", adding: { what, text: "", at: 0 } });

/** Values are found by what the screens call them, and by their English names. */
function choicesFor(text: string): readonly ValueChoice[] {
  const found = valueChoices(text);
  const words = text.toLowerCase().split(/\s+/);
  const called = valueChoices("").filter(({ label }) => {
    const shown = spoken(label).toLowerCase();
    return words.every((word) => shown.includes(word)) && !found.some((one) => one.label === label);
  });
  return [...found, ...called];
}

/** The values that may be asked for, as far as the filter finds them. */
export const choicesHere = (app: App): readonly ValueChoice[] => {
  const { adding } = placeOf(app);
  return adding?.what === "value" ? choicesFor(adding.text) : [];
};

export function typeAdding(app: App, change: (text: string) => string): Step {
  const { adding } = placeOf(app);
  return adding === null
    ? stay(app)
    : placed(app, { adding: { ...adding, text: change(adding.text).slice(0, 40), at: 0 } });
}

function moveChoice(app: App, by: number): Step {
  const { adding } = placeOf(app);
  if (adding === null) return stay(app);
  const last = Math.max(0, choicesHere(app).length - 1);
  return placed(app, { adding: { ...adding, at: Math.max(0, Math.min(last, adding.at + by)) } });
}

/** A row for the aperture typed, the mark on it; it becomes a limit with its first bound. */
function apertureTaken(app: App, text: string): Step {
  const { more } = placeOf(app);
  const drafting = draftingHere(app);
  const on = newAperture(typedInEnglish(text));
  if (!on.ok || drafting === null) return stay(app, on.ok ? say`the draft is gone: Esc` : spoken(on.reason));
  const next = [...more, on.value];
  const isIt = (row: ReturnType<typeof editRows>[number]): boolean =>
    row.on.kind === "aperture" && row.on.apertureUm === on.value.apertureUm && row.on.share === on.value.share;
  const at = editRows(drafting.draft, next).findIndex(isIt);
  return placed(app, { adding: null, more: next, at: Math.max(0, at), side: "min" });
}

function valueTaken(app: App, choice: ValueChoice | undefined): Step {
  const drafting = draftingHere(app);
  if (choice === undefined || drafting === null) return stay(app, say`no value of that name`);
  const draft = withWish(drafting.draft, choice.wish);
  if (!draft.ok) return stay(app, spoken(draft.reason));
  const rows = editRows(draft.value, placeOf(app).more);
  const at = rows.findIndex(({ on }) => on.kind === "value" && wishKey(on.wish) === wishKey(choice.wish));
  return edited(app, draft.value, { adding: null, at, side: "min" });
}

export function takeAdding(app: App): Step {
  const { adding } = placeOf(app);
  if (adding === null) return stay(app);
  return adding.what === "aperture" ? apertureTaken(app, adding.text) : valueTaken(app, choicesHere(app)[adding.at]);
}

export const ADDING_KEYS: readonly Binding[] = [
  {
    keys: ["enter"],
    word: "take",
    help: "Take the aperture typed, or the value that the mark points at.",
    does: takeAdding,
  },
  { keys: ["up"], word: "choose", help: "The value above.", does: (app) => moveChoice(app, -1) },
  { keys: ["down"], word: "choose", help: "The value below.", does: (app) => moveChoice(app, 1), quiet: true },
  {
    keys: ["escape"],
    word: "leave it",
    help: "Back to the rows; nothing is added.",
    does: (app) => step({ ...app, message: null, place: { ...placeOf(app), adding: null } }),
  },
];
