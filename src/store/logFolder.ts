import { join } from "node:path";
import type { Disk } from "./disk.ts";
import { logFolder, monthFolder } from "./layout.ts";

/** Months that have a folder in the log, newest first: one listing a year, however long the log. */
export async function monthsIn(folder: string, disk: Disk): Promise<readonly string[]> {
  const years = (await disk.list(logFolder(folder))).filter((name) => /^\d{4}$/.test(name));
  const months: string[] = [];
  for (const year of years) {
    const names = await disk.list(join(logFolder(folder), year));
    months.push(...names.filter((name) => /^(?:0[1-9]|1[0-2])$/.test(name)).map((name) => `${year}-${name}`));
  }
  return months.sort().reverse();
}

/** Days of a month that have a file, oldest first. */
export async function daysIn(folder: string, month: string, disk: Disk): Promise<readonly string[]> {
  const names = await disk.list(monthFolder(folder, month));
  return names.map((name) => DAY.exec(name)?.[1]).filter((day) => day?.startsWith(month) === true) as string[];
}
const DAY = /^(\d{4}-\d{2}-\d{2})\.json$/;

/** Days of a month whose file could not be read and was set aside. */
export async function daysSetAside(folder: string, month: string, disk: Disk): Promise<readonly string[]> {
  const names = await disk.list(monthFolder(folder, month));
  return names.flatMap((name) => /^(\d{4}-\d{2}-\d{2})\.json\.unreadable/.exec(name)?.[1] ?? []);
}

/** The newest day that has a file, if there is any. */
export async function newestDay(folder: string, months: readonly string[], disk: Disk): Promise<string | null> {
  for (const month of months) {
    const day = (await daysIn(folder, month, disk)).at(-1);
    if (day !== undefined) return day;
  }
  return null;
}

/** Every day of the log, oldest first. */
export async function* allDays(folder: string, disk: Disk): AsyncGenerator<string> {
  for (const month of [...(await monthsIn(folder, disk))].reverse()) yield* await daysIn(folder, month, disk);
}
