import { assessTest } from "../../assess/assessTest.ts";
import type { TestRecord } from "../../record/test.ts";
import { currentTest, standingOf } from "../../record/versions.ts";
import { amendmentText, correctionsText, standingText } from "../../report/amendmentWords.ts";
import { wrapped } from "../../report/columns.ts";
import { retestWords } from "../../report/retestWords.ts";
import { signedWords } from "../../report/signOnWords.ts";
import { momentText } from "../../words/figures.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { type Line, line, span } from "../line.ts";
import { type App, leave, type RecordPlace, type Size, type Step, stay, step } from "../place.ts";
import { resultBody } from "../result/body.ts";
import { VIEWS } from "../result/views.ts";
import { type Binding, here, type Room } from "../room.ts";
import { valuesOf } from "../run/resultKeys.ts";
import { draftTitle } from "../run/runRoom.ts";
import { dispositionNow, verdictSpans } from "../words.ts";
import { AMEND_KEYS } from "./amendKeys.ts";
import { trailLines } from "./trailView.ts";
import { lastScrolled, versionsLines } from "./versionsView.ts";

const told = (text: string, columns: number, role: "dim" | "warning"): Line[] =>
  wrapped(text, columns - 2, "  ").map((row) => line(`  ${row}`, role));

/** The test as it is to be read today. */
const testOf = (app: App): TestRecord => currentTest(here(app, "record"));

/** What was said of the test later, before anything else about it. */
function standingLines(place: RecordPlace, columns: number): Line[] {
  const { corrections, voided, waived } = standingOf(place);
  const last = (...kinds: string[]) => place.later.findLast(({ kind }) => kinds.includes(kind));
  const corrected = say`! ${correctionsText(corrections)}, shown as corrected; v leads to every version`;
  const standing = [voided ? last("voided") : undefined, waived ? last("waived") : undefined];
  const words = standing.flatMap((one) => (one ? [`! ${amendmentText(one)}`] : []));
  return [...words, ...(corrections > 0 ? [corrected] : [])].flatMap((text) => told(text, columns, "warning"));
}

function signedLines(app: App, columns: number): Line[] {
  const { entry } = here(app, "record");
  const { at, number } = entry;
  const test = testOf(app);
  const shaken = test.shaking.skipped ? say`shaking cut short: ${test.shaking.skipped}` : "";
  const words = [
    say`no. ${number}`,
    momentText(at),
    spoken(signedWords(entry)),
    dispositionNow(app.holds, { ...test, product: test.product.code }),
    retestWords(test),
    shaken,
  ];
  return told(words.filter((w) => w !== "").join(" · "), columns, "dim");
}

/** A later version of the program must show the verdicts that were signed, and say so if it computes others. */
function changedVerdict(app: App, columns: number): Line[] {
  const test = testOf(app);
  const { signed } = test;
  const assessed = assessTest(test);
  if (!assessed.ok) return told(say`! can't be assessed any more: ${spoken(assessed.reason)}`, columns, "warning");
  const { verdict } = assessed.value;
  if (verdict.test === signed.test && verdict.product === signed.product) return [];
  const [test0, product0] = [spoken(signed.test), spoken(signed.product)];
  const words = say`! signed as test ${test0}, product ${product0} (program ${signed.program})`;
  const [test1, product1] = [spoken(verdict.test), spoken(verdict.product)];
  return told(say`${words}; computed otherwise now: test ${test1}, product ${product1}`, columns, "warning");
}

/** The last page but one of a test of which something was said later shows its versions. */
const pagesOf = ({ later }: RecordPlace) => [
  ...VIEWS,
  ...(later.length > 0 ? (["versions"] as const) : []),
  "trail" as const,
];

const pageOf = (place: RecordPlace) => pagesOf(place)[place.view % pagesOf(place).length];

const START = { line: 0, version: 0 };

function body(app: App, size: Size): readonly Line[] {
  const place = here(app, "record");
  const head = [
    ...signedLines(app, size.columns),
    ...standingLines(place, size.columns),
    ...changedVerdict(app, size.columns),
  ];
  return [...head, ...pageLines(app, { columns: size.columns, rows: size.rows - head.length })];
}

function pageLines(app: App, size: Size): readonly Line[] {
  const place = here(app, "record");
  const page = pageOf(place);
  if (page === "trail") return trailLines(place.entry.test.trail, size, place.back);
  if (page === "versions") return versionsLines(place, size, place.from ?? START);
  return resultBody(testOf(app), place.view % pagesOf(place).length, size);
}

function title(app: App) {
  const place = here(app, "record");
  const test = testOf(app);
  const standing = standingText(standingOf(place));
  const right = [...(standing === "" ? [] : [span(`${standing}  `, "warning")]), ...verdictSpans(test.signed)];
  return { left: draftTitle(test), right };
}

function turn(app: App): Step {
  const place = here(app, "record");
  return step({
    ...app,
    message: null,
    place: { ...place, view: (place.view + 1) % pagesOf(place).length, back: 0, from: START },
  });
}

/** Along the trail, or down the versions; the other pages stand still. */
function scroll(app: App, by: number): Step {
  const place = here(app, "record");
  if (pageOf(place) === "versions") return scrollVersions(app, { line: -by, version: 0 });
  if (pageOf(place) !== "trail") return stay(app);
  const back = Math.max(0, Math.min(place.entry.test.trail.length - 1, (place.back ?? 0) + by));
  return step({ ...app, message: null, place: { ...place, back } });
}

function scrollVersions(app: App, by: { readonly line: number; readonly version: number }): Step {
  const place = here(app, "record");
  if (pageOf(place) !== "versions") return stay(app);
  const { line: l, version } = place.from ?? START;
  const last = lastScrolled(place);
  const within = (at: number, most: number) => Math.max(0, Math.min(most, at));
  const from = { line: within(l + by.line, last.line), version: within(version + by.version, last.version) };
  return step({ ...app, message: null, place: { ...place, from } });
}

export const RECORD_KEYS: readonly Binding[] = [
  {
    keys: ["v", "enter"],
    word: "view",
    help: "Turn through the drawings, the versions of a corrected test, and the trail of entries.",
    does: turn,
  },
  {
    keys: ["j"],
    word: "lot",
    help: "All tests of this lot, what they say together, and its hold.",
    does: (app) => {
      const { product, lot, line: on } = testOf(app);
      return step(app, { do: "readLot", product: product.code, lot, line: on });
    },
  },
  {
    keys: ["w"],
    word: "values",
    help: "Every characteristic value, with formula, convention and source.",
    does: (app) => valuesOf(app, testOf(app)),
  },
  ...AMEND_KEYS,
  {
    keys: ["up"],
    word: "scroll",
    help: "To earlier entries of the trail, or up the versions.",
    does: (app) => scroll(app, 1),
    quiet: true,
  },
  { keys: ["down"], word: "scroll", help: "To later ones.", does: (app) => scroll(app, -1), quiet: true },
  {
    keys: ["left"],
    word: "versions",
    help: "To earlier versions, where not all fit.",
    does: (app) => scrollVersions(app, { line: 0, version: -1 }),
    quiet: true,
  },
  {
    keys: ["right"],
    word: "versions",
    help: "To later versions.",
    does: (app) => scrollVersions(app, { line: 0, version: 1 }),
    quiet: true,
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
    "A test as it stands on record, judged against the product revision copied into it. One that was corrected is shown as",
    "it reads today; its versions, original first, stand side by side on a page of their own. The last page lists every",
    "entry that was accepted, taken back or doubted, in the order in which it happened.",
  ],
};
