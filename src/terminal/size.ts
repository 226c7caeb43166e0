import { useStdout } from "ink";
import { useEffect, useState } from "react";

export interface TerminalSize {
  readonly columns: number;
  readonly rows: number;
}

/** Below this a screen says what it needs instead of drawing. */
export const SMALLEST: TerminalSize = { columns: 60, rows: 16 };

export const fits = (size: TerminalSize): boolean => size.columns >= SMALLEST.columns && size.rows >= SMALLEST.rows;

/** Rows that a frame may use: the terminal's last one stays free. */
export const frameRows = (size: TerminalSize): number => Math.max(1, size.rows - 1);

type SizedStream = Pick<NodeJS.WriteStream, "columns" | "rows" | "on" | "off">;

/** A terminal that does not tell its size (0 over some serial lines) counts as 80x24. */
export const sizeOf = (stdout: Pick<SizedStream, "columns" | "rows">): TerminalSize => ({
  columns: stdout.columns || 80,
  rows: stdout.rows || 24,
});

/** Calls `onSize` at each change until the returned function is called. */
export function watchSize(stdout: SizedStream, onSize: (size: TerminalSize) => void): () => void {
  const changed = () => onSize(sizeOf(stdout));
  stdout.on("resize", changed);
  return () => {
    stdout.off("resize", changed);
  };
}

const isSame = (a: TerminalSize, b: TerminalSize): boolean => a.columns === b.columns && a.rows === b.rows;

/** The terminal's size, drawn anew at each change. */
export function useTerminalSize(): TerminalSize {
  const { stdout } = useStdout();
  const [size, setSize] = useState(() => sizeOf(stdout));
  useEffect(() => {
    // Where nothing changed since the first drawing, none is added to it.
    setSize((known) => (isSame(known, sizeOf(stdout)) ? known : sizeOf(stdout)));
    return watchSize(stdout, setSize);
  }, [stdout]);
  return size;
}
