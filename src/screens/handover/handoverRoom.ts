import { type HandoverExtras, handoverPage } from "../../report/handoverPage.ts";
import { shiftAt, shiftBefore } from "../../shift/schedule.ts";
import { driftWords } from "../../shift/trendDrift.ts";
import { say } from "../../words/say.ts";
import { openForm } from "../event/eventRoom.ts";
import { line } from "../line.ts";
import { type App, type HandoverPlace, leave, type Size, type Step, stay, step } from "../place.ts";
import { type Binding, here, type Room } from "../room.ts";

const placeOf = (app: App): HandoverPlace => here(app, "handover");

/** A page is as wide on the screen as on paper, so that it reads the same. */
const PAGE_COLUMNS = 78;

/** Drifts are worked out once for what is shown: the page is drawn with every key. */
const DRIFTS = new WeakMap<object, readonly string[]>();

function driftsNow({ place, products, recent, earlier, lineEvents }: App): readonly string[] {
  const known = DRIFTS.get(place);
  if (known !== undefined) return known;
  const rows = [...earlier, ...(recent ?? [])];
  const drifts = products.flatMap((product) => driftWords(product, rows, lineEvents));
  DRIFTS.set(place, drifts);
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

/** The page of the shift that is looked at. */
export const pageOf = (app: App): string => handoverPage(placeOf(app).handover, extrasOf(app), PAGE_COLUMNS);

const rowsOf = (app: App): readonly string[] => pageOf(app).trimEnd().split("\n");

function body(app: App, size: Size) {
  const { from } = placeOf(app);
  return rowsOf(app)
    .slice(from, from + size.rows)
    .map((row) => line(` ${row}`));
}

function scroll(app: App, by: number): Step {
  const place = placeOf(app);
  const last = Math.max(0, rowsOf(app).length - 8);
  return step({ ...app, message: null, place: { ...place, from: Math.max(0, Math.min(last, place.from + by)) } });
}

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
  { keys: ["up"], word: "scroll", help: "Up the page.", does: (app) => scroll(app, -1), quiet: true },
  { keys: ["down"], word: "scroll", help: "Down the page.", does: (app) => scroll(app, 1), quiet: true },
  { keys: ["page up"], word: "scroll", help: "Up a screenful.", does: (app) => scroll(app, -12), quiet: true },
  { keys: ["page down"], word: "scroll", help: "Down a screenful.", does: (app) => scroll(app, 12), quiet: true },
  { keys: ["escape"], word: "back", help: "Back to where you came from.", does: (app) => step(leave(app)) },
];

/** What a shift hands over, as it goes on paper. */
export const handoverRoom: Room = {
  title: (app) => {
    const { handover, untaken } = placeOf(app);
    const waiting = untaken === null ? "" : say`no. ${untaken.number} waits to be taken: a`;
    return { left: `handover · ${handover.shift.name} · ${handover.shift.day}`, right: line(waiting, "warning") };
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
