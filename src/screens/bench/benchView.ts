import { trendChart } from "../../chart/trendChart.ts";
import { determined } from "../../record/determination.ts";
import type { Draft } from "../../record/draft.ts";
import { type IndexRow, isCounted } from "../../record/indexRow.ts";
import { seriesText } from "../../report/chartWords.ts";
import { wrapped } from "../../report/columns.ts";
import { pctText, sizeText, valueText } from "../../report/figures.ts";
import { secondsToGo } from "../../run/shake.ts";
import { USUAL_OWNER } from "../../shift/holdReason.ts";
import type { HoldOpened } from "../../shift/holds.ts";
import { clockText, shortMoment } from "../../words/figures.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { apart, type Cell, cells, type Line, line, pictured, span, unsaid } from "../line.ts";
import type { App, Size } from "../place.ts";
import { practiceSpan } from "../practice/practice.ts";
import { here } from "../room.ts";
import { stageWord } from "../run/stageWords.ts";
import { tabled } from "../sentences.ts";
import { markSpan } from "../stackMarks.ts";
import { dispositionNow, holdReasonText, rowStanding, rowVerdict } from "../words.ts";
import { careLines } from "./careView.ts";
import { dueLines } from "./dueView.ts";
import { type BenchItem, benchItems, HOLDS_SHOWN } from "./items.ts";

function stageText(app: App, draft: Draft): string {
  const column = draft.stage === "weigh empty" ? "emptyG" : "fullG";
  const weighed = draft.weighings.filter((w) => w[column] !== null).length;
  const all = draft.weighings.length;
  if (draft.stage === "weigh empty") return say`weigh empty, ${weighed} of ${all} done`;
  if (draft.stage === "weigh full") return say`weigh full, ${weighed} of ${all} done`;
  const toGo = secondsToGo(draft.shaking, Date.parse(app.now));
  if (draft.stage !== "shake" || draft.shaking.startedAt === null) return stageWord(draft.stage);
  return toGo === null
    ? say`shaking`
    : toGo === 0
      ? say`shaken: time is up`
      : say`shaking, ${Math.ceil(toGo / 60)} min to go`;
}

const marker = (chosen: boolean) => ({ text: chosen ? "▸" : "", columns: 2, role: "strong" }) as const;

function draftLine(app: App, draft: Draft, chosen: boolean): Line {
  const mark = markSpan(app, draft);
  return cells([
    marker(chosen),
    ...(mark
      ? [
          { ...mark, columns: 3 },
          { text: " ", columns: 1 },
        ]
      : []),
    { text: say`resume`, columns: mark ? 7 : 8, role: "strong" },
    { text: draft.product.code, columns: 9 },
    { text: say`lot ${draft.lot}`, columns: 15 },
    { text: draft.line, columns: 15 },
    { text: stageText(app, draft), columns: 28, role: "strong" },
  ]);
}

/** It is no test in work: no mark comes to it, x takes it up. */
function practiceLine(app: App): Line[] {
  if (!app.practice) return [];
  const words = say`${app.practice.product.code}, ${stageText(app, app.practice)}: x takes it up`;
  return [[span("  "), practiceSpan(), span(`  ${words}`)]];
}

const shownOf = (row: IndexRow) => {
  if (row.amended?.voided) return { d50: "–", modulus: "–", loss: "–" };
  const d50 = row.values["percentileUm@50"];
  const modulus = row.values.finenessModulus;
  return {
    d50: d50 === undefined ? "–" : sizeText(d50),
    modulus: modulus === undefined ? "–" : valueText(determined(modulus, "1")),
    loss: row.lossPct === null ? "–" : `${pctText(row.lossPct, 2)} %`,
  };
};

/** Where there is no room for all, a test that was corrected says so in place of its modulus and loss. */
function figureCells(row: IndexRow, wide: boolean): Cell[] {
  const { d50, modulus, loss } = shownOf(row);
  const standing = rowStanding(row);
  const said: Cell = { text: standing, columns: 14, align: "right", role: "warning" };
  const figures: Cell[] = [
    { text: modulus, columns: 6, align: "right" },
    { text: loss, columns: 8, align: "right" },
  ];
  return [
    { text: d50, columns: 8, align: "right" },
    ...(standing === "" || wide ? figures : [said]),
    ...(wide ? [{ text: `  ${standing}`, columns: 20, role: "warning" as const }] : []),
  ];
}

function testLine(row: IndexRow, holds: App["holds"], chosen: boolean, wide: boolean): Line {
  const verdict = rowVerdict(row);
  const drawn = cells([
    marker(chosen),
    { text: shortMoment(row.at), columns: 12 },
    apart(row.product, 9),
    apart(row.lot, wide ? 14 : 9),
    ...(wide ? [apart(row.line, 15)] : []),
    { text: verdict.text, columns: 13, role: verdict.role },
    ...figureCells(row, wide),
    { text: `  ${dispositionNow(holds, row)}`, columns: 13 },
  ]);
  return tabled(heading(wide), drawn);
}

function holdLine(hold: HoldOpened, chosen: boolean): Line {
  const { product, lot, line: on, owner } = hold;
  return cells([
    marker(chosen),
    { text: say`hold !`, columns: 8, role: "warning" },
    { text: product, columns: 9 },
    { text: say`lot ${lot}`, columns: 15 },
    { text: on, columns: 15 },
    { text: `${owner === USUAL_OWNER ? spoken(owner) : owner}: ${holdReasonText(hold)}`, columns: 44, role: "dim" },
  ]);
}

