import { assessTest } from "../../assess/assessTest.ts";
import { wrapped } from "../../report/columns.ts";
import { type Line, line } from "../line.ts";
import { type App, leave, type Size, type Step, stay, step } from "../place.ts";
import { resultBody } from "../result/body.ts";
import { VIEWS } from "../result/views.ts";
import { type Binding, here, type Room } from "../room.ts";
import { valuesOf } from "../run/resultKeys.ts";
import { draftTitle } from "../run/runRoom.ts";
import { dispositionText, verdictSpans } from "../words.ts";
import { trailLines } from "./trailView.ts";

const told = (text: string, columns: number, role: "dim" | "warning"): Line[] =>
  wrapped(text, columns - 2, "  ").map((row) => line(`  ${row}`, role));

function signedLines(app: App, columns: number): Line[] {
  const { entry } = here(app, "record");
  const { test, at, by, number } = entry;
  const shaken = test.shaking.skipped ? `shaking cut short: ${test.shaking.skipped}` : "";
  const words = [
    `no. ${number}`,
    at.slice(0, 16).replace("T", " "),
    `signed ${by}`,
    dispositionText(test.disposition),
    shaken,
  ];
  return told(words.filter((w) => w !== "").join(" · "), columns, "dim");
}

/** A later version of the program must show the verdicts that were signed, and say so if it computes others. */
function changedVerdict(app: App, columns: number): Line[] {
  const { test } = here(app, "record").entry;
  const { signed } = test;
  const assessed = assessTest(test);
  if (!assessed.ok) return told(`! can't be assessed any more: ${assessed.reason}`, columns, "warning");
  const { verdict } = assessed.value;
  if (verdict.test === signed.test && verdict.product === signed.product) return [];
  const words = `! signed as test ${signed.test}, product ${signed.product} (program ${signed.program})`;
  return told(`${words}; computed otherwise now: test ${verdict.test}, product ${verdict.product}`, columns, "warning");
}

const PAGES = [...VIEWS, "trail"] as const;

function body(app: App, size: Size): readonly Line[] {
  const { entry, view, back } = here(app, "record");
  const head = [...signedLines(app, size.columns), ...changedVerdict(app, size.columns)];
  const rest = { columns: size.columns, rows: size.rows - head.length };
  const page = PAGES[view % PAGES.length];
  return [
    ...head,
    ...(page === "trail" ? trailLines(entry.test.trail, rest, back) : resultBody(entry.test, view, rest)),
  ];
}

function title(app: App) {
  const { test } = here(app, "record").entry;
  return { left: draftTitle(test), right: verdictSpans(test.signed) };
}

function turn(app: App): Step {
  const place = here(app, "record");
  return step({ ...app, message: null, place: { ...place, view: (place.view + 1) % PAGES.length, back: 0 } });
}

/** Along the trail; the other pages stand still. */
function scroll(app: App, by: number): Step {
  const place = here(app, "record");
  if (PAGES[place.view % PAGES.length] !== "trail") return stay(app);
  const back = Math.max(0, Math.min(place.entry.test.trail.length - 1, (place.back ?? 0) + by));
  return step({ ...app, message: null, place: { ...place, back } });
}

export const RECORD_KEYS: readonly Binding[] = [
  {
    keys: ["v", "enter"],
    word: "view",
    help: "Turn through the drawings, the values and the trail of entries.",
    does: turn,
  },
  {
    keys: ["w"],
    word: "values",
    help: "Every characteristic value, with formula, convention and source.",
    does: (app) => valuesOf(app, here(app, "record").entry.test),
  },
  {
    keys: ["up"],
    word: "scroll",
    help: "To earlier entries of the trail.",
    does: (app) => scroll(app, 1),
    quiet: true,
  },
  { keys: ["down"], word: "scroll", help: "To later ones.", does: (app) => scroll(app, -1), quiet: true },
  { keys: ["escape"], word: "back", help: "Back to where you came from.", does: (app) => step(leave(app)) },
];

/** A recorded test as it was judged, with its signature and the trail of every accepted entry. */
export const recordRoom: Room = {
  title,
  body,
  keys: () => RECORD_KEYS,
  field: () => "none",
  typed: (app) => stay(app),
  erased: (app) => stay(app),
  scanned: (app) => stay(app),
  about: [
    "A test as it stands on record, judged against the product revision copied into it. The last page lists every entry",
    "that was accepted, taken back or doubted, in the order in which it happened.",
  ],
};
