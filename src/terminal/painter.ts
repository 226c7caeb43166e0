import { createAlarm, type Timers } from "./alarm.ts";
import { asciiTwin } from "./asciiTwin.ts";
import { columnsOf } from "./sanitise.ts";

const ERASE_ALL = "\x1b[2J";
const ERASE_TO_END = "\x1b[K";
const PLAIN = "\x1b[0m";
/** What gives text or ground back to the terminal, as Ink writes it: each code in a sequence of its own. */
const COLOURS_END = /\x1b\[(?:0|39|49)?m/g;
/** Colours and other looks, which take no columns. */
const LOOKS = /\x1b\[[0-9;]*m/g;
const AS_ONE = ["\x1b[?2026h", "\x1b[?2026l"] as const;
const FRAME_MS = 16;

export interface PainterOptions extends Timers {
  readonly stdout: Pick<NodeJS.WriteStream, "columns" | "rows" | "write">;
  readonly ascii: boolean;
}

export interface Painter {
  /** Shows a frame: rows joined by line feeds, colours closed on each row. */
  paint(frame: string): void;
  /** Draws everything anew, whatever the screen shows now. */
  repaint(): void;
  /** The colours that no role sets, as a sequence that sets them; "" leaves it to the terminal. The next frame draws all anew. */
  ground(sequence: string): void;
  /** The terminal's size changed: draws everything anew one frame later, when the new layout is there. */
  resized(): void;
  /** Writes nothing from now on. */
  close(): void;
}

/**
 * Puts frames on the alternate screen: each changed row at its own place, so that nothing depends on where the cursor
 * was or how the terminal was resized, in one write that terminals show as one. At most 60 frames a second; the first
 * after a pause goes out at once.
 */
export function createPainter({ stdout, ascii, ...timers }: PainterOptions): Painter {
  let wanted: readonly string[] = [];
  let shown: readonly string[] | null = null;
  let closed = false;
  let under = "";
  const nextFrame = createAlarm(timers);

  /** A row's colours end in the terminal's own; where the theme has others, these are set again each time. */
  const laid = (text: string) => (under === "" ? text : under + text.replace(COLOURS_END, `$&${under}`) + PLAIN);
  const eraseToEnd = () => (under === "" ? ERASE_TO_END : under + ERASE_TO_END + PLAIN);
  const rowAt = (row: number, text: string) =>
    `\x1b[${row + 1};1H${laid(text)}${columnsOf(text.replace(LOOKS, "")) < stdout.columns ? eraseToEnd() : ""}`;

  const draw = () => {
    const rows = wanted.slice(0, stdout.rows);
    const before = shown ?? [];
    const changes = Array.from({ length: Math.max(rows.length, before.length) }, (_, row) => row)
      .filter((row) => (rows[row] ?? "") !== (before[row] ?? ""))
      .map((row) => rowAt(row, rows[row] ?? ""));
    const erase = shown === null ? (under === "" ? ERASE_ALL : under + ERASE_ALL + PLAIN) : "";
    shown = rows;
    if (erase === "" && changes.length === 0) return;
    stdout.write(AS_ONE[0] + erase + changes.join("") + AS_ONE[1]);
    nextFrame.set(FRAME_MS, draw);
  };
  const drawSoon = () => {
    if (!closed && !nextFrame.isSet()) draw();
  };

  return {
    paint(frame) {
      wanted = (ascii ? asciiTwin(frame) : frame).split("\n");
      drawSoon();
    },
    repaint() {
      shown = null;
      drawSoon();
    },
    ground(sequence) {
      if (sequence === under) return;
      under = sequence;
      shown = null; // drawn with the next frame, whose texts are of the same theme
    },
    resized() {
      shown = null;
      if (!closed) nextFrame.set(FRAME_MS, draw);
    },
    close() {
      closed = true;
      nextFrame.clear();
    },
  };
}
