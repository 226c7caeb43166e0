import type { HowSure } from "../assess/howSure.ts";
import { roundHalfAway, significant } from "../grading/rounding.ts";
import { boundsBeside, unitBeside } from "../series/sizesTogether.ts";
import { figureWords } from "../shift/trendFigure.ts";
import type { Sureness } from "../uncertainty/budget.ts";
import { DEFAULT_GUARD, type DecisionRule } from "../uncertainty/decision/decide.ts";
import { figure } from "../words/figures.ts";
import { say } from "../words/say.ts";
import { speaking } from "../words/speaking.ts";
import { spoken } from "../words/spoken.ts";
import { NO_FIGURE, valueText } from "./figures.ts";

type Sure = Sureness & { readonly determinable: true };

const PCT_DECIMALS = 2;

/** A number with as many digits as tables give it: percentages two decimals, everything else as values are shown. */
export const figureText = (value: number, unit: string): string =>
  unit === "%" ? figure(roundHalfAway(value, PCT_DECIMALS)) : valueText({ determinable: true, value, unit });

/** An uncertainty or a distance, without its unit: percentages two decimals, everything else two digits. */
export const spreadText = (spread: number, unit: string): string =>
  figure(unit === "%" ? roundHalfAway(spread, PCT_DECIMALS) : significant(spread, 2));

/** The same with its unit. */
export const spreadWords = (spread: number, unit: string): string =>
  unit === "1" ? spreadText(spread, unit) : `${spreadText(spread, unit)} ${unit}`;

const isKnown = (sure: Sure): boolean => sure.components.some(({ included }) => included);

/** Ends of an interval that is not the number plus and minus its U: it was cut at what can be, or is one of draws. */
const isLopsided = ({ interval, by }: Sure): boolean => interval.cut || by !== undefined;

/** Sizes are shown in mm from 1 mm on, and then so is what stands beside them. */
const isInMm = ({ unit, value }: Sure): boolean => unit === "um" && unitBeside(value).word === "mm";

/** A distance from a number, or a guard band, in the unit in which that number is shown; two digits. */
export function distanceWords(distance: number, { unit, value }: Pick<Sure, "unit" | "value">): string {
  if (unit === "%") return say`${spreadText(distance, unit)} % points`;
  if (unit !== "um") return spreadWords(distance, unit);
  const { um, word } = unitBeside(value);
  return `${figure(significant(distance / um, 2))} ${word}`;
}

/** The bounds of a number with their unit, sizes in that of the number: "690 to 790 um", "2.9 to 3.15 mm"; of others as they are. */
export function boundsSaidOf(range: Bounds, { unit, value }: Pick<Sure, "unit" | "value">): string {
  if (unit !== "um") return boundsSaid(range);
  const { word, ...shown } = boundsBeside(range, unit, value);
  return `${boundsSaid(shown)} ${word}`;
}

interface Bounds {
  readonly min: number | null;
  readonly max: number | null;
}

/** Whether a number stands with the ends of its interval among the draws. */
export const isByDraws = (sure: Sureness | undefined): boolean =>
  sure?.determinable === true && isKnown(sure) && sure.by !== undefined;

function endsText({ interval: { low, high }, unit }: Sure, per: number): string {
  const shown = (end: number) => figure(unit === "%" ? roundHalfAway(end, PCT_DECIMALS) : significant(end / per, 3));
  return `${shown(low)} ${NO_FIGURE} ${shown(high)}`;
}

/**
 * How sure a number is at k = 2, beside the number: "±1.87", or the ends of its interval where plus and minus would say
 * something that can't be (below 0, beyond 100 %) or is not so (draws). A dash where nothing is known. Beside a size that
 * is shown in mm it is in mm and says so.
 *
 * @param asIs in the number's own unit, whatever its size is shown in
 */
export function sureText(sure: Sureness | undefined, asIs = false): string {
  if (!sure?.determinable || !isKnown(sure)) return NO_FIGURE;
  const mm = !asIs && isInMm(sure);
  const [per, unit] = mm ? ([1000, " mm"] as const) : ([1, ""] as const);
  return isLopsided(sure) ? `${endsText(sure, per)}${unit}` : `±${spreadText(sure.U / per, sure.unit)}${unit}`;
}

/** A chance in percent, never 0 or 100 where it is only nearly so. */
export function chanceText(chance: number): string {
  if (chance < 0.001) return figure("< 0.1 %");
  if (chance > 0.999) return figure("> 99.9 %");
  return `${figure(roundHalfAway(100 * chance, chance < 0.1 || chance > 0.9 ? 1 : 0))} %`;
}

/** The ends of the intervals of what passes each sieve, to be drawn about the curve; none where nothing is known. */
export const bandOf = ({ budget }: HowSure): { apertureUm: number; lowPct: number; highPct: number }[] =>
  budget.passing.flatMap((sure) => {
    if (!sure.determinable || !isKnown(sure) || sure.on.kind !== "passingPct") return [];
    const { low, high } = sure.interval;
    return [{ apertureUm: sure.on.apertureUm, lowPct: low, highPct: high }];
  });

/** How sure the passing % at a sieve is; undefined at the pan. */
export const sureAt = ({ budget }: HowSure, apertureUm: number): Sureness | undefined =>
  budget.passing.find(({ on }) => on.kind === "passingPct" && on.apertureUm === apertureUm);

/** How sure anything else is, by its name. */
export const sureOn = ({ budget }: HowSure, name: string): Sureness | undefined =>
  [...budget.asked, ...budget.passing].find((sure) => sure.name === name);

/** "passing 500 um", "d50", "fineness modulus": what a number is called in a sentence. */
export const nameText = (on: string): string => figureWords(on).label;

/** "at least 95", "at most 35", "50 to 75". */
export function boundsSaid({ min, max }: Bounds): string {
  if (min !== null && max !== null) return say`${min} to ${max}`;
  return min === null ? say`at most ${max ?? ""}` : say`at least ${min}`;
}

/** "1.645 u" or "0.5 U". */
export function guardText({ guard = DEFAULT_GUARD }: DecisionRule): string {
  return "z" in guard ? `${guard.z} u` : `${guard.r} U`;
}

/** A component's name within a sentence; German nouns keep their capital. */
export const inSentence = (label: string): string =>
  speaking().language === "de" ? spoken(label) : spoken(label).toLowerCase();
