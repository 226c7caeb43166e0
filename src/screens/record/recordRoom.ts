import { assessTest } from "../../assess/assessTest.ts";
import { type Line, line, span } from "../line.ts";
import { type App, leave, type Size, type Step, stay, step } from "../place.ts";
import { resultBody } from "../result/body.ts";
import { VIEWS } from "../result/views.ts";
import { type Binding, here, type Room } from "../room.ts";
import { valuesOf } from "../run/resultKeys.ts";
import { draftTitle } from "../run/runRoom.ts";
import { dispositionText, verdictSpans } from "../words.ts";
import { trailLines } from "./trailView.ts";

function signedLine(app: App): Line {
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
  return line(`  ${words.filter((w) => w !== "").join(" · ")}`, "dim");
}

/** A later version of the program must show the verdicts that were signed, and say so if it computes others. */
function changedVerdict(app: App): Line[] {
  const { test } = here(app, "record").entry;
  const { signed } = test;
  const assessed = assessTest(test);
  if (!assessed.ok) return [line(`  ! can't be assessed any more: ${assessed.reason}`, "warning")];
  const { verdict } = assessed.value;
  if (verdict.test === signed.test && verdict.product === signed.product) return [];
  return [
    line(
      `  ! signed as test ${signed.test}, product ${signed.product} (program ${signed.program}); computed otherwise now`,
      "warning",
    ),
  ];
}

const PAGES = [...VIEWS, "trail"] as const;

function body(app: App, size: Size): readonly Line[] {
  const { entry, view } = here(app, "record");
  const head = [signedLine(app), ...changedVerdict(app)];
  const rest = { columns: size.columns, rows: size.rows - head.length };
  const page = PAGES[view % PAGES.length];
  return [...head, ...(page === "trail" ? trailLines(entry.test.trail, rest) : resultBody(entry.test, view, rest))];
}

function title(app: App) {
  const { test } = here(app, "record").entry;
  const assessed = assessTest(test);
  return {
    left: draftTitle(test),
    right: assessed.ok ? verdictSpans(assessed.value.verdict) : [span("NOT ASSESSED", "warning")],
  };
}

function turn(app: App): Step {
  const place = here(app, "record");
  return step({ ...app, message: null, place: { ...place, view: (place.view + 1) % PAGES.length } });
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
