import { say } from "../../words/say.ts";
import { line, span } from "../line.ts";
import type { App, Step } from "../place.ts";
import { leave, step } from "../place.ts";
import { diffOfDraft } from "../products/diffRoom.ts";
import { publishing } from "../products/publishRoom.ts";
import type { Binding, Room } from "../room.ts";
import { ADDING_KEYS, beginAdding, takeAdding, typeAdding } from "./adding.ts";
import {
  acceptBound,
  clearBound,
  draftingHere,
  moveRow,
  otherSide,
  placed,
  placeOf,
  removeRow,
  turnRule,
  undo,
} from "./editing.ts";
import { envelopeBody } from "./envelopeView.ts";

/** A half-typed number goes first, then the place; every accepted bound is on disk. */
const back = (app: App): Step => (placeOf(app).typed === "" ? step(leave(app)) : placed(app, { typed: "" }));

export const ENVELOPE_KEYS: readonly Binding[] = [
  {
    keys: ["enter"],
    word: "accept",
    help: "Take the bound typed, or leave what stands there, and go on.",
    does: acceptBound,
  },
  { keys: ["up", "-"], word: "row", help: "To the row above.", does: (app) => moveRow(app, -1) },
  { keys: ["down", "+"], word: "row", help: "To the row below.", does: (app) => moveRow(app, 1), quiet: true },
  {
    keys: ["tab", "left", "right"],
    word: "side",
    help: "To the other side: at least, at most.",
    does: otherSide,
  },
  {
    keys: ["a"],
    word: "add",
    help: "Add a limit on an aperture: passing, retained or coarser.",
    does: (app) => beginAdding(app, "aperture"),
  },
  {
    keys: ["w"],
    word: "value",
    help: "Ask for one more characteristic value.",
    does: (app) => beginAdding(app, "value"),
  },
  {
    keys: ["d"],
    word: "drop row",
    help: "Drop this row: both its bounds, or the value altogether.",
    does: removeRow,
    quiet: true,
  },
  { keys: ["r"], word: "rule", help: "Decide simply, or guarded by the uncertainty.", does: turnRule, quiet: true },
  { keys: ["u"], word: "undo", help: "Take the last edit back, and the one before.", does: undo },
  {
    keys: ["p"],
    word: "publish",
    help: "Make a revision of the draft.",
    does: (app) => publishing(app, placeOf(app).code),
  },
  {
    keys: ["c"],
    word: "changes",
    help: "What the draft changes, in words.",
    does: (app) => diffOfDraft(app, placeOf(app).code),
  },
  { keys: ["x"], word: "clear", help: "Take the bound on this side away.", does: clearBound },
  { keys: ["escape"], word: "back", help: "Back; the draft stays as it is.", does: back },
];

const retyped = (app: App, change: (typed: string) => string): Step =>
  placeOf(app).adding === null
    ? placed(app, { typed: change(placeOf(app).typed).slice(0, 20) })
    : typeAdding(app, change);

function title(app: App) {
  const draft = draftingHere(app)?.draft;
  if (draft === undefined) return { left: say`envelope of ${placeOf(app).code}`, right: [] };
  const decision = draft.decision?.rule === "guarded" ? say`decision guarded` : say`decision simple`;
  return {
    left: say`${draft.code} draft of revision ${draft.revision} · ${draft.name}`,
    right: [...line(decision, "strong"), span(` · ${placeOf(app).by}`, "dim")],
  };
}

/** The envelope of a draft, edited row by row with its curve alongside. */
export const envelopeRoom: Room = {
  title,
  body: envelopeBody,
  keys: (app) => (placeOf(app).adding === null ? ENVELOPE_KEYS : ADDING_KEYS),
  field: (app) => (placeOf(app).adding === null ? "number" : "text"),
  typed: (app, text) => retyped(app, (old) => old + text),
  erased: (app) => retyped(app, (old) => old.slice(0, -1)),
  scanned: (app, text, ended) => {
    const typing = retyped(app, (old) => old + text);
    if (!ended) return typing;
    return placeOf(app).adding === null ? acceptBound(typing.app) : takeAdding(typing.app);
  },
  about: [
    "The envelope of a draft: for each sieve what may pass, other limits among them, and the values asked for.",
    "Digits type the bound in hand; the envelope alongside is drawn with it. Each accepted bound is on disk at once.",
    "No test is judged by a draft: it takes effect when it is published, from its day on. Limits are inclusive: a figure on one is within.",
    "The latest test of the product is drawn in, with a sign for how it would stand: judged simply, without uncertainty.",
  ],
};
