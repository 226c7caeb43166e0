import type { Painter } from "./painter.ts";

const CURSOR_ONLY = /^\x1b\[\?25[hl]$/;

/**
 * What Ink takes for the terminal. Ink 6.8 moves about by counting rows back from the cursor: its incremental mode is off
 * by one row for every frame lower than the window, and its other one writes all rows and leaves some behind on resizing.
 * So it runs in its debug mode, where each write is one whole frame, and the painter puts that on the screen. A write with
 * a callback is Ink's question whether all is out; showing the cursor is left to the session.
 */
export function frameStream(stdout: NodeJS.WriteStream, painter: Painter): NodeJS.WriteStream {
  const write = (chunk: string, whenOut?: () => void): boolean => {
    if (whenOut) setImmediate(whenOut);
    else if (!CURSOR_ONLY.test(chunk)) painter.paint(chunk);
    return true;
  };
  return Object.create(stdout, {
    write: { value: write },
    on: { value: stdout.on.bind(stdout) },
    off: { value: stdout.off.bind(stdout) },
  });
}
