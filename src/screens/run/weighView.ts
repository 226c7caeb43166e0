import { passingChart } from "../../chart/passingChart.ts";
import { changedSievesIn, changedWords } from "../../record/changedSieves.ts";
import { curveText } from "../../report/chartWords.ts";
import { wrapped } from "../../report/columns.ts";
import { apertureText, decimalsOf, massText, pctText } from "../../report/figures.ts";
import { fairLoadOn } from "../../run/fairLoad.ts";
import { minuteToGo } from "../../run/proving.ts";
import { columnOf, type Run } from "../../run/run.ts";
import { envelopeOf, type RowSoFar, type SoFar, soFarOf } from "../../run/soFar.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { beside, cells, type Line, line, pictured, span, unsaid, whereLine, windowAround } from "../line.ts";
import type { App, Size } from "../place.ts";
import { tabled } from "../sentences.ts";
import { markerOf } from "./following.ts";
import { withSieves } from "./sieveColumn.ts";
import { limitShort, soFarSign } from "./soFarLimit.ts";
import { typedMass } from "./typedMass.ts";

const TABLE_COLUMNS = 61;
const MASS_COLUMNS = 9;
const LIMIT_COLUMNS = 11;
/** Below this the curve says nothing, and the table has the place to itself. */
const NARROWEST_CHART = 16;
const NOTES_ROWS = 6;

interface Drawing {
  readonly app: App;
  readonly run: Run;
  readonly decimals: number;
  readonly narrow: boolean;
}

function massCell(drawing: Drawing, row: RowSoFar, column: "emptyG" | "fullG", current: boolean) {
  const { run, decimals } = drawing;
  const inHand = current && columnOf(run.draft.stage) === column;
  if (inHand && run.typed !== "")
    return {
      text: `${typedMass(run, MASS_COLUMNS - 1)}▌`,
      columns: MASS_COLUMNS,
      align: "right",
      role: "field",
    } as const;
  const text = row[column] === null ? (inHand ? "▌" : "") : massText(row[column], decimals);
  return { text, columns: MASS_COLUMNS, align: "right", role: inHand ? "field" : "plain" } as const;
}

function tableRow(drawing: Drawing, row: RowSoFar, current: boolean): Line {
  const { app, run, decimals } = drawing;
  const marker = current ? markerOf(app, run.draft) : " ";
  const open = current && run.typed !== "";
  const net = open || row.netG === null ? "" : massText(row.netG, decimals);
  const passing = open || row.passingPct === null ? "" : `${pctText(row.passingPct)} %`;
  const envelope = limitShort(row, LIMIT_COLUMNS);
  return tabled(heading(), [
    ...cells([
      { text: marker, columns: 2, role: "strong" },
      { text: apertureText(row.apertureUm), columns: 8, role: current ? "strong" : "plain" },
      massCell(drawing, row, "emptyG", current),
      massCell(drawing, row, "fullG", current),
      { text: net, columns: 9, align: "right" },
      { text: passing, columns: 9, align: "right" },
    ]),
    ...(drawing.narrow ? [] : [span(`  ${envelope.padEnd(LIMIT_COLUMNS)}`, "dim"), open ? span("") : soFarSign(row)]),
  ]);
}

const heading = (): Line =>
  cells([
    { text: "", columns: 2 },
    { text: say`aperture`, columns: 8, role: "dim" },
    { text: say`empty g`, columns: MASS_COLUMNS, align: "right", role: "dim" },
    { text: say`full g`, columns: MASS_COLUMNS, align: "right", role: "dim" },
    { text: say`net g`, columns: 9, align: "right", role: "dim" },
    { text: say`  passing`, columns: 9, align: "right", role: "dim" },
    { text: say`  envelope`, columns: 12, role: "dim" },
  ]);

function soFarWords(recovered: string, charge: string | null, { rows }: SoFar): string {
  if (charge === null) return say`  so far ${recovered} g`;
  return rows.every((row) => row.netG !== null)
    ? say`  so far ${recovered} g of ${charge} g charge`
    : say`  so far ${recovered} g of ${charge} g charge; passing % of the charge so far`;
}

