/** The middle and the worst hundredth of a list of timings. */
export function spread(timings) {
  const sorted = timings.toSorted((a, b) => a - b);
  const at = (share) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))];
  return { median: at(0.5), p99: at(0.99) };
}

export const ms = (n) => `${n.toFixed(2)} ms`;

/** One line of the bench: what, how much, the floor measured in the same run, their ratio, the goal. */
export function row(what, figure, floor, goal) {
  const ratio = floor === null ? "" : `  ${(figure / floor).toFixed(2)}x of ${ms(floor)}`;
  console.log(`${what.padEnd(46)} ${ms(figure).padStart(11)}${ratio}${goal ? `   goal ${goal}` : ""}`);
}
