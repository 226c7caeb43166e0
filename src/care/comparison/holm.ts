/**
 * Which of several findings stand when all are judged together: Holm's step-down. The smallest p stands if it is at
 * most alpha/m, the next if at most alpha/(m - 1), and so on until one does not; so the chance that any finding is
 * false stays at alpha, however many are looked at.
 *
 * @returns for each p, in its order, whether it stands
 * @source S. Holm, Scand. J. Statist. 6 (1979) 65-70 (memory)
 * @example standing([0.01, 0.04, 0.03], 0.05) // => [true, false, false]
 */
export function standing(ps: readonly number[], alpha: number): boolean[] {
  const order = ps.map((_, i) => i).toSorted((a, b) => (ps[a] ?? 1) - (ps[b] ?? 1));
  const stands = ps.map(() => false);
  for (const [rank, i] of order.entries()) {
    if (!((ps[i] ?? 1) <= alpha / (ps.length - rank))) break;
    stands[i] = true;
  }
  return stands;
}
