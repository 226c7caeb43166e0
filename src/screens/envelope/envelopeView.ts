import { passingChart } from "../../chart/passingChart.ts";
import { type Contradiction, contradictions } from "../../envelope/contradictions.ts";
import { judgeLimit } from "../../envelope/judge.ts";
import { envelopeOf } from "../../envelope/passingBounds.ts";
import { type EditRow, limitOnOf, type Side } from "../../envelope/revisions/edits.ts";
import { wishName, wishUnit } from "../../envelope/revisions/wishChanges.ts";
import { significant } from "../../grading/rounding.ts";
import { determined } from "../../record/determination.ts";
import type { ProductDraft } from "../../record/productDraft.ts";
import { curveText } from "../../report/chartWords.ts";
import { wrapped } from "../../report/columns.ts";
import { apertureText, pctText } from "../../report/figures.ts";
import { figure as figureShown, momentText } from "../../words/figures.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { beside, cells, type Line, line, pictured, span, unsaid, whereLine, windowAround } from "../line.ts";
import type { App, Size } from "../place.ts";
import { tabled } from "../sentences.ts";
import { shortSignOf } from "../words.ts";
import { choicesHere } from "./adding.ts";
import { draftingHere, placeOf, rowsOf, tentative } from "./editing.ts";
import { type Latest, latestOf } from "./latest.ts";
import { shareName } from "./shares.ts";

const TABLE_COLUMNS = 58;
const NARROWEST_CHART = 18;
const NOTE_ROWS = 4;

export function rowName({ on }: EditRow): string {
  if (on.kind === "aperture") return shareName(on.share, apertureText(on.apertureUm));
  const unit = wishUnit(on.wish);
  const name = spoken(wishName(on.wish));
  return unit === "" ? name : `${name} ${unit}`;
}

interface Drawing {
  readonly app: App;
  readonly latest: Latest;
  readonly draft: ProductDraft;
}

function boundCell({ app }: Drawing, row: EditRow, side: Side, current: boolean) {
  const place = placeOf(app);
  const inHand = current && place.side === side;
  const standing = row[side] === undefined ? "" : figureShown(String(row[side]));
  const text = inHand ? `${place.typed === "" ? standing : place.typed}▌` : standing;
  return { text, columns: 10, align: "right", role: inHand ? "field" : "plain" } as const;
}

const figureText = ({ on }: EditRow, figure: number): string =>
  on.kind === "aperture" ? pctText(figure) : figureShown(significant(figure, 3));

function latestCells({ latest, draft }: Drawing, row: EditRow): Line {
  const figure = latest.figure(row.on);
  if (figure === null) return [span("")];
  const decision = { ...(draft.decision ?? {}), rule: "simple" as const };
  const limit = { on: limitOnOf(row.on), min: row.min ?? null, max: row.max ?? null };
  const limited = limit.min !== null || limit.max !== null;
  const { result } = judgeLimit(limit, determined(figure, ""), decision);
  return [span(figureText(row, figure).padStart(10), "dim"), limited ? shortSignOf(result) : span("")];
}

function rowLine(drawing: Drawing, row: EditRow, current: boolean): Line {
  const saved = draftingHere(drawing.app)?.onDisk ?? true;
  return tabled(heading(), [
    ...cells([
      { text: current ? (saved ? "▸" : "…") : "", columns: 2, role: "strong" },
      { text: rowName(row), columns: 23, role: current ? "strong" : "plain" },
      boundCell(drawing, row, "min", current),
      boundCell(drawing, row, "max", current),
    ]),
    ...latestCells(drawing, row),
  ]);
}

const heading = (): Line =>
  cells([
    { text: "", columns: 2 },
    { text: say`limit on`, columns: 23, role: "dim" },
    { text: say`at least`, columns: 10, align: "right", role: "dim" },
    { text: say`at most`, columns: 10, align: "right", role: "dim" },
    { text: say`latest`, columns: 10, align: "right", role: "dim" },
  ]);

