import { type constants, tmpdir } from "node:os";
import { setTimeout as pause } from "node:timers/promises";
import { fileURLToPath } from "node:url";
import { type IPty, spawn } from "@lydell/node-pty";
import xterm from "@xterm/headless";
import { bytesOf } from "./keystrokes.ts";

const BUILT_PROGRAM = fileURLToPath(new URL("../../dist/sievewright.mjs", import.meta.url));
/**
 * Between two keys the operator waits for the program to draw, so that a busy one doesn't read both as one burst; but no
 * shorter than the first of these (what comes faster is no hand's) and no longer than the second (a key may change nothing).
 */
const KEY_GAP_MS = 35;
const LONGEST_KEY_GAP_MS = 400;
/** Escape is told from the start of a sequence by time alone. */
const ESCAPE_GAP_MS = 90;
/** No hand means two Enters closer together than this; the program takes closer ones for a bouncing key. */
const ENTER_GAP_MS = 400;

export interface OperatorOptions {
  readonly args?: readonly string[];
  readonly cols?: number;
  readonly rows?: number;
  /** Added to a bare environment (PATH, HOME, TERM, LANG) which has nothing of the machine that tests. */
  readonly env?: Readonly<Record<string, string>>;
  /** The built program, unless another is named. */
  readonly program?: string;
  /** A whole command instead of `node program args`. */
  readonly command?: readonly [string, ...string[]];
  readonly cwd?: string;
}

/** Someone at a real (pseudo-)terminal who types, scans, looks, resizes the window and pulls the plug. */
export class Operator {
  /** Keys pressed so far, each character typed being one; a scan is none. */
  keysPressed = 0;
  #screen: InstanceType<typeof xterm.Terminal>;
  #pty: IPty;
  #raw = "";
  /** How much of it the screen shows by now. */
  #shown = 0;
  #ended: Promise<number>;
  #endedWith: number | null = null;
  #lastKey = "";
  #lastEnterMs = Number.NEGATIVE_INFINITY;

