import { type HandoverExtras, handoverPage } from "../../report/handoverPage.ts";
import { driftWords } from "../../report/trendWords.ts";
import { shiftAt, shiftBefore } from "../../shift/schedule.ts";
import { dayText } from "../../words/figures.ts";
import { ENGLISH } from "../../words/manner.ts";
import { say } from "../../words/say.ts";
import { inManner, speaking } from "../../words/speaking.ts";
import { openForm } from "../event/eventRoom.ts";
import { type Line, line } from "../line.ts";
import { type App, type HandoverPlace, leave, type Size, type Step, stay, step } from "../place.ts";
import { type Binding, here, type Room } from "../room.ts";

const placeOf = (app: App): HandoverPlace => here(app, "handover");

/** A page is as wide on the screen as on paper, so that it reads the same; in a narrow window it breaks earlier. */
const PAGE_COLUMNS = 78;

/** Drifts are worked out once for what is shown: the page is drawn with every key. */
const DRIFTS = new WeakMap<object, Map<string, readonly string[]>>();

function driftsNow({ place, products, recent, earlier, lineEvents }: App): readonly string[] {
  const known = DRIFTS.get(place) ?? new Map<string, readonly string[]>();
  DRIFTS.set(place, known);
  const spokenIn = JSON.stringify(speaking());
  const rows = [...earlier, ...(recent ?? [])];
  const drifts = known.get(spokenIn) ?? products.flatMap((product) => driftWords(product, rows, lineEvents));
  known.set(spokenIn, drifts);
  return drifts;
}

const extrasOf = (app: App): HandoverExtras => {
  const { station, now, people } = app;
  return {
    station: station.station,
    plant: station.plant,
    demo: station.demo === true,
    printedAt: now,
    drifts: driftsNow(app),
    signOn: people.rule === "required",
  };
};

/** The page of the shift that is looked at, as it is signed and kept: in English, as all records are. */
export const pageOf = (app: App): string =>
  inManner(ENGLISH, () => handoverPage(placeOf(app).handover, extrasOf(app), PAGE_COLUMNS));

const body = (app: App, { columns }: Size): readonly Line[] =>
  handoverPage(placeOf(app).handover, extrasOf(app), Math.min(PAGE_COLUMNS, columns - 2))
    .trimEnd()
    .split("\n")
    .map((row) => line(` ${row}`));

/** Opens the handover of the present shift. */
export const toHandover = (app: App): Step =>
  step({ ...app, message: say`reading the shift ...` }, { do: "readHandover", shift: shiftAt(app.now, app.station) });

function earlier(app: App): Step {
  return step(app, { do: "readHandover", shift: shiftBefore(placeOf(app).handover.shift, app.station) });
}

function later(app: App): Step {
  const { shift } = placeOf(app).handover;
  if (Date.parse(shift.ends) > Date.parse(app.now)) return stay(app, say`this is the present shift`);
  return step(app, { do: "readHandover", shift: shiftAt(shift.ends, app.station) });
}

function handOver(app: App): Step {
  const { shift, head } = placeOf(app).handover;
  if (head === null) return stay(app, say`the log is empty: there is nothing to hand over`);
  const { name, began, ends } = shift;
  return openForm(app, "handover", { is: "handover", shift: { name, began, ends }, head, page: pageOf(app) });
}

function take(app: App): Step {
  const { untaken } = placeOf(app);
  if (untaken === null) return stay(app, say`no handover is waiting to be taken`);
  const { day, number } = untaken;
  return openForm(app, "taken", { is: "handed over", handover: { day, number } });
}

const KEYS: readonly Binding[] = [
  {
    keys: ["h"],
    word: "hand over",
    help: "Sign this page as handed over; it is kept as a text file to print.",
    does: handOver,
  },
  { keys: ["a"], word: "take over", help: "Sign that you have read what was handed over last.", does: take },
  { keys: ["n"], word: "note", help: "Add a note for the next shift.", does: (app) => openForm(app, "note") },
  {
    keys: ["w"],
    word: "write file",
    help: "Keep this page as a text file in the folder pages of the station.",
    does: (app) => step(app, { do: "keepPage", page: pageOf(app), shift: placeOf(app).handover.shift }),
    refusal: (app) => app.readOnly,
  },
  { keys: ["left", "-"], word: "earlier", help: "The shift before.", does: earlier },
  { keys: ["right", "+"], word: "later", help: "The shift after.", does: later },
  { keys: ["escape"], word: "back", help: "Back to where you came from.", does: (app) => step(leave(app)) },
];

/** What a shift hands over, as it goes on paper. */
export const handoverRoom: Room = {
  title: (app) => {
    const { handover, untaken } = placeOf(app);
    const waiting = untaken === null ? "" : say`no. ${untaken.number} waits to be taken: a`;
    return {
      left: [say`handover`, handover.shift.name, dayText(handover.shift.day)].join(" · "),
      right: line(waiting, "warning"),
    };
  },
  body,
  keys: () => KEYS,
  field: () => "none",
  typed: (app) => stay(app),
  erased: (app) => stay(app),
  scanned: (app) => stay(app),
  about: [
    "One page made from the log: what is open, what was late, the tests, changes of the lines, balance, corrections and",
    "notes, and where the record chain ends. On paper that end proves later that nothing was cut off the log.",
    "Who goes signs it as handed over, who comes signs that it was read.",
  ],
};
