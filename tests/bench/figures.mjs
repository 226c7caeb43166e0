/** The middle and the worst hundredth of a list of timings. */
export function spread(timings) {
  const sorted = timings.toSorted((a, b) => a - b);
  const at = (share) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))];
  return { median: at(0.5), p99: at(0.99) };
}

export const median = (timings) => spread(timings).median;

export const ms = (n) => `${n.toFixed(n < 100 ? 2 : 0)} ms`;

/** Every line so far, for the page of the docs. */
export const lines = [];

/**
 * One line of the bench: what, how much, the floor measured in the same run, their ratio, the goal.
 * Texts may stand for figures; a goal is told as text, and whether it is met is for the one who measured to say.
 */
export function line({ what, figure, floor = "", ratio = "", goal = "", met = null }) {
  lines.push({ what, figure, floor, ratio, goal, met });
  const judged = met === null ? "" : met ? "  met" : "  MISSED";
  const against = [floor, ratio].filter((text) => text !== "").join(", ");
  console.log(`${what.padEnd(58)} ${figure.padStart(12)}  ${against.padEnd(44)} ${goal}${judged}`);
}

/** A time against a floor of the same run; the goal is the largest ratio, where there is one. */
export function against(what, figure, floor, named, most = null) {
  const ratio = figure / floor;
  line({
    what,
    figure: ms(figure),
    floor: `${ms(floor)} ${named}`,
    ratio: `${ratio.toFixed(2)}x`,
    goal: most === null ? "" : `<= ${most}x`,
    met: most === null ? null : ratio <= most,
  });
}

/** A time with a limit of its own, where there is one. */
export function within(what, figure, most = null) {
  line({
    what,
    figure: ms(figure),
    goal: most === null ? "" : `<= ${most} ms`,
    met: most === null ? null : figure <= most,
  });
}
