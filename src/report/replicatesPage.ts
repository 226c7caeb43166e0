import type { RepeatedTests } from "../assess/repeatedTests.ts";
import { drawable } from "../terminal/sanitise.ts";
import { SIGNS } from "../terminal/signs.ts";
import { inColumns, wrapped } from "./columns.ts";
import { NO_FIGURE } from "./figures.ts";
import { figureLabel, honestyCell, meanText, scatterText, timesStated } from "./replicatesFigures.ts";
import {
  HONEST_WORDS,
  isNoteworthy,
  LIMIT_WORDS,
  OUTLIER_WORDS,
  repeatedWords,
  statedWords,
  togetherWords,
} from "./replicatesWords.ts";

const indented = (text: string, width: number): string[] => wrapped(`  ${text}`, width, "    ");

function tableOf({ figures }: RepeatedTests): string[] {
  const head = ["  figure", "mean", "s_r", "r", "stated", "times", "scatter"];
  const rows = figures.map((figure) => {
    if (!figure.determinable) return [`  ${figureLabel(figure.on)}`, NO_FIGURE, "", "", "", "", "?"];
    const { found, unit } = figure;
    return [
      `  ${figureLabel(figure.on)}`,
      meanText(found.mean, unit),
      scatterText(found.sr, unit),
      scatterText(found.r, unit),
      scatterText(found.honesty?.u ?? null, unit),
      timesStated(figure),
      honestyCell(figure),
    ];
  });
  return inColumns([head, ...rows]);
}

/** A page on repeated tests of one sample: repeatability of every figure, and what stands out. */
export function replicatesPage(told: RepeatedTests, width: number): string {
  const { tests, leftOut, figures } = told;
  const [first] = tests;
  const nameOf = (at: number) => `no. ${tests[at]?.number ?? "?"}`;
  const lots = [...new Set(tests.map(({ lot }) => lot))];
  const missing = statedWords(told);
  const parts = [
    [
      `repeated tests of ${first?.product.code ?? ""} revision ${first?.product.revision ?? ""}, lot ${lots.join(", ")}`,
      ...indented(`${tests.length} tests: ${tests.map(({ number }) => `no. ${number}`).join(", ")}`, width),
      ...leftOut.flatMap(({ number, reason }) => indented(`! left out: no. ${number}, ${reason}`, width)),
    ],
    tableOf(told),
    togetherWords(told).flatMap((text) => wrapped(text, width, "  ")),
    figures.filter(isNoteworthy).flatMap((figure) => {
      const [head = "", ...more] = repeatedWords(figure, nameOf);
      return [...indented(head, width), ...more.flatMap((text) => wrapped(`    ${text}`, width, "      "))];
    }),
    [
      SIGNS.rule.repeat(width),
      ...[LIMIT_WORDS, HONEST_WORDS, ...(missing === null ? [] : [missing]), OUTLIER_WORDS].flatMap((text) =>
        wrapped(text, width, "  "),
      ),
    ],
  ];
  const filled = parts.filter((lines) => lines.length > 0);
  return `${filled.map((lines) => lines.map(drawable).join("\n")).join("\n\n")}\n`;
}
