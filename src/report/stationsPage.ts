import type { StationsFigure } from "../assess/stationsTogether.ts";
import { roundHalfAway } from "../grading/rounding.ts";
import { drawable } from "../terminal/sanitise.ts";
import { SIGNS } from "../terminal/signs.ts";
import { inColumns, wrapped } from "./columns.ts";
import { NO_FIGURE } from "./figures.ts";
import { figureLabel, grubbsWords, meanText, outlierText, pairWords, scatterText } from "./replicatesFigures.ts";

type Compared = StationsFigure & { readonly determinable: true };

const WORDS = [
  "Two tests of one sample differ by more than r = 2.8 s_r at one station, by more than R = 2.8 s_R at two, once in twenty pairs.",
  "h: how far a station's mean lies off in the scatter of all means; k: its own scatter against that of all. Critical values of " +
    "ISO 5725-2, tables 4 to 7, computed: beyond the 5 % point a straggler, beyond the 1 % point an outlier. Nothing is left out.",
];

const indented = (text: string, width: number): string[] => wrapped(`    ${text}`, width, "      ");
const two = (number: number | null): string => (number === null ? NO_FIGURE : roundHalfAway(number, 2));

function stationRows({ found, unit }: Compared): string[] {
  const head = ["    station", "tests", "mean", "s", "h", "k", ""];
  const rows = found.stations.map(({ station, count, mean, sd, h, k, hWord, kWord }) => {
    const marks = [
      hWord === null || hWord === "none" ? "" : `h ${outlierText(hWord)}`,
      kWord === null || kWord === "none" ? "" : `k ${outlierText(kWord)}`,
    ];
    const told = marks.filter((mark) => mark !== "").join(", ");
    return [`    ${station}`, `${count}`, meanText(mean, unit), scatterText(sd, unit), two(h), two(k), told];
  });
  return inColumns([head, ...rows]);
}

function testWords({ found }: Compared): string[] {
  const nameOf = (at: number) => found.stations[at]?.station ?? "?";
  const { cochran, grubbs, grubbsPair } = found;
  return [
    cochran === null
      ? "Cochran: can't be tested, that takes two stations that tested more than once and scatter"
      : `Cochran: ${nameOf(cochran.at)} has ${roundHalfAway(cochran.statistic, 3)} of all variance, critical ${roundHalfAway(cochran.critical5, 3)} at 5 %, ${roundHalfAway(cochran.critical1, 3)} at 1 %: ${outlierText(cochran.word)}`,
    grubbs === null
      ? "Grubbs: can't be tested, that takes three stations whose means differ"
      : grubbsWords(grubbs, nameOf),
    ...(grubbsPair === null ? [] : [pairWords(grubbsPair, nameOf)]),
  ];
}

function figureLines(figure: StationsFigure, width: number): string[] {
  if (!figure.determinable)
    return wrapped(`  ${figureLabel(figure.on)}: not compared: ${figure.reason}`, width, "    ");
  const { found, unit } = figure;
  const { mean, sr, sL, sR, r, R } = found;
  const text = (scatter: number) => scatterText(scatter, unit);
  return [
    `  ${figureLabel(figure.on)}: mean ${meanText(mean, unit)}`,
    ...indented(`s_r ${text(sr)}, s_L ${text(sL)}, s_R ${text(sR)}; r ${text(r)}, R ${text(R)}`, width),
    ...stationRows(figure),
    ...testWords(figure).flatMap((words) => indented(words, width)),
  ];
}

/** A page on the same material tested at several stations: repeatability, reproducibility, and which station stands out. */
export function stationsPage(
  title: string,
  figures: readonly StationsFigure[],
  notes: readonly string[],
  width: number,
): string {
  const parts = [
    [title, ...notes.flatMap((note) => wrapped(`  ! ${note}`, width, "    "))],
    ...figures.map((figure) => figureLines(figure, width)),
    [SIGNS.rule.repeat(width), ...WORDS.flatMap((text) => wrapped(text, width, "  "))],
  ];
  return `${parts.map((lines) => lines.map(drawable).join("\n")).join("\n\n")}\n`;
}
