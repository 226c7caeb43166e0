import { actionLimitG } from "../../care/tare/history.ts";
import { grams } from "../../care/words.ts";
import { controlChart } from "../../chart/controlChart.ts";
import { type TareDrawing, tareDrawing, tareLegend } from "../../report/sieveTare.ts";
import { shortMoment } from "../../report/trendWords.ts";
import { say } from "../../words/say.ts";
import { type Line, line } from "../line.ts";
import type { Size } from "../place.ts";
import type { SievePlace, WithCare } from "./places.ts";
import { shownOf } from "./shown.ts";
import { told } from "./told.ts";

const LOWEST_CHART = 6;
const HIGHEST_CHART = 18;
/** What the names of the lines take of the width, and the edges. */
const AXIS_COLUMNS = 18;

function captionWords({ drawn, weighings, firstAt, lastAt }: TareDrawing): string {
  const many = drawn === weighings ? `${weighings}` : `latest ${drawn} of ${weighings}`;
  return say`${many} empty weighings, ${firstAt.slice(0, 10)} to ${lastAt.slice(0, 10)}, in g`;
}

/** What the chart says, in words: the finding, where it begins, and what to do. */
export function emptiesLines(place: WithCare<SievePlace>, { columns, rows }: Size): readonly Line[] {
  const shown = shownOf(place);
  if (shown === null || place.known === null) return told("reading ...", columns, "dim");
  const { condition, life, notes } = shown;
  const { balance } = place.known;
  const drawing = life === null ? null : tareDrawing(life, notes, condition, balance, columns - AXIS_COLUMNS);
  if (drawing === null) return told(say`never weighed empty since it last began anew`, columns, "dim");
  const { tare, together } = condition;
  const limit = grams(tare?.toldFromG ?? actionLimitG(balance), balance.readabilityG);
  const below = [
    line(`  ${tareLegend()}`, "dim"),
    ...(tare === null
      ? []
      : told(`${tare.advice === null ? "" : "! "}${tare.text}`, columns, tare.advice === null ? "plain" : "warning")),
    ...(tare?.advice == null ? [] : told(`do: ${tare.advice}`, columns, "strong")),
    ...(together === null ? [] : told(`! ${together.text}: ${together.advice}`, columns, "warning")),
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
    lines: drawing.lines,
    changes: drawing.changes ?? [],
    ends: [shortMoment(drawing.firstAt), shortMoment(drawing.lastAt)],
    width: columns - 4,
    height,
  });
  return [line(`  ${captionWords(drawing)}`, "dim"), ...drawn.map((text) => line(`  ${text}`)), ...below];
}
