import { type ImportedFile, type ImportReport, refusedCount } from "../store/sharedReport.ts";
import { drawable } from "../terminal/sanitise.ts";

const stateOf = ({ is }: ImportedFile, dryRun: boolean): string => (is === "new" ? (dryRun ? "new" : "loaded") : is);

function fileLines(file: ImportedFile, dryRun: boolean): string[] {
  const { what, why, note } = file;
  const head = `${stateOf(file, dryRun).padEnd(14)}${file.file}${what === null ? "" : `  ${what}`}`;
  const told = [why, note === null ? null : `but ${note}`].filter((text) => text !== null);
  return [head, ...told.map((text) => `              ${text}`)];
}

function countsLine(report: ImportReport): string {
  const count = (state: ImportedFile["is"]): number => report.files.filter(({ is }) => is === state).length;
  const loaded = `${count("new")} ${report.dryRun ? "new" : "loaded"}`;
  return `${loaded}, ${count("already there")} already there, ${refusedCount(report)} refused`;
}

/** What became of each file of a shared folder, and the counts, as a page of text. */
export function productImportPage(report: ImportReport): string {
  const { folder, dryRun, files } = report;
  const head = dryRun ? `${folder}, looked at; nothing is loaded` : folder;
  const lines = [head, ...files.flatMap((file) => fileLines(file, dryRun)), countsLine(report)];
  return `${lines.map(drawable).join("\n")}\n`;
}
