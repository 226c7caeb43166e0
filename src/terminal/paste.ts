import type { Key } from "./keys.ts";

const PASTE_END = "\x1b[201~";
const LONGEST_PASTE = 4096;

/**
 * A paste's text as an entry: line breaks, tabs and runs of them become one space, other control characters go, the
 * line end or tab that closes it is swallowed and told by `ended`; at most 4096 characters are kept. null if nothing is left.
 */
export function entryOfPaste(pasted: string): Key | null {
  const ended = /[\r\n\t]\s*$/.test(pasted);
  const text = pasted
    .replace(/[\t\r\n]+/g, " ")
    .replace(/[\x00-\x1f\x7f-\x9f]/g, "")
    .slice(0, LONGEST_PASTE)
    .replace(/\p{Surrogate}/gu, "\ufffd")
    .trim();
  return text === "" ? null : { name: "entry", text, ended };
}

/** Gathers a bracketed paste that may come in many chunks; of an endless one it keeps the start and the last few bytes. */
export interface PasteGatherer {
  /** Takes text from `start` on; returns where the paste's end mark ends, or null while the paste goes on. */
  gather(text: string, start: number): number | null;
  finish(): Key | null;
}

export function gatherPaste(): PasteGatherer {
  let pasted = "";
  return {
    gather(text, start) {
      const before = pasted.length;
      pasted += text.slice(start);
      const end = pasted.indexOf(PASTE_END, Math.max(0, before - PASTE_END.length));
      if (end >= 0) {
        pasted = pasted.slice(0, end);
        return start + end + PASTE_END.length - before;
      }
      if (pasted.length > 2 * LONGEST_PASTE) {
        pasted = pasted.slice(0, LONGEST_PASTE) + pasted.slice(-PASTE_END.length);
      }
      return null;
    },
    finish: () => entryOfPaste(pasted),
  };
}
