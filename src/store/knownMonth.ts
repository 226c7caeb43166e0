import { z } from "zod";
import type { Break, Link } from "./chainParts.ts";
import type { Disk } from "./disk.ts";
import { indexFolder, indexPath } from "./layout.ts";

const KnownMonthSchema = z.looseObject({
  days: z.record(z.string(), z.looseObject({ entries: z.int().min(0), lastSeal: z.string() })),
  rows: z.array(z.looseObject({ number: z.int(), day: z.string() })),
});

/** What the index of a month knows of the log's days. It is drawn after the days, so it can lag behind, never be ahead. */
export type KnownMonth = z.infer<typeof KnownMonthSchema>;

/** Months that have an index, whether the log has them still or not. */
export async function monthsKnown(folder: string, disk: Disk): Promise<readonly string[]> {
  const names = await disk.list(indexFolder(folder)).catch(() => []);
  return names.flatMap((name) => /^(\d{4}-(?:0[1-9]|1[0-2]))\.json$/.exec(name)?.[1] ?? []);
}

/** Null when there is none that can be read: an index is no record, and that it is gone proves nothing. */
export async function knownMonth(folder: string, month: string, disk: Disk): Promise<KnownMonth | null> {
  try {
    const bytes = await disk.read(indexPath(folder, month));
    return bytes === null ? null : KnownMonthSchema.parse(JSON.parse(new TextDecoder().decode(bytes)));
  } catch {
    return null;
  }
}

/** What an index tells against a day: entries that it knows and the day has not, or has otherwise. Null when it agrees or lags. */
export function dayContradiction(
  file: string,
  known: { readonly entries: number; readonly lastSeal: string } | undefined,
  links: readonly Link[],
  sealOfNth: (n: number) => string | undefined,
): Break | null {
  if (known === undefined || known.entries === 0) return null;
  const short = known.entries - links.length;
  if (short > 0) {
    const count = short === 1 ? "1 entry is" : `${short} entries are`;
    const entry = (links.at(-1)?.number ?? 0) + 1;
    return { file, entry, how: `truncated: ${count} gone from this file, for the index knows ${known.entries} in it` };
  }
  const at = links[known.entries - 1];
  if (at === undefined || sealOfNth(known.entries - 1) === known.lastSeal) return null;
  return { file, entry: at.number, how: `changed: up to entry ${at.number} this file is not as the index knows it` };
}

/** Whether the index of a month says the same as a day of the log: its entries, its end, a row for each of its tests. */
export function dayAgrees(
  { days, rows }: KnownMonth,
  day: string,
  links: readonly Link[],
  sealOfNth: (n: number) => string | undefined,
): boolean {
  const known = days[day];
  const tests = links.filter((link) => "kind" in link && link.kind === "test").map(({ number }) => number);
  const listed = rows.filter((row) => row.day === day).map(({ number }) => number);
  const sameEnd = known?.entries === links.length && known.lastSeal === sealOfNth(links.length - 1);
  return sameEnd && JSON.stringify(tests) === JSON.stringify(listed);
}
