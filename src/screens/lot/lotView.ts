import { currentTest, standingOf, type TestHistory } from "../../record/versions.ts";
import { wrapped } from "../../report/columns.ts";
import { closedWords } from "../../report/entryLine.ts";
import { amendedWords } from "../../report/handoverPage.ts";
import { retestWords } from "../../report/retestWords.ts";
import { holdOn } from "../../shift/holds.ts";
import type { LotStanding } from "../../shift/lot.ts";
import { momentText, shortMoment } from "../../words/figures.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { ownerText } from "../event/answerWords.ts";
import { apart, cells, type Line, line, said, sentenceOf, span, unsaid, windowAround } from "../line.ts";
import type { App, LotPlace, Size } from "../place.ts";
import { tabled } from "../sentences.ts";
import { dispositionNow, holdReasonText, productVerdictSpan, shortVerdict } from "../words.ts";
import { standingOfLot, testsOfLot } from "./lotTests.ts";
import { togetherLines } from "./togetherView.ts";

const told = (text: string, columns: number): Line[] =>
  wrapped(text, columns - 3, "  ").map((row) => line(`  ${row}`, "warning"));

/** How the last hold was closed: what became of the lot, by whom, when and why. */
function closedLines(closed: LotPlace["closed"], columns: number): Line[] {
  if (!closed) return [line(say`  no hold is open on this lot`, "dim")];
  const { by, at, hold, number } = closed;
  const words = say`no hold is open; no. ${hold.number} was closed ${momentText(at)} by ${by}: ${spoken(closedWords(closed))} (no. ${number})`;
  const role = closed.despite === undefined ? "plain" : "warning";
  return wrapped(words, columns - 3, "  ").map((row) => line(`  ${row}`, role));
}

function holdLines(app: App, { product, lot, closed }: LotPlace, columns: number): Line[] {
  const hold = holdOn(app.holds, product, lot);
  if (hold === null) return closedLines(closed, columns);
  const since = momentText(hold.at);
  return told(
    say`ON HOLD ! since ${since}, for ${ownerText(hold.owner)} to decide: ${holdReasonText(hold)} (no. ${hold.number})`,
    columns,
  );
}

/** Which tests decide, with their numbers as the screen writes them. */
function whyText(why: string): string {
  const [, numbers] = /^by (no\. .*)$/.exec(why) ?? [];
  return numbers === undefined ? spoken(why) : say`by ${spoken(numbers)}`;
}

function standingLines({ verdict, why, warnings }: LotStanding, columns: number): Line[] {
  const word = verdict === "no valid test" ? span(say`NO VALID TEST !`, "warning") : productVerdictSpan(verdict);
  const [first = "", ...more] = wrapped(whyText(why), columns - 40);
  return [
    [span(say`  the lot as a whole  `, "strong"), word, span(`  ${first}`)],
    ...more.map((row) => line(`    ${row}`)),
    ...warnings.flatMap((text) => told(`! ${spoken(text)}`, columns)),
  ];
}

const testHeading = (): Line =>
  cells([
    { text: "", columns: 2 },
    { text: say`test`, columns: 9, role: "dim" },
    { text: say`recorded`, columns: 13, role: "dim" },
    { text: say`point`, columns: 13, role: "dim" },
    { text: say`verdict`, columns: 14, role: "dim" },
    { text: say`what became of it`, columns: 28, role: "dim" },
  ]);

/** One test of the lot; how a retest came about stands below it where there is no room beside. */
function testLines(history: TestHistory, holds: App["holds"], chosen: boolean, wide: boolean): Line[] {
  const test = currentTest(history);
  const amended = amendedWords({ amended: standingOf(history) });
  const { text, role } = shortVerdict(test.signed.test, test.signed.product);
  const became = dispositionNow(holds, { ...test, product: test.product.code });
  const retest = retestWords(test);
  const drawn = cells([
    { text: chosen ? "▸" : "", columns: 2, role: "strong" },
    { text: say`no. ${history.entry.number}`, columns: 9 },
    { text: shortMoment(history.entry.at), columns: 13 },
    apart(test.samplingPoint, 13),
    { text, columns: 14, role },
    { text: became, columns: 12 },
    { text: amended, columns: 17, role: "warning" },
  ]);
  const row = tabled(testHeading(), drawn);
  if (retest === "") return [row];
  const told = () => `${sentenceOf(row) ?? ""}, ${retest}`;
  return wide ? [said([...row, span(` ${retest}`)], told)] : [row, line(`             ${retest}`, "dim")];
}

/** So many tests are in view at once; Up and Down lead to the others. */
const TESTS_SHOWN = 5;

/** A lot: its hold, what its tests say together, the tests, and their results side by side. */
export function lotBody(app: App, place: LotPlace, size: Size): readonly Line[] {
  const standing = standingOfLot(place);
  const wide = size.columns >= 110;
  const { from, shown } = windowAround(place.histories, place.at, TESTS_SHOWN);
  const rows = shown.flatMap((history, i) => testLines(history, app.holds, from + i === place.at, wide));
  const count = place.histories.length;
  const cut = count > shown.length ? `, ${say`${from + 1} to ${from + shown.length} of ${count}`}` : "";
  const upper: Line[] = [
    ...holdLines(app, place, size.columns),
    [],
    ...(standing === null
      ? [line(say`  no test of this lot is on record lately`, "dim")]
      : standingLines(standing, size.columns)),
    [],
    line(say`  every test of the lot, void ones too${cut}`, "dim"),
    unsaid(testHeading()),
    ...rows,
    [],
  ];
  return [...upper, ...togetherLines(testsOfLot(place), standing?.average ?? null, place.at, size.columns)];
}
