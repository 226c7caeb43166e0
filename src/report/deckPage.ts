import type { DeckPerformance } from "../grading/deck/deckPerformance.ts";
import type { Interpolation } from "../record/product.ts";
import { drawable } from "../terminal/sanitise.ts";
import { SIGNS } from "../terminal/signs.ts";
import { inColumns, wrapped } from "./columns.ts";
import {
  classCells,
  cutFigures,
  type DeckFigure,
  RECOVERY_WORDS,
  recoveryFigures,
  STREAMS,
  type StreamName,
  splitFigures,
} from "./deckFigures.ts";

export interface DeckPageHead {
  /** What each stream's sheet is called. */
  readonly names: Readonly<Record<StreamName, string>>;
  readonly interpolation: Interpolation;
  /** What else there is to say of the sheets. */
  readonly notes: readonly string[];
}

export interface DeckPageLook {
  readonly width: number;
  /** The partition curve, drawn, and what its signs mean. */
  readonly chart: readonly string[];
  readonly legend: string;
}

const INDENT = "    ";

/** A page on a screen deck: the split, the three efficiencies by their own names, the cut, the classes, the curve. */
export function deckPage(performance: DeckPerformance, head: DeckPageHead, { width, chart, legend }: DeckPageLook) {
  const figures = [splitFigures(performance), recoveryFigures(performance), cutFigures(performance)];
  const labels = Math.max(...figures.flat().map(({ label }) => label.length));
  const told = [...RECOVERY_WORDS, ...basis(head.interpolation)];
  const parts = [
    ["screen deck", ...inColumns(STREAMS.map((stream) => [`  ${stream}`, drawable(head.names[stream])]))],
    ...figures.map((rows) => rows.flatMap((row) => figureLines(row, labels, width))),
    [
      ...wrapped("shares in % by mass of each stream; goes over: % of the class", width, "  "),
      ...inColumns(classCells(performance)),
    ],
    [`partition curve: % that goes over, by size   ${legend}`, ...chart.map((row) => row.trimEnd())],
    head.notes.flatMap((note) => wrapped(`! ${drawable(note)}`, width, "  ")),
    [SIGNS.rule.repeat(width), ...told.flatMap((sentence) => wrapped(sentence, width, "  "))],
  ];
  const filled = parts.filter((lines) => lines.length > 0);
  return `${filled.map((lines) => lines.join("\n")).join("\n\n")}\n`;
}

function figureLines({ label, text, told }: DeckFigure, labels: number, width: number): string[] {
  const below = told.flatMap((words) => wrapped(INDENT + words, width, INDENT));
  return [`${label.padEnd(labels)}  ${text}`, ...below];
}

const basis = (interpolation: Interpolation): readonly string[] => [
  "The share of oversize is drawn from all size classes at once, by least squares; +/- is one standard error and speaks " +
    "of the misfit alone. Classes stand at their geometric middles.",
  `The partition curve is read ${interpolation} between them and never beyond them.`,
  "The three samples must belong together: same time, same sieves, each one for its whole stream.",
];
