import { actionLimitG } from "../../care/tare/history.ts";
import { grams } from "../../care/words.ts";
import { controlChart } from "../../chart/controlChart.ts";
import { seriesText } from "../../report/chartWords.ts";
import { type TareDrawing, tareDrawing, tareLegend } from "../../report/sieveTare.ts";
import { dayText, figure, shortMoment } from "../../words/figures.ts";
import { phrase, say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { type Line, line, pictured, unsaid } from "../line.ts";
import type { Size } from "../place.ts";
import type { SievePlace, WithCare } from "./places.ts";
import { type SieveShown, shownOf } from "./shown.ts";
import { told } from "./told.ts";

const LOWEST_CHART = 6;
const HIGHEST_CHART = 18;
/** What the names of the lines take of the width, and the edges. */
const AXIS_COLUMNS = 18;

function captionWords({ drawn, weighings, firstAt, lastAt }: TareDrawing): string {
  const [first, last] = [dayText(firstAt), dayText(lastAt)];
  return drawn === weighings
    ? say`${weighings} empty weighings, ${first} to ${last}, in g`
    : say`latest ${drawn} of ${weighings} empty weighings, ${first} to ${last}, in g`;
}

/** The line of the sieve's own level bears its name; the others a sign and their mass alone. */
const CLEAN = phrase("clean {0}");
const labelShown = (label: string): string => spoken(label.replace(/^clean (.*)$/, CLEAN.replace("{0}", "$1")));

const massesText = (life: SieveShown["life"]): string =>
  seriesText(life?.weighings.map(({ emptyG }) => emptyG) ?? [], "g");

/** What the chart says, in words: the finding, where it begins, and what to do. */
export function emptiesLines(place: WithCare<SievePlace>, { columns, rows }: Size): readonly Line[] {
  const shown = shownOf(place);
  if (shown === null || place.known === null) return told(say`reading ...`, columns, "dim");
  const { condition, life, notes } = shown;
  const { balance } = place.known;
  const drawing = life === null ? null : tareDrawing(life, notes, condition, balance, columns - AXIS_COLUMNS);
  if (drawing === null) return told(say`never weighed empty since it last began anew`, columns, "dim");
  const { tare, together } = condition;
  const limit = figure(grams(tare?.toldFromG ?? actionLimitG(balance), balance.readabilityG));
  const below = [
    unsaid(line(`  ${spoken(tareLegend())}`, "dim")),
    ...(tare === null
      ? []
      : told(
          `${tare.advice === null ? "" : "! "}${spoken(tare.text)}`,
          columns,
          tare.advice === null ? "plain" : "warning",
        )),
    ...(tare?.advice == null ? [] : told(say`do: ${spoken(tare.advice)}`, columns, "strong")),
    ...(together === null ? [] : told(`! ${spoken(together.text)}: ${spoken(together.advice)}`, columns, "warning")),
    ...(rows >= 20 || tare === null || tare.advice === null
      ? told(
          say`A change is told once the sums of many weighings and the last three agree that it is more than ${limit}: one mass alone outside is weighed again. Above clean: grains in the mesh; slowly below: wear; at once: damage or another sieve.`,
          columns,
          "dim",
        )
      : []),
  ];
  const height = Math.min(HIGHEST_CHART, Math.max(LOWEST_CHART, rows - 1 - below.length));
  const drawn = controlChart({
    series: drawing.series,
    lines: drawing.lines.map((one) => ({ ...one, label: labelShown(one.label) })),
    changes: drawing.changes ?? [],
    ends: [shortMoment(drawing.firstAt), shortMoment(drawing.lastAt)],
    width: columns - 4,
    height,
  });
  const chart = pictured(
    drawn.map((text) => line(`  ${text}`)),
    () => massesText(life),
  );
  return [line(`  ${captionWords(drawing)}`, "dim"), ...chart, ...below];
}