  constructor(pty: IPty, screen: InstanceType<typeof xterm.Terminal>) {
    this.#pty = pty;
    this.#screen = screen;
    pty.onData((bytes) => {
      this.#raw += bytes;
      screen.write(bytes, () => {
        this.#shown += bytes.length;
      });
    });
    screen.onData((answer) => pty.write(answer));
    this.#ended = new Promise((resolve) =>
      pty.onExit(({ exitCode, signal }) => {
        this.#endedWith = signal ? 128 + signal : exitCode;
        screen.write("", () => resolve(signal ? 128 + signal : exitCode));
      }),
    );
  }

  /** Types a text key by key. */
  async types(text: string): Promise<void> {
    for (const character of text) await this.presses(character);
  }

  /** Presses keys by name (`enter`, `up`, `f4`, `ctrl+c`, ...) or by their character. */
  async presses(...keys: string[]): Promise<void> {
    for (const key of keys) {
      const bytes = bytesOf(key);
      if (this.#lastKey === "escape") await pause(ESCAPE_GAP_MS);
      if (key === "enter") await pause(Math.max(0, this.#lastEnterMs + ENTER_GAP_MS - performance.now()));
      const writtenBefore = this.#raw.length;
      this.#pty.write(bytes);
      this.#lastKey = key;
      if (key === "enter") this.#lastEnterMs = performance.now();
      this.keysPressed += 1;
      await this.#drawn(writtenBefore);
    }
  }

  async #drawn(writtenBefore: number): Promise<void> {
    const latest = performance.now() + LONGEST_KEY_GAP_MS;
    do await pause(KEY_GAP_MS);
    while (this.#raw.length === writtenBefore && performance.now() < latest);
  }

  /** A scanner or balance types: all of it at once, with the Enter that it ends with. */
  async scans(text: string, ending = "\r"): Promise<void> {
    this.sends(text + ending);
    this.#lastEnterMs = performance.now();
    await pause(KEY_GAP_MS);
  }

  /** A paste as terminals mark it. */
  pastes(text: string): void {
    this.sends(`\x1b[200~${text}\x1b[201~`);
  }

  /** Bytes as they are, in one piece. */
  sends(bytes: string): void {
    this.#lastKey = "";
    this.#pty.write(bytes);
  }

  /** Waits till a text is on the screen (rows joined by line feeds); fails with what is there instead. */
  async sees(what: string | RegExp, timeoutMs = 20_000): Promise<void> {
    await this.#until((screen) => found(what, screen), `did not see ${what}`, timeoutMs);
  }

  /** Waits till a text is gone from the screen. */
  async seesNoMore(what: string | RegExp, timeoutMs = 20_000): Promise<void> {
    await this.#until((screen) => !found(what, screen), `still saw ${what}`, timeoutMs);
  }

  async #until(holds: (screen: string) => boolean, complaint: string, timeoutMs: number): Promise<void> {
    const giveUpAt = performance.now() + timeoutMs;
    while (this.#isInFrame() || !holds(this.screen().join("\n"))) {
      if (performance.now() > giveUpAt) throw new Error(`${complaint} in ${timeoutMs} ms\n${this.#picture()}`);
      await pause(10);
    }
  }

  /** A terminal may show half a frame when the pipe is full; the program marks where each begins and ends. */
  #isInFrame(): boolean {
    const shown = this.#raw.slice(0, this.#shown);
    return shown.lastIndexOf("\x1b[?2026h") > shown.lastIndexOf("\x1b[?2026l");
  }

  #picture(): string {
    const ended = this.#endedWith === null ? "" : `\nthe program has ended with ${this.#endedWith}`;
    const edge = "-".repeat(this.#screen.cols);
    const rows = this.screen().map((row) => `|${row.padEnd(this.#screen.cols)}|`);
    return [`+${edge}+`, ...rows, `+${edge}+`].join("\n") + ended;
  }

  /** The rows of the screen, without the spaces at their ends. */
  screen(): string[] {
    const buffer = this.#screen.buffer.active;
    return Array.from(
      { length: this.#screen.rows },
      (_, row) => buffer.getLine(buffer.baseY + row)?.translateToString(true) ?? "",
    );
  }

  onAlternateScreen(): boolean {
    return this.#screen.buffer.active.type === "alternate";
  }

  /** Whether pastes come in brackets and whether long rows wrap, as the program left them. */
  modes(): { readonly bracketedPaste: boolean; readonly wraparound: boolean } {
    const { bracketedPasteMode, wraparoundMode } = this.#screen.modes;
    return { bracketedPaste: bracketedPasteMode, wraparound: wraparoundMode };
  }

  cursorShown(): boolean {
    return this.#raw.lastIndexOf("\x1b[?25h") >= this.#raw.lastIndexOf("\x1b[?25l");
  }

  /** Everything that the program wrote. */
  raw(): string {
    return this.#raw;
  }

  resize(cols: number, rows: number): void {
    this.#screen.resize(cols, rows);
    this.#pty.resize(cols, rows);
  }

  kill(signal: keyof typeof constants.signals = "SIGKILL"): void {
    process.kill(this.#pty.pid, signal);
  }

  /** The terminal itself goes: window closed, connection lost. */
  loseTerminal(): void {
    (this.#pty as IPty & { destroy(): void }).destroy();
  }

  /** The program's exit code; 128 and the number of the signal that killed it. */
  async exit(timeoutMs = 20_000): Promise<number> {
    const late = pause(timeoutMs, null, { ref: false });
    const code = await Promise.race([this.#ended, late]);
    if (code === null) throw new Error(`the program has not ended in ${timeoutMs} ms\n${this.#picture()}`);
    return code;
  }

  /** Ends what is left of the program, for the end of a test. */
  async leaves(): Promise<void> {
    if (this.#endedWith === null) this.kill("SIGKILL");
    await this.exit();
    this.#screen.dispose();
  }
}

const found = (what: string | RegExp, screen: string): boolean =>
  typeof what === "string" ? screen.includes(what) : what.test(screen);

const present: Operator[] = [];

/** Starts the program in a terminal of 80x24, or as told. */
export async function startOperator(options: OperatorOptions = {}): Promise<Operator> {
  const { args = [], cols = 80, rows = 24, env = {}, program = BUILT_PROGRAM } = options;
  const [file, ...fileArgs] = options.command ?? [process.execPath, program, ...args];
  const { PATH = "", HOME = tmpdir() } = process.env;
  const pty = spawn(file, fileArgs, {
    name: env.TERM ?? "xterm-256color",
    cols,
    rows,
    cwd: options.cwd ?? tmpdir(),
    env: { PATH, HOME, LANG: "C.UTF-8", ...env },
  });
  const operator = new Operator(pty, new xterm.Terminal({ cols, rows, allowProposedApi: true }));
  present.push(operator);
  return operator;
}

/** For `afterEach`: ends every program that a test has left running. */
export async function operatorsLeave(): Promise<void> {
  await Promise.all(present.splice(0).map((operator) => operator.leaves()));
}
