import { checkHistory } from "../../care/reference/history.ts";
import { controlChart } from "../../chart/controlChart.ts";
import { seriesText } from "../../report/chartWords.ts";
import { checkedWords, checksDrawing, checksLegend } from "../../report/sieveChecks.ts";
import { dayText } from "../../words/figures.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { type Line, line, pictured, unsaid } from "../line.ts";
import type { Size } from "../place.ts";
import type { SievePlace, WithCare } from "./places.ts";
import { shownOf } from "./shown.ts";
import { labelled, told } from "./told.ts";

const [LOWEST_CHART, HIGHEST_CHART] = [6, 12];
/** What the names of the lines take of the width, and the edges. */
const AXIS_COLUMNS = 18;
/** Rows for what the latest runs said, at least. */
const LATEST = 3;

/** The effective apertures of a sieve by reference materials: over time against Y, then each run in words, newest first. */
export function checksLines(place: WithCare<SievePlace>, { columns, rows }: Size): readonly Line[] {
  const shown = shownOf(place);
  if (shown === null || place.told === null) return told(say`reading the log ...`, columns, "dim");
  const history = checkHistory(place.serial, place.told.checks);
  if (history.length === 0)
    return told(
      say`never run with a reference material: run one like a test on this stack, then F4 in the list of sieves takes it in`,
      columns,
      "dim",
    );
  const words = history
    .toReversed()
    .flatMap((one) =>
      labelled(
        dayText(one.day),
        say`${one.material}, no. ${one.number}: ${spoken(checkedWords(one, shown.sieve))}`,
        columns,
      ),
    );
  const drawing = checksDrawing(history, shown.sieve, columns - AXIS_COLUMNS);
  if (drawing === null) return words;
  const below = Math.min(words.length, LATEST);
  const drawn = controlChart({
    series: drawing.series,
    lines: drawing.lines,
    ends: [dayText(drawing.firstAt), dayText(drawing.lastAt)],
    width: columns - 4,
    height: Math.min(HIGHEST_CHART, Math.max(LOWEST_CHART, rows - 2 - below)),
  });
  const sizes = drawing.series.flatMap((points) => points.flatMap(({ y }) => (y === null ? [] : [y])));
  return [
    line(`  ${say`effective aperture in um, ${String(drawing.drawn)} of ${String(history.length)} runs`}`, "dim"),
    ...pictured(
      drawn.map((text) => line(`  ${text}`)),
      () => seriesText(sizes, "um"),
    ),
    unsaid(line(`  ${spoken(checksLegend())}`, "dim")),
    ...words,
  ];
}
