import { openForm } from "./event/eventRoom.ts";
import { nextTheme } from "./looks.ts";
import { enter, stay, step } from "./place.ts";
import type { Binding } from "./room.ts";

/** Keys that do the same in every place. */
export const GENERAL_KEYS: readonly Binding[] = [
  {
    keys: ["?", "f1"],
    word: "help",
    help: "What this place is for and what its keys do (F1 in a text field).",
    does: (app) => (app.place.name === "help" ? stay(app) : step(enter(app, { name: "help", of: app.place, from: 0 }))),
  },
  {
    keys: ["ctrl+n", "n"],
    word: "note",
    help: "Add a note for the next shift (Ctrl+N where letters type or n means something else).",
    does: (app) => (app.place.name === "event" ? stay(app) : openForm(app, "note")),
    quiet: true,
  },
  {
    keys: ["ctrl+k", "f8"],
    word: "theme",
    help: "The next theme: dark, light, high contrast, monochrome; remembered at this station.",
    does: nextTheme,
    quiet: true,
  },
  {
    keys: ["ctrl+c"],
    word: "leave",
    help: "Leave the program safely; tests in work stay as they are.",
    does: (app) => step(app, { do: "quit" }),
    quiet: true,
  },
  {
    keys: ["ctrl+l"],
    word: "redraw",
    help: "Draw the screen afresh.",
    // The terminal room draws anew before anybody hears of this key.
    does: (app) => stay(app, app.message),
    quiet: true,
  },
];
