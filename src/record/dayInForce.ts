const DAY_MS = 86_400_000;

/**
 * The day by which revisions come into force: the production day that a moment belongs to, so that none changes in the
 * middle of a night shift. Read off the local time that the moment is written with; before `dayBegins` it is the day before.
 *
 * @example dayInForce("2026-11-24T03:12:05+01:00", "06:00") // => "2026-11-23"
 */
export function dayInForce(at: string, dayBegins: string): string {
  const date = at.slice(0, 10);
  if (at.slice(11, 16) >= dayBegins) return date;
  return new Date(Date.parse(date) - DAY_MS).toISOString().slice(0, 10);
}
