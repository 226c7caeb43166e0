import { assessTest } from "../../assess/assessTest.ts";
import { actRefusal } from "../../record/permissions.ts";
import { currentTest, standingOf, type TestHistory } from "../../record/versions.ts";
import { wrapped } from "../../report/columns.ts";
import { pctText } from "../../report/figures.ts";
import { amendedWords } from "../../report/handoverPage.ts";
import { holdOn } from "../../shift/holds.ts";
import { type LotStanding, type LotTest, lotStanding } from "../../shift/lot.ts";
import { openForm } from "../event/eventRoom.ts";
import { cells, type Line, line, span } from "../line.ts";
import { type App, type LotPlace, leave, type Size, type Step, stay, step } from "../place.ts";
import { type Binding, here, type Room } from "../room.ts";
import { dispositionNow, productVerdictSpan, shortVerdict } from "../words.ts";

const placeOf = (app: App): LotPlace => here(app, "lot");

/** A recorded test as the lot sees it: the verdicts signed for its latest version, its figures as computed today. */
export function lotTestOf(history: TestHistory, lot: string): LotTest {
  const test = currentTest(history);
  const { voided, waived } = standingOf(history);
  const assessed = assessTest(test);
  return {
    number: history.entry.number,
    at: history.entry.at,
    test: test.signed.test,
    product: test.signed.product,
    limits: assessed.ok ? assessed.value.verdict.limits : [],
    voided,
    waived,
    ...(test.lot === lot ? {} : { movedTo: test.lot }),
  };
}

/** What the tests of the lot say together; null when it has none. */
export function standingOfLot({ histories, lot }: LotPlace): LotStanding | null {
  const last = histories.at(-1);
  return last === undefined
    ? null
    : lotStanding(
        histories.map((history) => lotTestOf(history, lot)),
        currentTest(last).product,
      );
}

function standingLines(standing: LotStanding, columns: number): Line[] {
  const { verdict, why, warnings, average } = standing;
  const word = verdict === "no valid test" ? span("NO VALID TEST !", "warning") : productVerdictSpan(verdict);
  const averaged = (average ?? []).map(({ on, value, result }) =>
    line(`    average of ${on}: ${value === null ? "–" : pctText(value, 2)}, ${result}`, "dim"),
  );
  const told = warnings.flatMap((text) => wrapped(`! ${text}`, columns - 4).map((row) => line(`  ${row}`, "warning")));
  const [first = "", ...more] = wrapped(why, columns - 40);
  return [
    [span("  the lot as a whole  ", "strong"), word, span(`  ${first}`)],
    ...more.map((row) => line(`    ${row}`)),
    ...averaged,
    ...told,
  ];
}

function testLine(history: TestHistory, holds: App["holds"], chosen: boolean): Line {
  const test = currentTest(history);
  const { voided, waived, corrections } = standingOf(history);
  const amended = amendedWords({ amended: { voided, waived, corrections } });
  const { text, role } = shortVerdict(test.signed.test, test.signed.product);
  return cells([
    { text: chosen ? "▸" : "", columns: 2, role: "strong" },
    { text: `no. ${history.entry.number}`, columns: 9 },
    { text: history.entry.at.slice(5, 16).replace("T", " "), columns: 13 },
    { text: test.samplingPoint, columns: 13 },
    { text, columns: 14, role },
    { text: dispositionNow(holds, { ...test, product: test.product.code }), columns: 12 },
    { text: amended, columns: 16, role: "warning" },
  ]);
}

function holdLines(app: App): Line[] {
  const { product, lot } = placeOf(app);
  const hold = holdOn(app.holds, product, lot);
  if (hold === null) return [line("  no hold is open on this lot", "dim")];
  const since = hold.at.slice(0, 16).replace("T", " ");
  return [
    line(`  ON HOLD ! since ${since}, for ${hold.owner} to decide: ${hold.reason} (no. ${hold.number})`, "warning"),
  ];
}

function body(app: App, size: Size): readonly Line[] {
  const place = placeOf(app);
  const standing = standingOfLot(place);
  return [
    ...holdLines(app),
    [],
    ...(standing === null
      ? [line("  no test of this lot is on record lately", "dim")]
      : standingLines(standing, size.columns)),
    [],
    line("  every test of the lot, voided ones too", "dim"),
    ...place.histories.map((history, i) => testLine(history, app.holds, i === place.at)),
  ].slice(0, size.rows);
}

function moved(app: App, by: number): Step {
  const place = placeOf(app);
  const at = Math.max(0, Math.min(place.histories.length - 1, place.at + by));
  return step({ ...app, message: null, place: { ...place, at } });
}

function hold(app: App): Step {
  const { product, lot, line: on, histories, at } = placeOf(app);
  const there = holdOn(app.holds, product, lot);
  if (there !== null) return stay(app, `this lot is on hold already, by no. ${there.number}`);
  const entry = histories[at]?.entry;
  const of = entry === undefined ? null : { testId: entry.test.testId, day: entry.day, number: entry.number };
  return openForm(app, "hold", { is: "lot", product, lot, line: on, of });
}

function close(app: App): Step {
  const { product, lot } = placeOf(app);
  const there = holdOn(app.holds, product, lot);
  if (there === null) return stay(app, "no hold is open on this lot");
  const refusal = app.session === null ? null : actRefusal(app.session.role, "close a hold");
  return refusal === null ? openForm(app, "close", { is: "hold", hold: there }) : stay(app, refusal);
}

function open(app: App): Step {
  const { histories, at } = placeOf(app);
  const history = histories[at];
  return history === undefined ? stay(app) : step(app, { do: "open", row: history.entry });
}

const KEYS: readonly Binding[] = [
  { keys: ["enter"], word: "open", help: "Open the test that the mark points at.", does: open },
  { keys: ["k"], word: "keep back", help: "Open a hold on this lot, with owner and reason.", does: hold },
  { keys: ["c"], word: "close hold", help: "Close the hold: what becomes of the lot, and why.", does: close },
  { keys: ["up"], word: "test", help: "The test above.", does: (app) => moved(app, -1) },
  { keys: ["down"], word: "test", help: "The test below.", does: (app) => moved(app, 1), quiet: true },
  { keys: ["escape"], word: "back", help: "Back to where you came from.", does: (app) => step(leave(app)) },
];

/** A lot with all its tests in view together: nobody tests until it passes. */
export const lotRoom: Room = {
  title: (app) => {
    const { product, lot, line: on } = placeOf(app);
    return { left: `${product} · lot ${lot} · ${on}`, right: [] };
  },
  body,
  keys: () => KEYS,
  field: () => "none",
  typed: (app) => stay(app),
  erased: (app) => stay(app),
  scanned: (app) => stay(app),
  about: [
    "Every test of one lot, the void ones too, and what they say together. A fail stands whatever later tests say, unless",
    "the product's method decides by the average. A hold keeps the lot back until somebody of quality closes it, with a",
    "reason; both are entries of the log.",
  ],
};