function chartLines({ draft, latest }: Drawing, columns: number, rows: number): Line[] {
  const drawn = passingChart({
    points: latest.points,
    envelope: envelopeOf(draft),
    passingAt: latest.passingAt,
    aperturesUm: draft.stackUm,
    width: columns,
    height: rows,
  });
  return pictured(
    drawn.map((text): Line => [span("│", "dim"), span(text)]),
    () => curveText(latest.points),
  );
}

const faultLines = (faults: readonly Contradiction[], columns: number): Line[] =>
  faults.flatMap(({ text, impossible }) =>
    wrapped(`! ${spoken(text)}`, columns - 3, "  ").map((row) => line(`  ${row}`, impossible ? "fail" : "warning")),
  );

function offStack({ app, draft }: Drawing, columns: number): Line[] {
  const row = rowsOf(app)[placeOf(app).at];
  if (row?.on.kind !== "aperture" || draft.stackUm.includes(row.on.apertureUm)) return [];
  const aperture = apertureText(row.on.apertureUm);
  const told = draft.method?.interpolateMissing
    ? say`the stack has no ${aperture} sieve: this limit is read from the curve`
    : say`the stack has no ${aperture} sieve: this limit can't be determined unless the method lets it be read from the curve`;
  return wrapped(told, columns - 3, "  ").map((text) => line(`  ${text}`, "dim"));
}

function latestLines(app: App, columns: number): Line[] {
  const { latest } = placeOf(app);
  if (latest === null) return [line(say`  no test of this product was read to hold against it`, "dim")];
  const { lot, startedAt, product } = latest;
  const told = say`latest ●: lot ${lot}, ${momentText(startedAt)}, judged by rev ${product.revision}`;
  return wrapped(told, columns - 3, "  ").map((text) => line(`  ${text}`, "dim"));
}

function addingLines(app: App, rows: number, columns: number): Line[] {
  const { adding } = placeOf(app);
  if (adding === null) return [];
  if (adding.what === "aperture")
    return [
      [span(say`  new limit on `, "strong"), span(`${adding.text}▌`, "field")],
      ...wrapped(
        say`an aperture (500, 1.4 mm, No. 30); before it retained or coarser, if not what passes`,
        columns - 5,
      ).map((text) => line(`    ${text}`, "dim")),
    ];
  const choices = choicesHere(app);
  const { from, shown } = windowAround(choices, adding.at, Math.max(1, rows - 2));
  return [
    [
      span(say`  new value `, "strong"),
      span(`${adding.text}▌`, "field"),
      span(say`  type to find; d63 is a percentile`, "dim"),
    ],
    ...shown.map((choice, i) =>
      line(
        `  ${from + i === adding.at ? "▸" : " "} ${spoken(choice.label)}`,
        from + i === adding.at ? "strong" : "plain",
      ),
    ),
    ...(choices.length === 0 ? [line(say`    no value of that name`, "warning")] : []),
  ];
}

/** The rows of limits, the envelope alongside as it would be with what is typed, and what doesn't go together. */
export function envelopeBody(app: App, size: Size): readonly Line[] {
  const draft = tentative(app);
  if (draft === null) return [line(say`  the draft has been published or discarded: Esc`, "warning")];
  const drawing: Drawing = { app, draft, latest: latestOf(placeOf(app).latest) };
  const adding = addingLines(app, 8, size.columns);
  const notes = [
    ...faultLines(contradictions(draft), size.columns),
    ...offStack(drawing, size.columns),
    ...latestLines(app, size.columns),
  ];
  const bottom = adding.length > 0 ? adding : notes;
  const room = Math.max(2, size.rows - Math.max(NOTE_ROWS, bottom.length + 1));
  const rows = rowsOf(app);
  const { from, shown } = windowAround(rows, placeOf(app).at, room - 1);
  const table = [unsaid(heading()), ...shown.map((row, i) => rowLine(drawing, row, from + i === placeOf(app).at))];
  const columns = size.columns - TABLE_COLUMNS - 2;
  const top = columns < NARROWEST_CHART ? table : beside(table, TABLE_COLUMNS, chartLines(drawing, columns, room));
  return [...top, whereLine(from, shown, rows), ...bottom];
}
