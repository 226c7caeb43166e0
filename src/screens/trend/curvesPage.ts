import { type OverlaidCurve, overlayChart } from "../../chart/overlayChart.ts";
import { envelopeOf } from "../../envelope/passingBounds.ts";
import { type IndexRow, isCounted } from "../../record/indexRow.ts";
import { curveText } from "../../report/chartWords.ts";
import { sizeText } from "../../report/figures.ts";
import { curveOfRow } from "../../shift/trendCurve.ts";
import { shortMoment } from "../../words/figures.ts";
import { say } from "../../words/say.ts";
import { cells, type Line, line, pictured, said, textOf } from "../line.ts";
import { type App, type Size, type Step, stay, step } from "../place.ts";
import { type Binding, here } from "../room.ts";
import { rowVerdict } from "../words.ts";
import { MOST_CURVES } from "./chartKeys.ts";
import { figureHere } from "./looked.ts";
import { productHere, put } from "./trendPlace.ts";

const LETTERS = "abcdefghij";
const FEWEST_CURVES = 5;

/** The tests that lie over one another, oldest first: those marked, else the last few that count. */
export function overlaid(app: App): readonly IndexRow[] {
  const { read, marked, curves } = here(app, "trend");
  const counted = (read?.rows ?? []).filter(isCounted).filter(({ passingPct }) => Object.keys(passingPct).length > 0);
  return marked.length > 0 ? counted.filter(({ testId }) => marked.includes(testId)) : counted.slice(-curves);
}

const chosenAt = (app: App, rows: readonly IndexRow[]): number =>
  Math.max(0, Math.min(rows.length - 1, rows.length - 1 - here(app, "trend").at));

function testCell(row: IndexRow, letter: string, chosen: boolean, columns: number): Line {
  const d50 = row.values["percentileUm@50"];
  return cells([
    { text: chosen ? "▸" : "", columns: 2, role: "strong" },
    { text: letter, columns: 2, role: "strong" },
    { text: `${shortMoment(row.at)} ${row.lot}`, columns: columns - 14, role: chosen ? "strong" : "plain" },
    { text: d50 === undefined ? "" : sizeText(d50), columns: 8, align: "right" },
    { text: "", columns: 2 },
  ]);
}

/** The list of tests in as many columns as fit. */
function listOf(rows: readonly IndexRow[], at: number, columns: number): readonly Line[] {
  const wide = columns >= 114 ? 3 : 2;
  const each = Math.floor((columns - 2) / wide);
  const tall = Math.ceil(rows.length / wide);
  return Array.from({ length: tall }, (_, r) =>
    Array.from({ length: wide }, (_, c) => {
      const i = c * tall + r;
      const row = rows[i];
      return row ? testCell(row, LETTERS[i] ?? "?", i === at, each) : [];
    }),
  ).map((tests) => said(tests.flat(), () => tests.map(textOf).join("\n")));
}

/** Passing curves over one another with the envelope, and which letter is which test. */
export function curvesBody(app: App, size: Size): readonly Line[] {
  const place = here(app, "trend");
  const rows = overlaid(app);
  const product = productHere(app, place.product);
  if (rows.length === 0 || product === undefined) return [[], line(say`  no test with a curve has been read`, "dim")];
  const at = chosenAt(app, rows);
  const curves = rows.map(
    (row, i): OverlaidCurve => ({
      letter: LETTERS[i] ?? "?",
      ...curveOfRow(row, product.method?.interpolation ?? "log-linear"),
    }),
  );
  const which = place.marked.length > 0 ? say`the ${rows.length} marked tests` : say`the last ${rows.length} tests`;
  const row = rows[at];
  const verdict = row ? say` · ${LETTERS[at] ?? ""} is no. ${row.number}, ${rowVerdict(row).text}` : "";
  const head = line(say`  passing % of ${which} · chosen ── · limits ▾ ▴${verdict}`, "dim");
  const list = listOf(rows, at, size.columns);
  const chart = overlayChart({
    curves,
    chosen: at,
    envelope: envelopeOf(product),
    width: size.columns - 4,
    height: Math.max(6, size.rows - 1 - list.length),
  });
  const chosen = Object.entries(row?.passingPct ?? {}).map(([um, passingPct]) => ({
    apertureUm: Number(um),
    passingPct,
  }));
  const told = () => curveText(chosen.toSorted((a, b) => b.apertureUm - a.apertureUm));
  return [
    head,
    ...pictured(
      chart.map((text) => line(`  ${text}`)),
      told,
    ),
    ...list,
  ];
}

const choose = (app: App, by: number): Step => {
  const { length } = overlaid(app);
  return put(app, { at: Math.max(0, Math.min(length - 1, here(app, "trend").at + by)) });
};

function many(app: App, by: number): Step {
  const place = here(app, "trend");
  if (place.marked.length > 0) return stay(app, say`the marked tests are shown; u unmarks them all`);
  return put(app, { curves: Math.max(FEWEST_CURVES, Math.min(MOST_CURVES, place.curves + by)), at: 0 });
}

function open(app: App): Step {
  const rows = overlaid(app);
  const row = rows[chosenAt(app, rows)];
  return row ? step(app, { do: "open", row }) : stay(app);
}

export const CURVES_KEYS: readonly Binding[] = [
  { keys: ["enter"], word: "open", help: "Open the chosen test.", does: open },
  { keys: ["up", "left"], word: "test", help: "An older test as the full line.", does: (app) => choose(app, 1) },
  { keys: ["down", "right"], word: "test", help: "A newer one.", does: (app) => choose(app, -1), quiet: true },
  { keys: ["-"], word: "more", help: "One curve more, up to 10.", does: (app) => many(app, 1) },
  { keys: ["+"], word: "fewer", help: "One curve fewer, down to 5.", does: (app) => many(app, -1) },
  {
    keys: ["u"],
    word: "unmark",
    help: "Unmark all tests: the last few are shown again.",
    does: (app) => put(app, { marked: [], at: 0 }),
    refusal: (app) => (here(app, "trend").marked.length === 0 ? say`no test is marked` : null),
  },
  {
    keys: ["escape", "o"],
    word: "back",
    help: "Back to the chart.",
    does: (app) => put(app, { page: "chart", at: 0, on: figureHere(app)?.on ?? null }),
  },
];
