/** The terminal as ours: alternate screen, raw keys, pastes in brackets, no cursor, long rows cut rather than wrapped. */
const ENTER = "\x1b[?1049h\x1b[2J\x1b[H\x1b[?25l\x1b[?7l\x1b[?2004h";
const LEAVE = "\x1b[?2026l\x1b[?2004l\x1b[?7h\x1b[0m\x1b[?25h\x1b[?1049l";

export interface TerminalEnds {
  readonly stdin: Pick<NodeJS.ReadStream, "setRawMode">;
  readonly stdout: Pick<NodeJS.WriteStream, "write">;
}

export interface TerminalSession {
  /** Gives the terminal back as it was. May be called again and from an exit handler; never throws. */
  leave(): void;
}

export function takeTerminal({ stdin, stdout }: TerminalEnds): TerminalSession {
  let ours = true;
  stdin.setRawMode(true);
  stdout.write(ENTER);
  return {
    leave() {
      if (!ours) return;
      ours = false;
      try {
        stdout.write(LEAVE);
        stdin.setRawMode(false);
      } catch {
        // The terminal itself is gone: nothing is left to give back.
      }
    },
  };
}
