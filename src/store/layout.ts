import { join, relative, sep } from "node:path";

/** Where everything lies in a station's folder. */
export const stationPath = (folder: string): string => join(folder, "station.json");
export const operatorsPath = (folder: string): string => join(folder, "operators.json");
export const screenPath = (folder: string): string => join(folder, "screen.json");
/** The list of people on its way: in force once the log tells of it. */
export const nextOperatorsPath = (folder: string): string => join(folder, "operators.next.json");
export const lockPath = (folder: string): string => join(folder, "station.lock");
export const draftsFolder = (folder: string): string => join(folder, "drafts");
export const draftPath = (folder: string, testId: string): string => join(folder, "drafts", `${testId}.json`);
export const logFolder = (folder: string): string => join(folder, "log");
export const headPath = (folder: string): string => join(folder, "log", "head.json");
export const monthFolder = (folder: string, month: string): string =>
  join(folder, "log", month.slice(0, 4), month.slice(5, 7));
export const dayPath = (folder: string, day: string): string => join(monthFolder(folder, monthOf(day)), `${day}.json`);
export const pagesFolder = (folder: string): string => join(folder, "pages");
export const indexFolder = (folder: string): string => join(folder, "index");
export const indexPath = (folder: string, month: string): string => join(folder, "index", `${month}.json`);
export const amendedPath = (folder: string): string => join(folder, "index", "amended.json");
export const wordsPath = (folder: string): string => join(folder, "index", "words.json");
export const careLedgerPath = (folder: string): string => join(folder, "index", "care.json");
export const libraryFolder = (folder: string, shelf: Shelf): string => join(folder, "library", shelf);
export const libraryPath = (folder: string, shelf: Shelf, name: string): string =>
  join(folder, "library", shelf, `${name}.json`);

export const SHELVES = ["products", "product-drafts", "programs", "sieves", "stacks"] as const;
export type Shelf = (typeof SHELVES)[number];

export const monthOf = (day: string): string => day.slice(0, 7);
export const revisionName = (product: { code: string; revision: number }): string =>
  `${product.code}.rev${product.revision}`;

/** "log/2026/11/2026-11-24.json": how a file of the station is named to people, on every platform. */
export const shortName = (folder: string, path: string): string => relative(folder, path).split(sep).join("/");

/** "TH-0510.rev3.json" -> "TH-0510.rev3"; null for any other name (temporary, set aside, a stranger's). */
export function recordName(fileName: string): string | null {
  const name = /^(.+)\.json$/.exec(fileName)?.[1];
  return name !== undefined && NAME.test(name) ? name : null;
}
const NAME = /^[A-Za-z0-9][A-Za-z0-9._-]{0,60}$/;

/** Names that Windows keeps for devices, whatever follows the first dot. */
const DEVICE = /^(?:con|prn|aux|nul|com\d|lpt\d)(?:\.|$)/i;

/** Why a file can't have this name on every platform; null when it can. */
export function nameRefusal(name: string): string | null {
  if (!NAME.test(name)) return `"${name}" can't name a file`;
  return DEVICE.test(name) ? `"${name}" is a name that Windows keeps for itself; choose another` : null;
}
