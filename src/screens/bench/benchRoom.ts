import { signOnWords } from "../../report/signOnWords.ts";
import { shortMoment } from "../../words/figures.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { balanceSpan } from "../balance/balanceWords.ts";
import { openForm } from "../event/eventRoom.ts";
import { toHandover } from "../handover/handoverRoom.ts";
import { span } from "../line.ts";
import { logPlace } from "../log/logPlace.ts";
import { type App, enter, type Step, stay, step } from "../place.ts";
import { practise } from "../practice/practise.ts";
import { reasoning } from "../reason/reasoning.ts";
import { type Binding, here, type Room } from "../room.ts";
import { newTest, resume } from "../run/taking.ts";
import { sieveNamed, toSieve, toSieves } from "../sieves/reach.ts";
import { SIGN_ON } from "../signOn/people.ts";
import { trendOf, trendOnBench } from "../trend/trendPlace.ts";
import { benchBody } from "./benchView.ts";
import { benchItems } from "./items.ts";

function open(app: App, at: string): Step {
  const items = benchItems(app);
  const item = items[Math.min(here(app, "bench").at, items.length - 1)];
  if (item?.kind === "test") return step(app, { do: "open", row: item.row });
  if (item?.kind === "hold") return step(app, { do: "readLot", ...item.hold });
  if (app.readOnly) return stay(app, app.readOnly);
  return item?.kind === "draft" ? resume(app, item.draft) : newTest(app, at);
}

function move(app: App, by: number): Step {
  const place = here(app, "bench");
  const last = benchItems(app).length - 1;
  return step({ ...app, message: null, place: { ...place, at: Math.max(0, Math.min(last, place.at + by)) } });
}

/** A draft with a mass in it is evidence: it can only be finished. One without holds nothing that could be lost. */
function undroppable(app: App): string | null {
  const item = benchItems(app)[here(app, "bench").at];
  if (item?.kind !== "draft") return say`choose a test in work with Up and Down`;
  const weighed = item.draft.trail.some(({ field }) => field.endsWith("G"));
  return weighed ? say`this test holds weighings: z ends it without a result, and says why` : null;
}

function unendable(app: App): string | null {
  const item = benchItems(app)[here(app, "bench").at];
  return item?.kind === "draft" ? app.readOnly : say`choose a test in work with Up and Down`;
}

function end(app: App): Step {
  const item = benchItems(app)[here(app, "bench").at];
  return item?.kind === "draft" ? step(enter(app, reasoning({ act: "ended", draft: item.draft }))) : stay(app);
}

function drop(app: App): Step {
  const item = benchItems(app)[here(app, "bench").at];
  return item?.kind === "draft" ? step(app, { do: "drop", draft: item.draft }) : stay(app);
}

function trendOfMark(app: App): Step {
  const item = benchItems(app)[here(app, "bench").at];
  return item?.kind === "test" ? trendOf(app, item.row.product, item.row.line) : trendOnBench(app);
}

function lotOfMark(app: App): Step {
  const item = benchItems(app)[here(app, "bench").at];
  if (item?.kind === "hold") return step(app, { do: "readLot", ...item.hold });
  if (item?.kind !== "test") return stay(app, say`choose a recorded test or a hold with Up and Down`);
  const { product, lot, line } = item.row;
  return step(app, { do: "readLot", product, lot, line });
}

const noWeights = (app: App): string | null =>
  (app.station.checkWeights ?? []).length > 0
    ? null
    : say`no check weights in station.json: add checkWeights with nominalG and toleranceG`;

