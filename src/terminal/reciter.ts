import { createAlarm } from "./alarm.ts";
import { asciiTwin } from "./asciiTwin.ts";
import type { Painter, PainterOptions } from "./painter.ts";

const WRAP = "\x1b[?7h\x1b[?25h";
/** Long enough for a typed number to be told once, not digit by digit. */
const SETTLE_MS = 250;

export interface Reciter extends Painter {
  /** A key was pressed: what changes now is the answer to it. */
  heard(): void;
}

const withoutFigures = (row: string): string => row.replace(/\d+/g, "");

/**
 * Frames for a screen reader: rows that were not there before are written one after the other below what was written, and
 * nothing is ever taken back. A new title brings all of its rows. What changes by itself is told only if more than its
 * figures did, so that a clock or a countdown stays silent until a key asks.
 */
export function createReciter({ stdout, ascii, ...timers }: PainterOptions): Reciter {
  let wanted: readonly string[] = [];
  let told: readonly string[] = [];
  let begun = false;
  let keyed = false;
  let closed = false;
  const settled = createAlarm(timers);

  const news = (): readonly string[] => {
    if (wanted[0] !== told[0]) return wanted;
    const known = new Set(keyed ? told : told.map(withoutFigures));
    return wanted.filter((row) => !known.has(keyed ? row : withoutFigures(row)));
  };
  const recite = () => {
    const rows = news().filter((row) => row.trim() !== "");
    const changed = rows.length > 0 || keyed;
    if (rows.length > 0) stdout.write((begun ? "" : WRAP) + rows.map((row) => `${row}\r\n`).join(""));
    begun = true;
    if (changed) told = wanted;
    keyed = false;
  };

  return {
    paint(frame) {
      wanted = (ascii ? asciiTwin(frame) : frame).split("\n");
      if (!closed) settled.set(SETTLE_MS, recite);
    },
    repaint() {
      told = [];
      if (!closed) settled.set(0, recite);
    },
    heard() {
      keyed = true;
    },
    ground() {},
    resized() {},
    close() {
      closed = true;
      settled.clear();
    },
  };
}
