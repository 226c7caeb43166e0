import type { Key } from "./keys.ts";

const SHORTEST_ENDED = 2;
const SHORTEST_UNENDED = 4;

const isOneKeyHeld = (characters: readonly string[]): boolean => characters.every((c) => c === characters[0]);

/** Tells bursts (scanner, balance, paste without brackets, keys that came together) from single keys, without a clock. */
export interface BurstJoiner {
  take(key: Key): void;
  /** The chunk is over: a lone character goes out at once, a longer run is kept for the next chunk. */
  endChunk(): void;
  /** Nothing followed in time: what is kept goes out. */
  settle(): void;
  /** What is kept: nothing, a run that may go on, or one character over and over, as a held key sends it. */
  keeping(): "nothing" | "run" | "held key";
}

export function createBurstJoiner(onKey: (key: Key) => void): BurstJoiner {
  let run: string[] = [];

  const settle = () => {
    const characters = run;
    run = [];
    if (characters.length >= SHORTEST_UNENDED && !isOneKeyHeld(characters)) {
      onKey({ name: "entry", text: characters.join(""), ended: false });
    } else {
      for (const text of characters) onKey({ name: "char", text });
    }
  };

  return {
    take(key) {
      if (key.name === "char") {
        run.push(key.text);
      } else if (key.name === "enter" && run.length >= SHORTEST_ENDED) {
        const text = run.join("");
        run = [];
        onKey({ name: "entry", text, ended: true });
      } else {
        settle();
        onKey(key);
      }
    },
    endChunk() {
      if (run.length === 1) settle();
    },
    settle,
    keeping: () => (run.length === 0 ? "nothing" : isOneKeyHeld(run) ? "held key" : "run"),
  };
}
