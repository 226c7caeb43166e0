/** The terminal as ours: alternate screen, raw keys, pastes in brackets, no cursor, long rows cut rather than wrapped. */
const ENTER = "\x1b[?1049h\x1b[2J\x1b[H\x1b[?25l\x1b[?7l\x1b[?2004h";
const LEAVE = "\x1b[?2026l\x1b[?2004l\x1b[?7h\x1b[0m\x1b[?25h\x1b[?1049l";
/** For a screen reader nothing is drawn in place: what is written stays above, to be read again. */
const ENTER_BELOW = "\x1b[?2004h";
const LEAVE_BELOW = "\x1b[?2004l\x1b[0m\x1b[?7h\x1b[?25h";

export interface TerminalEnds {
  readonly stdin: Pick<NodeJS.ReadStream, "setRawMode">;
  readonly stdout: Pick<NodeJS.WriteStream, "write">;
}

export interface TerminalSession {
  /** Gives the terminal back as it was. May be called again and from an exit handler; never throws. */
  leave(): void;
}

/** @param below whether to write below what is there instead of taking the whole screen */
export function takeTerminal({ stdin, stdout }: TerminalEnds, below = false): TerminalSession {
  let ours = true;
  stdin.setRawMode(true);
  stdout.write(below ? ENTER_BELOW : ENTER);
  return {
    leave() {
      if (!ours) return;
      ours = false;
      try {
        stdout.write(below ? LEAVE_BELOW : LEAVE);
        stdin.setRawMode(false);
      } catch {
        // The terminal itself is gone: nothing is left to give back.
      }
    },
  };
}
