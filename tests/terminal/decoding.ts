import { createKeyDecoder, type KeyDecoder } from "../../src/terminal/keyDecoder.ts";
import type { Key } from "../../src/terminal/keys.ts";

/** A decoder on a clock that the test winds. */
export interface Decoding extends KeyDecoder {
  /** Keys delivered since the last time this was asked, each as one word: `5`, `enter`, `<12.5>` for an entry, `<12.5]` for an ended one. */
  heard(): string[];
  /** The entries among them, as they are; empties the list of keys too. */
  entries(): Key[];
  passes(ms: number): void;
}

export const wordOf = (key: Key): string =>
  key.name === "char" ? key.text : key.name === "entry" ? `<${key.text}${key.ended ? "]" : ">"}` : key.name;

/** @param acts which characters would act; none without it */
export function decoding(acts?: (text: string) => boolean): Decoding {
  let keys: Key[] = [];
  let now = 0;
  const timers = new Map<number, { at: number; run: () => void }>();
  let count = 0;
  const decoder = createKeyDecoder({
    onKey: (key) => keys.push(key),
    ...(acts ? { acts } : {}),
    setTimer: (run, ms) => {
      count += 1;
      timers.set(count, { at: now + ms, run });
      return count;
    },
    clearTimer: (timer) => timers.delete(timer as number),
  });
  return {
    ...decoder,
    heard() {
      const words = keys.map(wordOf);
      keys = [];
      return words;
    },
    entries() {
      const entries = keys.filter(({ name }) => name === "entry");
      keys = [];
      return entries;
    },
    passes(ms) {
      const until = now + ms;
      for (;;) {
        const [next] = [...timers].filter(([, t]) => t.at <= until).sort(([, a], [, b]) => a.at - b.at);
        if (!next) break;
        timers.delete(next[0]);
        now = next[1].at;
        next[1].run();
      }
      now = until;
    },
  };
}

/** All keys of some chunks that come at once, one behind the other. */
export function keysOf(...chunks: (string | Uint8Array)[]): string[] {
  const d = decoding();
  for (const chunk of chunks) d.write(chunk);
  d.passes(5000);
  return d.heard();
}

/** Entries taken apart into the keys they stand for, to compare streams that were cut differently. */
export const takenApart = (words: readonly string[]): string[] =>
  words.flatMap((word) =>
    /^<.+[\]>]$/s.test(word) ? [...word.slice(1, -1), ...(word.endsWith("]") ? ["enter"] : [])] : [word],
  );
