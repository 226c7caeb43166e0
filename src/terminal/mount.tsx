import { render } from "ink";
import type { ReactElement } from "react";
import type { Acts } from "./bursts.ts";
import { frameStream } from "./frameStream.ts";
import { createKeyDecoder } from "./keyDecoder.ts";
import type { Key } from "./keys.ts";
import { createPainter } from "./painter.ts";
import { createReciter } from "./reciter.ts";
import { hasUnicode } from "./signs.ts";

export interface Edge {
  readonly stdin: NodeJS.ReadStream;
  readonly stdout: NodeJS.WriteStream;
  /** The one owner of the keys. It gets every key once, ctrl+c among them; only ctrl+l (draw anew) is kept back. */
  readonly onKey: (key: Key) => void;
  /** Whether a character would do something just now instead of being typed; such a one waits till it is known to be alone. */
  readonly acts?: Acts | undefined;
  /** Draw signs as ASCII; by default as the environment says. */
  readonly ascii?: boolean;
  /** For a screen reader: what is new goes out line after line, nothing is drawn in place. */
  readonly reader?: boolean;
  /** The texts of the element are the rows of the screen, none wider than it: there is nothing left to lay out. */
  readonly rowsMade?: boolean;
  /** The colour under everything, as `Styles` has it, from the first frame on. */
  readonly ground?: string;
}

export interface MountedScreens {
  rerender(element: ReactElement): void;
  /** Draws everything anew, after something else wrote on the screen. */
  repaint(): void;
  /** The colour under everything, as `Styles` has it. */
  ground(sequence: string): void;
  unmount(): void;
  /** Resolves once unmounted; rejects with what a component threw. */
  readonly finished: Promise<void>;
}

/** Starts listening to the keyboard; returns what stops it. */
function listen(stdin: NodeJS.ReadStream, onKey: (key: Key) => void, acts: Acts | undefined): () => void {
  const decoder = createKeyDecoder({ onKey, ...(acts ? { acts } : {}) });
  const setRaw = (raw: boolean) => {
    if (stdin.isTTY && !stdin.destroyed) stdin.setRawMode(raw);
  };
  setRaw(true);
  stdin.on("data", decoder.write).resume();
  return () => {
    stdin.off("data", decoder.write).pause();
    decoder.end();
    setRaw(false);
  };
}

/**
 * Draws an element on the terminal with Ink and feeds its keys to one owner. Ink itself never touches the keyboard: it
 * does so only for `useInput` and its own `setRawMode`, and nobody here calls these.
 */
export function mountScreens(element: ReactElement, edge: Edge): MountedScreens {
  const {
    stdin,
    stdout,
    onKey,
    ascii = !hasUnicode(process.env, process.platform),
    reader = false,
    rowsMade = false,
  } = edge;
  const reciter = reader ? createReciter({ stdout, ascii }) : null;
  const painter = reciter ?? createPainter({ stdout, ascii });
  painter.ground(edge.ground ?? "");
  stdout.on("resize", painter.resized); // before Ink's own, so that its next frame is drawn whole
  process.once("exit", painter.close); // Ink draws a last frame even then, on a screen that is no longer ours
  const ink = render(element, {
    stdin,
    stdout: frameStream(stdout, painter),
    debug: true,
    exitOnCtrlC: false,
    patchConsole: false,
    isScreenReaderEnabled: reader || rowsMade, // then texts go out as they are, past Ink's grid of cells
  });
  const owner = (key: Key) => {
    reciter?.heard();
    if (key.name === "ctrl+l") painter.repaint();
    else onKey(key);
  };
  const stopListening = listen(stdin, owner, edge.acts);
  const stopped = () => {
    stopListening();
    stdout.off("resize", painter.resized);
    process.off("exit", painter.close);
    painter.close();
  };
  const finished = ink.waitUntilExit().then(() => undefined);
  return {
    rerender: ink.rerender,
    repaint: painter.repaint,
    ground: painter.ground,
    unmount: () => ink.unmount(),
    finished: finished.finally(stopped),
  };
}