function soFarLine(run: Run, soFar: SoFar, decimals: number): Line {
  const charge = run.draft.chargeG === null ? null : massText(run.draft.chargeG, decimals);
  if (run.draft.stage === "weigh empty")
    return charge === null
      ? line(say`  charge not weighed, so no loss can be told: o leads to it`, "strong")
      : line(say`  charge ${charge} g`, "dim");
  return line(soFarWords(massText(soFar.recoveredG, decimals), charge, soFar), "dim");
}

function loadLine({ draft, at }: Run): Line[] {
  const row = draft.weighings[at];
  const fair = draft.stage === "weigh full" && row ? fairLoadOn(draft, row.apertureUm) : null;
  if (!row || !fair) return [];
  const on = apertureText(row.apertureUm);
  const told = fair.determinable
    ? say`  on ${on} up to ${massText(fair.value, 0)} g is a fair load`
    : say`  on ${on} ${spoken(fair.reason)}`;
  return [line(told, "dim")];
}

function minuteLines(now: string, { draft }: Run): Line[] {
  const toGo = draft.stage === "weigh full" ? minuteToGo(draft, Date.parse(now)) : null;
  if (toGo === null) return [];
  const text =
    toGo > 0
      ? say`check minute: ${Math.ceil(toGo)} s to go`
      : say`check minute over: weigh again from the top, Enter keeps a mass`;
  return [line(`  ${text}`, "strong")];
}

const warned = (text: string, columns: number): Line[] =>
  wrapped(`! ${text}`, columns - 3, "  ").map((row) => line(`  ${row}`, "warning"));

/** What was cleaned or repaired since it was weighed empty: the row in hand first, else the coarsest such sieve. */
function changedLines({ draft, at }: Run, columns: number): Line[] {
  const changed = changedSievesIn(draft);
  const own = changed.find(({ apertureUm }) => apertureUm === draft.weighings[at]?.apertureUm);
  const first = own ?? changed[0];
  return first === undefined ? [] : warned(spoken(changedWords(first)), columns);
}

function notes(run: Run, soFar: SoFar, decimals: number, columns: number, now: string): Line[] {
  const { doubt, message } = run;
  const told = doubt
    ? [
        ...warned(spoken(doubt.text), columns),
        line(say`    Enter again accepts it; type another mass to replace it`, "warning"),
        ...(message ? warned(spoken(message), columns) : []),
      ]
    : message
      ? warned(spoken(message), columns)
      : [];
  const noted = run.note === undefined ? [] : [line(`  ${spoken(run.note)}`, "pass")];
  const changed = told.length > 0 ? [] : changedLines(run, columns);
  return [soFarLine(run, soFar, decimals), ...loadLine(run), ...minuteLines(now, run), ...told, ...noted, ...changed];
}

function chart(run: Run, soFar: SoFar, columns: number, rows: number): Line[] {
  const drawn = passingChart({
    points: soFar.points,
    envelope: envelopeOf(run.draft.product),
    passingAt: soFar.passingAt,
    aperturesUm: run.draft.product.stackUm,
    width: columns,
    height: rows,
  });
  return pictured(
    drawn.map((text): Line => [span("│", "dim"), span(text)]),
    () => curveText(soFar.points),
  );
}

/** Weighing: the table of the stack, the field in hand, and the curve as far as it is known. */
export function weighBody(app: App, run: Run, size: Size): Line[] {
  const soFar = soFarOf(run.draft);
  const decimals = decimalsOf(run.draft.balance.readabilityG);
  const narrow = size.columns < TABLE_COLUMNS + 1;
  const drawing: Drawing = { app, run, decimals, narrow };
  const room = Math.max(1, size.rows - 2 - NOTES_ROWS);
  const { from, shown } = windowAround(soFar.rows, run.at, room);
  const table = shown.map((row, i) => tableRow(drawing, row, from + i === run.at));
  const chartColumns = size.columns - TABLE_COLUMNS - 2;
  const withChart = chartColumns >= NARROWEST_CHART && run.draft.stage === "weigh full";
  const upper = withSieves(run, [unsaid(heading()), ...table], from, size.columns - TABLE_COLUMNS);
  const chartRows = Math.min(size.rows - NOTES_ROWS - 1, Math.max(upper.length, 9, Math.floor(chartColumns / 2.5)));
  const top = withChart ? beside(upper, TABLE_COLUMNS, chart(run, soFar, chartColumns, chartRows)) : upper;
  return [...top, whereLine(from, shown, soFar.rows), ...notes(run, soFar, decimals, size.columns, app.now)];
}