export const BENCH_KEYS: readonly Binding[] = [
  {
    keys: ["enter"],
    word: "open",
    help: "Take up the test in work, or open the recorded one, that the mark points at.",
    does: open,
  },
  {
    keys: ["n", "1"],
    word: "new",
    help: "Set out a new test.",
    does: (app, at) => newTest(app, at),
    refusal: (app) => app.readOnly,
  },
  { keys: ["l", "2"], word: "log", help: "All recorded tests, newest first.", does: (app) => logPlace(app) },
  {
    keys: ["p", "3"],
    word: "products",
    help: "The products in the library and their envelopes.",
    does: (app) => step(enter(app, { name: "products", filter: "", at: 0 })),
  },
  {
    keys: ["b", "4"],
    word: "balance",
    help: "Check the balance with its weights before use.",
    does: (app) => step(enter(app, { name: "balance", readG: [], typed: "" })),
    refusal: (app) => app.readOnly ?? noWeights(app),
  },
  {
    keys: ["t", "8"],
    word: "trends",
    help: "How the product of the test marked, or of the latest one, has been running: control charts, drifts.",
    does: trendOfMark,
  },
  {
    keys: ["s", "9"],
    word: "sieves",
    help: "Sieves, balances and check weights: how they stand, what is due, care noted.",
    does: toSieves,
  },
  { keys: ["h", "6"], word: "handover", help: "What this shift hands over, as a page.", does: toHandover },
  {
    keys: ["g", "7"],
    word: "line",
    help: "Log what happened on a line: an adjustment, a changeover, a new lot, stopped, started.",
    does: (app) => openForm(app, "line"),
  },
  {
    keys: ["j"],
    word: "lot",
    help: "All tests of the lot that the mark points at, what they say together, and its hold.",
    does: lotOfMark,
  },
  {
    keys: ["m", "5"],
    word: "motion",
    help: "How the sieving programs move a sieve and throw a grain.",
    does: (app) => step(enter(app, { name: "shaker", at: 0, restated: false })),
  },
  {
    keys: ["o"],
    word: "sign on",
    help: "Sign on, or take over from whoever is signed on.",
    does: (app) => step(enter(app, SIGN_ON)),
    refusal: (app) =>
      app.readOnly ??
      (app.people.rule === "required" ? null : say`${spoken(signOnWords("none"))}: a shows how to change that`),
  },
  {
    keys: ["a"],
    word: "people",
    help: "Who may work here, in which role; turn sign-on on or off.",
    does: (app) => step(enter(app, { name: "operators", at: 0 })),
  },
  { keys: ["up", "-"], word: "up", help: "The mark one row up.", does: (app) => move(app, -1), quiet: true },
  { keys: ["down", "+"], word: "down", help: "The mark one row down.", does: (app) => move(app, 1), quiet: true },
  {
    keys: ["d"],
    word: "drop",
    help: "Drop a test in work in which nothing has been weighed yet.",
    does: drop,
    refusal: undroppable,
    quiet: true,
  },
  {
    keys: ["z"],
    word: "end",
    help: "End a test in work without a result (spilled, dropped): asks why; all that was entered goes on record.",
    does: end,
    refusal: unendable,
    quiet: true,
  },
  {
    keys: ["r"],
    word: "read again",
    help: "In a window that only reads: read what another one has written meanwhile.",
    does: (app) => step(app, { do: "readAgain" }),
    refusal: ({ readOnly }) => (readOnly === null ? say`this window writes: it shows everything as it is` : null),
    quiet: true,
  },
  {
    keys: ["x"],
    word: "practice",
    help: "A test to practise with, or the one that was left: marked as practice throughout, never recorded, kept nowhere.",
    does: (app, at) => practise(app, at),
  },
  {
    keys: ["q", "ctrl+c"],
    word: "leave",
    help: "Leave the program. Tests in work stay as they are.",
    does: (app) => step(app, { do: "quit" }),
  },
];

function scanned(app: App, text: string, at: string): Step {
  const product = app.products.find((p) => p.code.toLowerCase() === text.trim().toLowerCase());
  const sieve = sieveNamed(app, text);
  if (!product && sieve) return toSieve(app, sieve.serial);
  if (!product) return stay(app, say`"${text.trim()}" is not a product of this library, nor a registered sieve`);
  return app.readOnly ? stay(app, app.readOnly) : newTest(app, at, product);
}

/** Whoever is signed on and in which role; else whoever signed last. */
const whoSpan = ({ session, operator }: App) =>
  session === null
    ? span(operator === "" ? "" : ` · ${operator}`, "dim")
    : span(` · ${session.initials} ${spoken(session.role)}`, "strong");

/** The bench: where every shift begins and every Esc ends. */
export const benchRoom: Room = {
  title: (app) => ({
    left: `${app.station.station} · ${app.station.plant}`,
    kept: ` · ${shortMoment(app.now)}`,
    right: [balanceSpan(app), whoSpan(app)],
  }),
  body: benchBody,
  keys: () => BENCH_KEYS,
  field: () => "none",
  typed: (app) => stay(app),
  erased: (app) => stay(app),
  scanned: (app, text, _ended, at) => scanned(app, text, at),
  about: [
    "The bench: tests in work wait at the top, the latest recorded ones stand below, and the curve shows how the product",
    "tested last has been running. Scan a product's code to set out a test of it, a sieve's serial to see how it stands.",
  ],
};
