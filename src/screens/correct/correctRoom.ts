import { DISPOSITIONS } from "../../record/test.ts";
import { standingOf } from "../../record/versions.ts";
import { correctionsText } from "../../report/amendmentWords.ts";
import { differingRows } from "../../report/versionTable.ts";
import { phrase, say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { line } from "../line.ts";
import { type App, type CorrectPlace, leave, type Step, stay, step } from "../place.ts";
import type { Binding, Room } from "../room.ts";
import { draftTitle } from "../run/runRoom.ts";
import {
  correctedTest,
  corrects,
  disposed,
  fieldAccepted,
  inHand,
  placeOf,
  reasonTaken,
  signed,
  takenBack,
  testOf,
  toReason,
} from "./correcting.ts";
import { correctBody, fieldKind } from "./correctView.ts";
import { correctables, isMass, longest } from "./fields.ts";

function move(app: App, by: number): Step {
  const place = placeOf(app);
  if (place.typed) return stay(app, say`${place.typed} is not taken yet: Enter takes it, Esc drops it`);
  const last = correctables(testOf(place)).length - 1;
  return corrects(app, { at: Math.max(0, Math.min(last, place.at + by)), typed: null, doubt: null });
}

function scroll(app: App, by: number): Step {
  const after = correctedTest(app);
  const rows = after.ok ? differingRows([testOf(placeOf(app)), after.value]).length : 0;
  return corrects(app, { from: Math.max(0, Math.min(rows - 1, placeOf(app).from + by)) });
}

const LOSES = phrase("Esc again leaves without this correction; nothing of it is recorded");

/** One step back: what is typed first, then the step before, and a correction begun is not lost unasked. */
function back(app: App): Step {
  const place = placeOf(app);
  if (place.step === "reason") return corrects(app, { step: "choose", reason: place.typed ?? "", typed: null });
  if (place.step === "confirm") return corrects(app, { step: "reason", typed: place.reason });
  if (place.step === "initials") return corrects(app, { step: "confirm", typed: null });
  if (place.typed !== null) return corrects(app, { typed: null, doubt: null });
  return place.changes.length === 0 || app.message === LOSES ? step(leave(app)) : stay(app, LOSES);
}

const BACK: Binding = {
  keys: ["escape"],
  word: "back",
  help: "One step back; out of the place it asks before a correction begun is left.",
  does: back,
};

const chooseKeys: readonly Binding[] = [
  {
    keys: ["enter"],
    word: "take",
    help: "Take the mass typed; on a word, open it for typing, then take it.",
    does: fieldAccepted,
  },
  { keys: ["up"], word: "row", help: "To the figure above.", does: (app) => move(app, -1) },
  { keys: ["down"], word: "row", help: "To the figure below.", does: (app) => move(app, 1), quiet: true },
  {
    keys: ["r"],
    word: "reason, go on",
    help: "On to the reason, once everything is corrected that was wrong.",
    does: toReason,
  },
  { keys: ["u"], word: "undo", help: "Take the correction of this figure back.", does: takenBack },
  { keys: ["page up"], word: "page", help: "Ten figures up.", does: (app) => move(app, -10), quiet: true },
  { keys: ["page down"], word: "page", help: "Ten figures down.", does: (app) => move(app, 10), quiet: true },
  BACK,
];

const dispositionKeys: readonly Binding[] = DISPOSITIONS.map((disposition, i) => ({
  keys: [`${i + 1}`],
  word: i === 0 ? "to 6 choose" : "choose",
  help: `What became of the product: ${disposition}.`,
  does: (app: App) => disposed(app, disposition),
  ...(i === 0 ? {} : { quiet: true as const }),
}));

const wordKeys: readonly Binding[] = [
  { keys: ["enter"], word: "take", help: "Take the text as it stands.", does: fieldAccepted },
  BACK,
];

const enterKeys = (word: string, help: string, does: Binding["does"]): readonly Binding[] => [
  { keys: ["enter"], word, help, does },
  BACK,
];

const confirmKeys: readonly Binding[] = [
  {
    keys: ["enter"],
    word: "sign",
    help: "Sign the correction as it is shown.",
    does: (app) => corrects(app, { step: "initials", typed: "" }),
  },
  { keys: ["up"], word: "scroll", help: "A figure up.", does: (app) => scroll(app, -1) },
  { keys: ["down"], word: "scroll", help: "A figure down.", does: (app) => scroll(app, 1), quiet: true },
  BACK,
];

/** The keys of a correction by what is being done. */
export const CORRECT_KEYS = {
  choose: chooseKeys,
  disposition: [...dispositionKeys, ...chooseKeys],
  word: wordKeys,
  reason: enterKeys(phrase("go on"), phrase("Take the reason and show what follows from the correction."), reasonTaken),
  confirm: confirmKeys,
  initials: enterKeys(phrase("record"), phrase("Sign with the initials shown; the correction goes on record."), signed),
} as const satisfies Record<string, readonly Binding[]>;

function keysOf(place: CorrectPlace): readonly Binding[] {
  if (place.step !== "choose") return CORRECT_KEYS[place.step];
  if (fieldKind(place) === "text") return CORRECT_KEYS.word;
  return inHand(place).field === "disposition" ? CORRECT_KEYS.disposition : CORRECT_KEYS.choose;
}

const LONGEST_REASON = 400;

function limitOf(place: CorrectPlace): number {
  if (place.step === "reason") return LONGEST_REASON;
  return place.step === "initials" ? 8 : isMass(inHand(place)) ? 20 : longest(inHand(place));
}

function retyped(app: App, change: (typed: string) => string): Step {
  const place = placeOf(app);
  if (fieldKind(place) === "none") return stay(app);
  const before = place.doubt ? "" : (place.typed ?? "");
  return corrects(app, { typed: change(before).slice(0, limitOf(place)), doubt: null });
}

function scanned(app: App, text: string, ended: boolean, at: string): Step {
  if (fieldKind(placeOf(app)) === "none") return stay(app, say`"${text}" was scanned where nothing is asked`);
  const typing = retyped(app, (old) => old + text);
  const enter = keysOf(placeOf(typing.app)).find(({ keys }) => keys.includes("enter"));
  return ended && enter !== undefined ? enter.does(typing.app, at) : typing;
}

const STEPS = {
  choose: phrase("correct"),
  reason: phrase("why?"),
  confirm: phrase("what follows"),
  initials: phrase("sign"),
} as const;

/** A recorded test being corrected. The record itself is never touched: an entry is added that says how it is to be read. */
export const correctRoom: Room = {
  title: (app) => {
    const place = placeOf(app);
    const { corrections } = standingOf(place.history);
    const before = corrections === 0 ? "" : say`${correctionsText(corrections)} before · `;
    return {
      left: say`no. ${place.history.entry.number} · ${draftTitle(testOf(place))}`,
      right: line(`${before}${spoken(STEPS[place.step])}`, "strong"),
    };
  },
  body: correctBody,
  keys: (app) => keysOf(placeOf(app)),
  field: (app) => fieldKind(placeOf(app)),
  typed: (app, text) => retyped(app, (old) => old + text),
  erased: (app) => retyped(app, (old) => old.slice(0, -1)),
  scanned,
  about: [
    "What is wrong in a recorded test is set right by an entry beside it: choose a figure, type it as it should read, as",
    "many as need be, then say why. Before you sign, old and new figures and verdicts stand side by side. The original",
    "and every version stay on record, each with who, when and why. Masses are doubted as they are at the balance.",
  ],
};