/** Holds that have no row of their own are counted. */
const moreHolds = ({ holds }: App): Line[] =>
  holds.length > HOLDS_SHOWN
    ? [line(say`          and ${holds.length - HOLDS_SHOWN} more holds: h shows them`, "warning")]
    : [];

function itemLine(app: App, item: BenchItem, chosen: boolean, wide: boolean): Line {
  if (item.kind === "draft") return draftLine(app, item.draft, chosen);
  if (item.kind === "hold") return holdLine(item.hold, chosen);
  if (item.kind === "test") return testLine(item.row, app.holds, chosen, wide);
  return cells([marker(chosen), { text: say`new test`, columns: 20, role: "strong" }]);
}

const heading = (wide: boolean): Line =>
  cells([
    { text: "", columns: 2 },
    { text: say`recorded`, columns: 12, role: "dim" },
    { text: say`product`, columns: 9, role: "dim" },
    { text: say`lot`, columns: wide ? 14 : 9, role: "dim" },
    ...(wide ? [{ text: say`line`, columns: 15, role: "dim" as const }] : []),
    { text: say`verdict`, columns: 13, role: "dim" },
    { text: "d50", columns: 8, align: "right" as const, role: "dim" as const },
    { text: say`FM`, columns: 6, align: "right" as const, role: "dim" as const },
    { text: say`loss`, columns: 8, align: "right" as const, role: "dim" as const },
  ]);

/** The d50 of the product tested last, over its latest tests, with the limits that its product sets on it. */
function trend(app: App, columns: number, rows: number): Line[] {
  const code = app.recent?.[0]?.product;
  const product = app.products.find((p) => p.code === code);
  const sizes = (app.recent ?? [])
    .filter((row) => row.product === code && isCounted(row))
    .flatMap((row) => row.values["percentileUm@50"] ?? [])
    .slice(0, 24)
    .toReversed();
  if (sizes.length < 3 || rows < 5 || !product) return [];
  const wish = product.values?.find((v) => v.id === "percentileUm" && v.passingPct === 50);
  const limits = {
    ...(wish?.min === undefined ? {} : { min: wish.min }),
    ...(wish?.max === undefined ? {} : { max: wish.max }),
  };
  const caption = captionOf(product.code, sizes.length, limits);
  const drawn = trendChart(sizes, { ...limits, width: Math.min(columns - 4, 72), height: Math.min(rows - 1, 6) });
  const told = () => `${caption.trim()}: ${seriesText(sizes, "um")}`;
  return [
    unsaid(line(caption, "dim")),
    ...pictured(
      drawn.map((text) => line(`  ${text}`)),
      told,
    ),
  ];
}

/** What the curve shows, with the limits there are. */
function captionOf(
  code: string,
  tests: number,
  { min, max }: { readonly min?: number; readonly max?: number },
): string {
  if (min !== undefined && max !== undefined)
    return say`  ${code} d50 in um, last ${tests} tests, limits ${min} to ${max}`;
  const only = min ?? max;
  return only === undefined
    ? say`  ${code} d50 in um, last ${tests} tests`
    : say`  ${code} d50 in um, last ${tests} tests, limits ${only}`;
}

function recentNote(app: App): Line[] {
  if (app.recent === null) return [line(say`    reading the log ...`, "dim")];
  return app.recent.length === 0 ? [line(say`    no test on record yet: n sets the first one out`, "dim")] : [];
}

/** In full: what to do stands at the end. */
const warned = (text: string, columns: number): Line[] =>
  wrapped(`! ${text}`, columns - 3, "  ").map((row) => line(`  ${row}`, "warning"));

/** What another window records meanwhile is not seen here until it is read again. */
const readOnlyWords = (reason: string, { readAt }: App): string =>
  readAt === undefined
    ? say`read only: ${spoken(reason)}`
    : say`read only, as of ${clockText(readAt)} (r reads again): ${spoken(reason)}`;

/** The bench: what is in work, what was recorded lately, how the last product runs. */
export function benchBody(app: App, size: Size): readonly Line[] {
  const place = here(app, "bench");
  const wide = size.columns >= 100;
  const items = benchItems(app);
  const at = Math.min(place.at, items.length - 1);
  const drawn = items.map((item, i) => itemLine(app, item, i === at, wide));
  const firstTest = items.findIndex((item) => item.kind === "test");
  const inWork = firstTest < 0 ? drawn : drawn.slice(0, firstTest);
  const recorded = firstTest < 0 ? [] : drawn.slice(firstTest);
  const told = [...(app.readOnly ? [readOnlyWords(app.readOnly, app)] : []), ...app.problems.slice(-2).map(spoken)];
  const demo = app.station.demo
    ? [[span("  "), span(say`demo station: every name, test and figure here is invented`, "dim")]]
    : [];
  const upper = [
    ...demo,
    ...told.flatMap((text) => warned(text, size.columns)),
    [],
    ...inWork,
    ...practiceLine(app),
    ...moreHolds(app),
    ...dueLines(app, wide ? 6 : 3),
    ...careLines(app, wide ? 6 : 3, wide),
    [],
    unsaid(heading(wide)),
    ...recorded,
    ...recentNote(app),
    [],
  ];
  return [...upper, ...trend(app, size.columns, size.rows - upper.length)];
}
