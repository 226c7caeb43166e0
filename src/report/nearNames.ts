const MOST_NEAR = 3;
const squeezed = (text: string): string => text.toLowerCase().replace(/[^a-z0-9]/g, "");

/** How many letters must be put in, left out or changed to make one word of another (Levenshtein). */
function lettersApart(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, i) => i);
  for (const [i, letter] of [...a].entries()) {
    const next = [i + 1];
    for (const [j, other] of [...b].entries())
      next.push(Math.min((next[j] ?? 0) + 1, (row[j + 1] ?? 0) + 1, (row[j] ?? 0) + (letter === other ? 0 : 1)));
    row = next;
  }
  return row[b.length] ?? 0;
}

/**
 * Names that somebody may have meant by one that is none: those of which at most a third of the letters differ, or that
 * begin alike; the nearest first, three at most.
 *
 * @example nearNames("rounding ", ["basis", "rounding"]) // => ["rounding"]
 */
export function nearNames(name: string, known: readonly string[]): readonly string[] {
  const wanted = squeezed(name);
  if (wanted === "") return [];
  const near = known.map((one) => ({ one, apart: lettersApart(wanted, squeezed(one)) }));
  const alike = near.filter(
    ({ one, apart }) => apart <= wanted.length / 3 || (wanted.length > 2 && squeezed(one).startsWith(wanted)),
  );
  return alike
    .toSorted((a, b) => a.apart - b.apart)
    .slice(0, MOST_NEAR)
    .map(({ one }) => one);
}
