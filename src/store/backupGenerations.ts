/** A file of an automatic copy lies under its own path with the beginning of its SHA-256: versions stand side by side. */
export const keptName = (path: string, sha256: string): string => `${path}.${sha256.slice(0, 16)}`;

/** An automatic copy, as the name of its manifest tells: when it was made and where the log ended then. */
export interface Generation {
  readonly name: string;
  /** "2026-11-24T05-58-12Z" */
  readonly madeAt: string;
  readonly madeMs: number;
  readonly number: number;
  /** The first twelve digits of the seal. */
  readonly seal: string;
}

const NAME = /^(\d{4}-\d{2}-\d{2}T\d{2}-\d{2}-\d{2}Z)\.no(\d{1,15})\.([0-9a-f]{12})\.json$/;

export function generationName(madeMs: number, head: { readonly number: number; readonly seal: string }): string {
  const madeAt = `${new Date(madeMs).toISOString().slice(0, 19).replaceAll(":", "-")}Z`;
  return `${madeAt}.no${head.number}.${head.seal.slice(0, 12)}.json`;
}

/**
 * What the names in a folder of copies tell, oldest first: by where the log ended, which only grows, and by the clock, which
 * may have been wrong, only among those of the same end; names that are none of ours are passed over.
 */
export function generationsIn(names: readonly string[]): readonly Generation[] {
  const found = names.flatMap((name) => {
    const [, madeAt = "", number = "", seal = ""] = NAME.exec(name) ?? [];
    const madeMs = Date.parse(madeAt.replace(/T(\d\d)-(\d\d)-(\d\d)Z$/, "T$1:$2:$3Z"));
    return Number.isFinite(madeMs) ? [{ name, madeAt, madeMs, number: Number(number), seal }] : [];
  });
  return found.sort((a, b) => a.number - b.number || a.madeMs - b.madeMs);
}

/**
 * Which automatic copies go, so that at most `keep` stay: of days gone by all but their last; of the latest day the older
 * ones when they alone would take more than half of the room; then the oldest. A copy that knows entries which the log
 * hasn't any more is never dropped: it may be all that is left of them.
 *
 * @param made the name of the copy that was just made, which stays and is the latest whatever the clock said before
 */
export function generationsToDrop(
  generations: readonly Generation[],
  keep: number,
  logEnd: number,
  made?: string,
): readonly Generation[] {
  const known = generations.filter(({ number }) => number <= logEnd);
  const free = [...known.filter(({ name }) => name !== made), ...known.filter(({ name }) => name === made)];
  const latestDay = free.at(-1)?.madeAt.slice(0, 10);
  const lastOfDay = free.filter((one, i) => one.madeAt.slice(0, 10) !== free[i + 1]?.madeAt.slice(0, 10));
  const ofLatest = free.filter(({ madeAt }) => madeAt.slice(0, 10) === latestDay);
  const stayOfLatest = ofLatest.slice(-Math.max(1, Math.ceil(keep / 2)));
  const ofBefore = lastOfDay.filter(({ madeAt }) => madeAt.slice(0, 10) !== latestDay);
  const stay = new Set([...ofBefore, ...stayOfLatest].slice(-Math.max(1, keep)));
  return free.filter((one) => !stay.has(one));
}
