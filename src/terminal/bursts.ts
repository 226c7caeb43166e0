import type { Key } from "./keys.ts";

const SHORTEST_ENDED = 2;
const SHORTEST_UNENDED = 4;

const isOneKeyHeld = (characters: readonly string[]): boolean => characters.every((c) => c === characters[0]);

/** Whether a character would do something instead of being typed: such a one is not let out before it is known to be alone. */
export type Acts = (text: string) => boolean;

/** Tells bursts (scanner, balance, paste without brackets, keys that came together) from single keys, without a clock. */
export interface BurstJoiner {
  take(key: Key): void;
  /** The chunk is over: a lone character that only types goes out at once, anything else is kept for the next chunk. */
  endChunk(): void;
  /** Nothing followed at once: one character that is kept is no burst with an Enter that follows later. */
  falter(): void;
  /** Nothing followed in time: what is kept goes out. */
  settle(): void;
  /** What is kept: nothing, a run that may go on, or one character over and over, as a held key sends it. */
  keeping(): "nothing" | "run" | "held key";
}

export function createBurstJoiner(onKey: (key: Key) => void, acts: Acts = () => false): BurstJoiner {
  /** What went out already and may have been the beginning of a burst; what is kept behind it. */
  let led: string[] = [];
  let run: string[] = [];
  /** An end has just been taken: a second one right behind it belongs to it, as Tab and Enter of one scanner do. */
  let justEnded = false;
  let isLone = false;

  const entry = (ended: boolean) => {
    const [text, before] = [run.join(""), led.join("")];
    [led, run] = [[], []];
    onKey(before === "" ? { name: "entry", text, ended } : { name: "entry", text, ended, led: before });
  };

  const settle = () => {
    justEnded = false;
    const whole = [...led, ...run];
    if (run.length > 0 && whole.length >= SHORTEST_UNENDED && !isOneKeyHeld(whole)) return entry(false);
    const characters = run;
    [led, run] = [[], []];
    for (const text of characters) onKey({ name: "char", text });
  };

  const isBurst = (): boolean =>
    led.length + run.length >= SHORTEST_ENDED || (run[0] !== undefined && !isLone && acts(run[0]));

  const end = (key: Key) => {
    if (justEnded) return;
    const burst = isBurst();
    if (burst && run.length > 0) entry(true);
    else {
      settle();
      onKey(burst ? { name: "enter" } : key);
    }
    justEnded = burst;
  };

  return {
    take(key) {
      if (key.name === "enter" || key.name === "tab") return end(key);
      if (key.name !== "char") {
        settle();
        return onKey(key);
      }
      justEnded = false;
      isLone = false;
      run.push(key.text);
    },
    endChunk() {
      const [text] = run;
      if (text === undefined || run.length > 1 || acts(text) || !isOneKeyHeld([...led, text])) return;
      run = [];
      led.push(text);
      onKey({ name: "char", text });
    },
    falter() {
      isLone = run.length === 1;
    },
    settle,
    keeping: () => (run.length === 0 ? "nothing" : isOneKeyHeld(run) ? "held key" : "run"),
  };
}
