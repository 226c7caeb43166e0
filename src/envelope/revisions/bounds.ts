import { ARROW } from "./change.ts";

/** Lower and upper limit as a product file has them. */
export interface Bounds {
  readonly min?: number | undefined;
  readonly max?: number | undefined;
}

type Show = (bound: number) => string;

/** "at least 3 %, at most 20 %"; empty where there is no limit. */
export function boundsWords({ min, max }: Bounds, show: Show): string {
  const words = [min === undefined ? [] : [`at least ${show(min)}`], max === undefined ? [] : [`at most ${show(max)}`]];
  return words.flat().join(", ");
}

function sideWords(side: string, from: number | undefined, to: number | undefined, show: Show): string[] {
  if (from === to) return [];
  if (from === undefined) return to === undefined ? [] : [`${side} ${show(to)} added`];
  return [to === undefined ? `${side} ${show(from)} removed` : `${side} ${show(from)} ${ARROW} ${show(to)}`];
}

/** What became of either side: "at most 12 % -> 10 %", "at least 3 % removed"; empty where both stayed. */
export const boundsChange = (from: Bounds, to: Bounds, show: Show): string =>
  [...sideWords("at least", from.min, to.min, show), ...sideWords("at most", from.max, to.max, show)].join("; ");
