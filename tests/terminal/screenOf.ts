import { EventEmitter } from "node:events";
import xterm from "@xterm/headless";

/** A terminal in memory that takes what would go to standard output, and shows what a person would see. */
export class ShownOutput extends EventEmitter {
  readonly isTTY = true;
  columns: number;
  rows: number;
  written = "";
  writes = 0;
  #terminal: InstanceType<typeof xterm.Terminal>;

  constructor(columns = 80, rows = 24) {
    super();
    this.columns = columns;
    this.rows = rows;
    this.#terminal = new xterm.Terminal({ cols: columns, rows, allowProposedApi: true });
    this.#terminal.write("\x1b[?7l");
  }

  write = (bytes: string): boolean => {
    this.written += bytes;
    this.writes += 1;
    this.#terminal.write(bytes);
    return true;
  };

  /** What something else wrote on the screen. */
  spoil(bytes: string): void {
    this.#terminal.write(bytes);
  }

  resize(columns: number, rows: number): void {
    this.#terminal.resize(columns, rows);
    this.columns = columns;
    this.rows = rows;
    this.emit("resize");
  }

  async screen(): Promise<string[]> {
    await new Promise<void>((resolve) => this.#terminal.write("", resolve));
    const buffer = this.#terminal.buffer.active;
    return Array.from({ length: this.rows }, (_, row) => buffer.getLine(row)?.translateToString(true) ?? "");
  }

  asStream(): NodeJS.WriteStream {
    return this as unknown as NodeJS.WriteStream;
  }
}

/** A keyboard in memory. */
export class TypedInput extends EventEmitter {
  readonly isTTY = true;
  destroyed = false;
  raw = false;
  paused = true;

  setRawMode = (raw: boolean): this => {
    this.raw = raw;
    return this;
  };
  resume = (): this => {
    this.paused = false;
    return this;
  };
  pause = (): this => {
    this.paused = true;
    return this;
  };

  types(bytes: string): void {
    this.emit("data", Buffer.from(bytes));
  }

  asStream(): NodeJS.ReadStream {
    return this as unknown as NodeJS.ReadStream;
  }
}
