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

function lowerWords(from: number | undefined, to: number | undefined, show: Show): string[] {
  if (from === to) return [];
  if (from === undefined) return to === undefined ? [] : [`at least ${show(to)} added`];
  return [to === undefined ? `at least ${show(from)} removed` : `at least ${show(from)} -> ${show(to)}`];
}

function upperWords(from: number | undefined, to: number | undefined, show: Show): string[] {
  if (from === to) return [];
  if (from === undefined) return to === undefined ? [] : [`at most ${show(to)} added`];
  return [to === undefined ? `at most ${show(from)} removed` : `at most ${show(from)} -> ${show(to)}`];
}

/** What became of either side: "at most 12 % -> 10 %", "at least 3 % removed"; empty where both stayed. */
export const boundsChange = (from: Bounds, to: Bounds, show: Show): string =>
  [...lowerWords(from.min, to.min, show), ...upperWords(from.max, to.max, show)].join("; ");
