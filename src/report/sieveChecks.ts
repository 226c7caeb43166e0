import { isBeyondY, toleranceYUm } from "../care/inspection/limits.ts";
import type { CheckedOnce } from "../care/reference/history.ts";
import { resultWords } from "../care/reference/referenceCheck.ts";
import { lengthWords } from "../care/words.ts";
import type { ControlDrawing } from "../chart/controlChart.ts";
import { controlGlyphs } from "../chart/controlGlyphs.ts";
import { roundHalfAway } from "../grading/rounding.ts";
import type { Sieve } from "../record/sieve.ts";
import { apertureText, NO_FIGURE, sizesText } from "./figures.ts";

/** Effective apertures of one sieve as a chart draws them, in um. */
export interface ChecksDrawing extends Pick<ControlDrawing, "series" | "lines"> {
  readonly drawn: number;
  readonly firstAt: string;
  readonly lastAt: string;
}

/**
 * The effective aperture of a sieve at each run with a reference material, the latest so many, with the nominal aperture and
 * the mean apertures that Y allows; one beyond Y bears another sign.
 *
 * @returns null where no run told one
 */
export function checksDrawing(
  history: readonly CheckedOnce[],
  sieve: Pick<Sieve, "apertureUm" | "cloth">,
  atMost: number,
): ChecksDrawing | null {
  const told = history.flatMap(({ at, checked: { effectiveUm } }) =>
    effectiveUm.determinable ? [{ at, um: effectiveUm.value }] : [],
  );
  const drawn = told.slice(-atMost);
  const [first, last] = [drawn.at(0), drawn.at(-1)];
  if (first === undefined || last === undefined) return null;
  const { apertureUm } = sieve;
  const y = toleranceYUm(sieve);
  const across = (um: number) => Array<number>(drawn.length).fill(um);
  const line = (kind: "centre" | "control", word: string, um: number) => ({
    kind,
    label: `${word} ${roundHalfAway(um, um < 1000 ? 1 : 0)}`,
    ys: across(um),
  });
  return {
    drawn: drawn.length,
    firstAt: first.at,
    lastAt: last.at,
    series: [drawn.map(({ um }) => ({ y: um, sign: isBeyondY(um, apertureUm, y) ? "signal" : "point" }))],
    lines: [
      line("centre", "nominal", apertureUm),
      ...(y === null ? [] : [line("control", "+Y", apertureUm + y), line("control", "-Y", apertureUm - y)]),
    ],
  };
}

/** What the signs of that chart stand for. */
export function checksLegend(ascii = false): string {
  const { point, signal, centre, control } = controlGlyphs(ascii);
  return `effective aperture ${point}  beyond Y ${signal}  nominal ${centre}${centre}  Y allows up to ${control}${control}`;
}

/** The effective aperture with its range, held against Y where that is known. */
function againstWords({ checked }: CheckedOnce, um: number, sieve: Pick<Sieve, "apertureUm" | "cloth">): string {
  const [like = NO_FIGURE, from = NO_FIGURE, to = NO_FIGURE] = sizesText([um, checked.fromUm, checked.toUm], 1);
  const y = toleranceYUm(sieve);
  if (y === null) return `sieves like ${like} (${from} to ${to})`;
  return isBeyondY(um, sieve.apertureUm, y)
    ? `sieves like ${like} (${from} to ${to}), BEYOND Y (${apertureText(sieve.apertureUm)} +/- ${lengthWords(y)})`
    : `sieves like ${like} (${from} to ${to}), within Y`;
}

/** "agrees (En 0.31): passed 46.20 %, sieves like 712.3 um (708.1 um to 716.4 um), within Y" */
export function checkedWords(once: CheckedOnce, sieve: Pick<Sieve, "apertureUm" | "cloth">): string {
  const { result, en, effectiveUm, foundPct } = once.checked;
  const passed = [resultWords(result, en), `passed ${roundHalfAway(foundPct, 2)} %`].join(": ");
  if (!effectiveUm.determinable) return [passed, effectiveUm.reason].join(", ");
  return [passed, againstWords(once, effectiveUm.value, sieve)].join(", ");
}
