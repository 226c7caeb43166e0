import { openForm } from "./event/eventRoom.ts";
import { nextLanguage, nextTheme } from "./looks.ts";
import { type App, enter, type Step, stay, step } from "./place.ts";
import { notInPractice } from "./practice/practice.ts";
import type { Binding } from "./room.ts";
import { tourTurned } from "./tour/tour.ts";

/** As many rows as a page surely has, less one or two that both pages show. */
const pageRows = ({ window }: App): number => Math.max(4, (window?.rows ?? 24) - 9);

/** Further down or up in a body that is longer than the window; how far it reaches is settled after the key. */
const scrolledBy = (app: App, rows: number): Step =>
  step({ ...app, message: null, scrolled: (app.scrolled ?? 0) + rows });

/** Keys that do the same in every place. */
export const GENERAL_KEYS: readonly Binding[] = [
  {
    keys: ["?", "f1"],
    word: "help",
    help: "What this place is for and what its keys do (F1 in a text field).",
    does: (app) => (app.place.name === "help" ? stay(app) : step(enter(app, { name: "help", of: app.place }))),
  },
  {
    keys: ["ctrl+n", "n"],
    word: "note",
    help: "Add a note for the next shift (Ctrl+N where letters type or n means something else).",
    does: (app) => (app.place.name === "event" ? stay(app) : openForm(app, "note")),
    refusal: notInPractice,
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
    keys: ["ctrl+y", "f10"],
    word: "language",
    help: "The next language: English, Deutsch, español; remembered at this station. Records, files and commands stay English.",
    does: nextLanguage,
    quiet: true,
  },
  {
    keys: ["ctrl+p", "f12"],
    word: "tour",
    help: "Begin the tour, which tells what to press next and weighs in a practice test; while it runs, end it for good.",
    does: tourTurned,
    quiet: true,
  },
  {
    keys: ["page up", "ctrl+b"],
    word: "page",
    help: "Up by a page, where a place shows more than the window has room for.",
    does: (app) => scrolledBy(app, 0 - pageRows(app)),
    quiet: true,
  },
  {
    keys: ["page down", "ctrl+f"],
    word: "page",
    help: "Down by a page.",
    does: (app) => scrolledBy(app, pageRows(app)),
    quiet: true,
  },
  {
    keys: ["up"],
    word: "scroll",
    help: "Up by a row, where no mark moves.",
    does: (app) => scrolledBy(app, -1),
    quiet: true,
  },
  { keys: ["down"], word: "scroll", help: "Down by a row.", does: (app) => scrolledBy(app, 1), quiet: true },
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
