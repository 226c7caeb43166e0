import { createAlarm, type Timers } from "./alarm.ts";
import { type Acts, createBurstJoiner } from "./bursts.ts";
import type { Key } from "./keys.ts";
import { createTokeniser } from "./tokeniser.ts";

export interface KeyDecoderOptions extends Timers {
  readonly onKey: (key: Key) => void;
  /** Whether a character would do something just now instead of being typed; without it none does. */
  readonly acts?: Acts;
  /** How long the rest of an escape sequence may take; after that an ESC is the Escape key. */
  readonly escapeMs?: number;
  /** How long the rest of a burst may take. */
  readonly joinMs?: number;
  /** How long a bracketed paste may pause before it counts as ended. */
  readonly pasteMs?: number;
}

export interface KeyDecoder {
  write(chunk: Uint8Array | string): void;
  /** No more will come: everything held goes out, timers are cleared. */
  end(): void;
}

/** What is kept back may falter for longer: of a burst that is split, letters would act. */
const KEPT_TIMES = 2;
/** A quick hand may press a letter and then Enter, though never within this. */
const LONE_MS = 10;

/**
 * Bytes of the terminal to keys, each delivered exactly once and in order. Never throws, whatever the bytes; unknown
 * sequences and control characters that are no key are dropped.
 *
 * Enter is CR, LF, CR LF (one Enter) or the keypad's Enter. ESC is Escape if nothing that makes it a sequence follows
 * within `escapeMs` (50 ms). The keypad types digits, signs and Enter in normal and in application mode. Bytes that are
 * no UTF-8 come as U+FFFD, so that the operator sees them.
 *
 * Bursts:
 * - Characters that follow one another within `joinMs` (30 ms), in one chunk or one by one as a keyboard wedge sends them,
 *   are a run; behind what is kept back already they may be twice as late. No hand types so fast.
 * - Two or more of them and an Enter or a Tab are one `entry`, `ended: true`, its end swallowed; one that would act and an
 *   Enter within 10 ms are as well.
 * - Four or more without an end are one `entry`, `ended: false`, once nothing follows; but one character over and over is a
 *   held key and comes as single characters. So do two or three characters.
 * - Any other key ends the run.
 * - A single character that types is delivered at once, always; where it turns out to have begun a run, the entry tells it
 *   as `led`. One that would act (`acts`) is kept back, so that no burst ever sets anything off.
 * - A bracketed paste is one `entry`, `ended` if it closes with a line end or a tab; inner ones become a space.
 */
export function createKeyDecoder(options: KeyDecoderOptions): KeyDecoder {
  const { onKey, acts, escapeMs = 50, joinMs = 30, pasteMs = 1000 } = options;
  const utf8 = new TextDecoder("utf-8", { ignoreBOM: true });
  const tokens = createTokeniser();
  const bursts = createBurstJoiner(onKey, acts);
  const restAlarm = createAlarm(options);
  const joinAlarm = createAlarm(options);

  const settle = () => {
    tokens.forgetReturn();
    bursts.settle();
  };
  const take = (keys: readonly Key[]) => {
    const wasHeldKey = bursts.keeping() === "held key";
    for (const key of keys) bursts.take(key);
    bursts.endChunk();
    if (wasHeldKey && bursts.keeping() === "held key") return;
    // Once more round: what came while the program was busy is read before the run counts as over.
    const settleAfter = (ms: number) => joinAlarm.set(ms, () => joinAlarm.set(0, settle));
    if (bursts.keeping() === "nothing") return settleAfter(joinMs);
    joinAlarm.set(LONE_MS, () => {
      bursts.falter();
      settleAfter(KEPT_TIMES * joinMs - LONE_MS);
    });
  };
  const rest = () => [...tokens.read(utf8.decode()), ...tokens.giveUp()];
  const waitForRest = (splitCharacter: boolean) => {
    const holding = tokens.holding();
    if (holding === "nothing" && !splitCharacter) restAlarm.clear();
    else restAlarm.set(holding === "paste" ? pasteMs : escapeMs, () => take(rest()));
  };

  return {
    write(chunk) {
      const bytes = typeof chunk === "string" ? Buffer.from(chunk) : chunk;
      if (bytes.length === 0) return; // it ends no wait for the rest of a character
      take(tokens.read(utf8.decode(bytes, { stream: true })));
      waitForRest((bytes.at(-1) ?? 0) >= 0x80);
    },
    end() {
      restAlarm.clear();
      take(rest());
      joinAlarm.clear();
      settle();
    },
  };
}
