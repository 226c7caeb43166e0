/** Sum of the squares that a change of a given course leaves unexplained; its height is fitted. */
function leftBy(moves: readonly number[], course: readonly number[]): number {
  const power = course.reduce((sum, c) => sum + c * c, 0);
  const height = power === 0 ? 0 : course.reduce((sum, c, i) => sum + c * (moves[i] ?? 0), 0) / power;
  return moves.reduce((sum, move, i) => sum + (move - height * (course[i] ?? 0)) ** 2, 0);
}

/**
 * Did a mass change in one step or slowly? Each way is fitted from every weighing on at which it could have begun;
 * the way that leaves less unexplained is told, a step at a tie.
 *
 * @param moves departures from the level in g, oldest first, beginning somewhat before the change
 * @returns the way and the index with which it began
 * @source least squares; own choice, no source
 * @example shapeOf([0, 0, 0, 5, 5, 5]) // => { way: "step", from: 3 }
 * @example shapeOf([0, 0, 1, 2, 3, 4]) // => { way: "slow", from: 2 }
 */
export function shapeOf(moves: readonly number[]): { readonly way: "step" | "slow"; readonly from: number } {
  const last = moves.length - 1;
  const starts = moves.map((_, from) => ({
    from,
    step: leftBy(
      moves,
      moves.map((_, i) => (i >= from ? 1 : 0)),
    ),
    slow:
      last - from < 2
        ? Number.POSITIVE_INFINITY
        : leftBy(
            moves,
            moves.map((_, i) => Math.max(0, i - from + 1)),
          ),
  }));
  const step = starts.reduce((best, one) => (one.step < best.step ? one : best));
  const slow = starts.reduce((best, one) => (one.slow < best.slow ? one : best));
  return slow.slow < step.step ? { way: "slow", from: slow.from } : { way: "step", from: step.from };
}
