import type { RepeatedFigure, RepeatedTests } from "../../assess/repeatedTests.ts";
import { wrapped } from "../../report/columns.ts";
import { NO_FIGURE } from "../../report/figures.ts";
import { figureLabel, honestyCell, meanText, scatterText, timesStated } from "../../report/replicatesFigures.ts";
import { outlierCell, repeatedWords, togetherWords } from "../../report/replicatesWords.ts";
import { SIGNS } from "../../terminal/signs.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { apart, type Cell, cells, type Line, line, type Span, said, span, unsaid, windowAround } from "../line.ts";
import type { App, Size } from "../place.ts";
import { here } from "../room.ts";
import { tabled } from "../sentences.ts";
import { lookedAt } from "./looked.ts";
import type { ReplicatesPlace } from "./places.ts";

const told = (text: string, columns: number, role: "plain" | "dim" = "plain"): Line[] =>
  wrapped(text, columns - 4, "  ").map((row) => line(`  ${row}`, text.startsWith("!") ? "warning" : role));

/** The tests in a row, as many as fit around the one in hand; those that were taken out stand in brackets. */
function testsLine(app: App, columns: number): Line {
  const { tests, out, test } = here(app, "replicates");
  const room = Math.max(1, Math.floor((columns - 20) / 8));
  const { from, shown } = windowAround(tests, test, room);
  const each = shown.map(({ number }, i): Span => {
    const name = out.includes(number) ? `(${number})` : `${number}`;
    const chosen = from + i === test;
    return span(` ${chosen ? SIGNS.here : " "}${name}`, chosen ? "strong" : out.includes(number) ? "dim" : "plain");
  });
  const more = tests.length > shown.length ? [span(say`  of ${tests.length}`, "dim")] : [];
  return said([span(say`  tests no.`, "dim"), ...each, ...more], () => testsWords(here(app, "replicates")));
}

/** The tests read aloud: those taken out are named as such, the one in hand last. */
function testsWords({ tests, out, test }: ReplicatesPlace): string {
  const numbers = tests.map(({ number }) => (out.includes(number) ? say`${number} taken out` : `${number}`));
  return say`tests no. ${numbers.join(", ")}; in hand no. ${tests[test]?.number ?? "–"}`;
}

const column = (text: string, columns: number, role: Cell["role"] = "plain"): Cell => ({
  text,
  columns,
  align: "right",
  role,
});

const heading = (): Line =>
  cells([
    { text: say`  figure`, columns: 21, role: "dim" },
    ...[say`mean`, "s_r", "r", say`stated`].map((text) => column(text, 10, "dim")),
    column(say`times`, 11, "dim"),
    { text: say` budget`, columns: 8, role: "dim" },
  ]);

function figureLine(figure: RepeatedFigure, chosen: boolean, nameOf: (at: number) => string, wide: boolean): Line {
  const head: Cell[] = [
    { text: chosen ? SIGNS.here : "", columns: 2, role: "strong" },
    apart(figureLabel(figure.on), 19),
  ];
  if (!figure.determinable)
    return cells([...head, column(NO_FIGURE, 10), { text: `  ${spoken(figure.reason)}`, columns: 49 }]);
  const { found, unit } = figure;
  const isMore = found.honesty?.verdict === "scatters more than stated";
  const outlier: Cell = { text: ` ${outlierCell(figure, nameOf)}`, columns: 28, role: "warning" };
  return cells([
    ...head,
    column(meanText(found.mean, unit), 10),
    column(scatterText(found.sr, unit), 10),
    column(scatterText(found.r, unit), 10),
    column(scatterText(found.honesty?.u ?? null, unit), 10),
    column(timesStated(figure), 11),
    { text: ` ${honestyCell(figure)}`, columns: wide ? 12 : 8, role: isMore ? "warning" : "plain" },
    ...(wide ? [outlier] : []),
  ]);
}

function tableOf(looked: RepeatedTests, at: number, size: Size, nameOf: (at: number) => string): Line[] {
  const { from, shown } = windowAround(looked.figures, at, Math.min(size.rows, looked.figures.length));
  const rows = shown.map((one, i) => figureLine(one, from + i === at, nameOf, size.columns >= 100));
  return [unsaid(heading()), ...rows.map((row) => tabled(heading(), row))];
}

/** The tests, what they say together, a row a figure, and the figure in hand in words. */
export function replicatesBody(app: App, { columns, rows }: Size): readonly Line[] {
  const place = here(app, "replicates");
  const looked = lookedAt(place);
  const nameOf = (at: number) => say`no. ${looked.tests[at]?.number ?? "?"}`;
  const left = looked.leftOut.flatMap(({ number, reason }) =>
    told(say`! left out: no. ${number}, ${spoken(reason)}`, columns),
  );
  const head = [testsLine(app, columns), ...left];
  if (looked.tests.length < 2)
    return [...head, [], ...told(say`! fewer than two tests are left: x takes one in again`, columns)];
  const at = Math.min(place.at, looked.figures.length - 1);
  const figure = looked.figures[at];
  const words = figure === undefined ? [] : repeatedWords(figure, nameOf).flatMap((text) => told(text, columns, "dim"));
  const above = [...head, ...togetherWords(looked).flatMap((text) => told(text, columns)), []];
  const room = Math.max(3, rows - above.length - words.length - 2);
  return [...above, ...tableOf(looked, at, { columns, rows: room }, nameOf), [], ...words];
}
