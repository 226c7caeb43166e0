import { homedir, tmpdir } from "node:os";
import { pathToFileURL } from "node:url";
import { faultInShort, faultPage } from "../report/faultPage.ts";
import { keepFaultReport } from "../store/faultFile.ts";

/** Where the program is, as far as it has come; told to it while it goes on. */
export interface Whereabouts {
  /** The station's folder, where one is open that lasts. */
  folder: string | null;
  now: () => string;
  /** The place on the screen, by its name. */
  place: () => string;
}

export const atTheStart = (place = "not on the screens yet"): Whereabouts => ({
  folder: null,
  now: () => new Date().toISOString(),
  place: () => place,
});

/** Keeps a report of a fault and answers with what to say of it on standard error, once the terminal is given back. */
export const faultTeller =
  (version: string, at: Whereabouts) =>
  (fault: unknown): string => {
    const moment = at.now();
    const versions = `${version}, node ${process.versions.node}, ${process.platform} ${process.arch}`;
    const page = faultPage({ at: moment, versions, place: at.place(), fault, hidden: hiddenPaths(at.folder) });
    const name = `${moment.slice(0, 19).replaceAll(":", "")}-${process.pid}.txt`;
    const path = keepFaultReport(at.folder, name, page);
    return path === null ? `${said(fault)}No report could be written; this is it:\n${page}` : said(fault) + where(path);
  };

const said = (fault: unknown): string =>
  `Sievewright stopped because of a fault of its own (${faultInShort(fault)}).\n` +
  "Every accepted entry is on disk and nothing recorded is lost: start it again to go on where you were.\n";

const where = (path: string): string => `A report is in ${path}\nGive it to whoever looks after this computer.\n`;

/** The longest first, so that a folder within another is named by its own sign. */
function hiddenPaths(folder: string | null): readonly (readonly [string, string])[] {
  const named = [[folder ?? "", "<station>"] as const, [homedir(), "~"] as const, [tmpdir(), "<temporary>"] as const];
  const both = named.flatMap(([path, sign]) =>
    path === ""
      ? []
      : [
          [path, sign],
          [pathToFileURL(path).href, sign],
        ],
  );
  return both.map(([path = "", sign = ""]) => [path, sign] as const).sort(([a], [b]) => b.length - a.length);
}
