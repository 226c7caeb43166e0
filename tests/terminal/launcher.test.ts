import { EventEmitter } from "node:events";
import { describe, expect, test } from "vitest";
import { createBell } from "../../src/terminal/bell.ts";
import { guardTerminal, type Host } from "../../src/terminal/guard.ts";
import { launch, prepareEnvironment, terminalProblem } from "../../src/terminal/launcher.ts";
import { takeTerminal } from "../../src/terminal/session.ts";
import { fits, frameRows, sizeOf, watchSize } from "../../src/terminal/size.ts";
import { ShownOutput, TypedInput } from "./screenOf.ts";

/** A process in memory; its exit runs the exit handlers, as node's does, and is remembered. */
class FakeHost extends EventEmitter {
  readonly env: NodeJS.ProcessEnv = {};
  readonly stdin = new TypedInput();
  readonly stdout = new ShownOutput();
  told = "";
  readonly stderr = {
    write: (text: string) => {
      this.told += text;
      return true;
    },
  };
  readonly pid = 4711;
  exits: number[] = [];
  killed: string[] = [];
  exit = (code: number) => {
    this.exits.push(code);
    this.emit("exit", code);
  };
  kill = (_pid: number, signal: string) => {
    this.killed.push(signal);
    return true;
  };
  asHost(): Host {
    return this as unknown as Host;
  }
}

const LEFT = "\x1b[?1049l";

describe("what is in the way of the screens", () => {
  const problem = (stdin: boolean, stdout: boolean, TERM?: string) =>
    terminalProblem({
      env: TERM === undefined ? {} : { TERM },
      stdin: { isTTY: stdin } as NodeJS.Process["stdin"],
      stdout: { isTTY: stdout } as NodeJS.Process["stdout"],
    });

  test.each([
    [true, true, "xterm-256color", null],
    [true, true, undefined, null],
    [true, false, "xterm", "the screens need a terminal, but the output goes to a file or a pipe"],
    [false, true, "xterm", "the screens need a keyboard, but the input comes from a file or a pipe"],
    [false, false, "xterm", "the screens need a terminal, but the output goes to a file or a pipe"],
    [true, true, "dumb", "this terminal (TERM=dumb) can't place text on the screen; use another one"],
  ])("keyboard %s, terminal %s, TERM %s: %s", (stdin, stdout, term, words) =>
    expect(problem(stdin, stdout, term)).toBe(words),
  );
});

describe("the environment for React, Ink and chalk", () => {
  const prepared = (env: NodeJS.ProcessEnv) => {
    prepareEnvironment(env);
    return env;
  };
  test("is production's", () => expect(prepared({ NODE_ENV: "development" }).NODE_ENV).toBe("production"));
  test("has no colours where NO_COLOR is set", () => {
    expect(prepared({ NO_COLOR: "1", FORCE_COLOR: "3" }).FORCE_COLOR).toBe("0");
    expect(prepared({ NO_COLOR: "" }).FORCE_COLOR).toBe(undefined);
    expect(prepared({ FORCE_COLOR: "1" }).FORCE_COLOR).toBe("1");
  });
  test("tells of no build server and no developer tools", () =>
    expect(prepared({ CI: "1", CONTINUOUS_INTEGRATION: "1", DEV: "true", HOME: "h" })).toEqual({
      HOME: "h",
      NODE_ENV: "production",
    }));
});

describe("the terminal", () => {
  test("is taken with alternate screen, raw keys and pastes in brackets, and given back in full", () => {
    const { stdin, stdout } = new FakeHost();
    const session = takeTerminal({ stdin: stdin.asStream(), stdout: stdout.asStream() });
    expect(stdin.raw).toBe(true);
    const taken = stdout.written;
    session.leave();
    const given = stdout.written.slice(taken.length);
    const modes = (text: string, sign: string) =>
      [...text.matchAll(/\x1b\[\?(\d+)([hl])/g)].filter(([, , s]) => s === sign).map(([, mode]) => mode);
    for (const mode of modes(taken, "h")) expect(modes(given, "l")).toContain(mode);
    for (const mode of modes(taken, "l")) expect(modes(given, "h")).toContain(mode);
    expect(modes(taken, "h")).toEqual(["1049", "2004"]);
    expect(stdin.raw).toBe(false);
  });

  test("leaves keypad and cursor keys in the mode they are in", () => {
    const { stdin, stdout } = new FakeHost();
    takeTerminal({ stdin: stdin.asStream(), stdout: stdout.asStream() }).leave();
    expect(stdout.written).not.toMatch(/\x1b[=>]|\x1b\[\?1[hl]/);
  });

  test("is given back once only", () => {
    const { stdin, stdout } = new FakeHost();
    const session = takeTerminal({ stdin: stdin.asStream(), stdout: stdout.asStream() });
    session.leave();
    session.leave();
    expect(stdout.written.split(LEFT).length - 1).toBe(1);
  });

  test("that is gone is no reason to throw", () => {
    const { stdin, stdout } = new FakeHost();
    const session = takeTerminal({ stdin: stdin.asStream(), stdout: stdout.asStream() });
    stdin.setRawMode = () => {
      throw new Error("EIO");
    };
    expect(() => session.leave()).not.toThrow();
  });
});

describe("launch", () => {
  test("runs the screens between taking and giving back the terminal", async () => {
    const host = new FakeHost();
    let during = "";
    const outcome = await launch(async () => {
      during = host.stdout.written;
      return 3;
    }, host.asHost());
    expect(outcome).toEqual({ ok: true, value: 3 });
    expect(during).toContain("\x1b[?1049h");
    expect(during).not.toContain(LEFT);
    expect(host.stdout.written.endsWith(LEFT)).toBe(true);
  });

  test("sets the environment before it starts them", async () => {
    const host = new FakeHost();
    host.env.CI = "1";
    let seen: NodeJS.ProcessEnv = {};
    await launch(async () => {
      seen = { ...host.env };
      return 0;
    }, host.asHost());
    expect(seen).toEqual({ NODE_ENV: "production" });
  });

  test("refuses without a terminal, and starts nothing", async () => {
    const host = new FakeHost();
    host.env.TERM = "dumb";
    let started = false;
    const outcome = await launch(async () => {
      started = true;
      return 0;
    }, host.asHost());
    expect(outcome.ok).toBe(false);
    expect([started, host.stdout.written]).toEqual([false, ""]);
  });

  test("tells a fault on standard error, after the terminal is given back, and answers 70", async () => {
    const host = new FakeHost();
    let screenWhenTold = "";
    host.stderr.write = (text: string) => {
      screenWhenTold = host.stdout.written;
      host.told += text;
      return true;
    };
    const outcome = await launch(() => Promise.reject(new Error("disk on fire")), host.asHost());
    expect(outcome).toEqual({ ok: true, value: 70 });
    expect(host.told).toContain("fault of its own");
    expect(host.told).toContain("disk on fire");
    expect(screenWhenTold).toContain(LEFT);
  });

  test("says of a fault what it was told to say; a fault in saying it does not hide the first", async () => {
    const host = new FakeHost();
    const burns = () => Promise.reject(new Error("disk on fire"));
    await launch(burns, host.asHost(), (fault) => `noted: ${(fault as Error).message}\n`);
    expect(host.told).toBe("noted: disk on fire\n");
    await launch(burns, host.asHost(), () => {
      throw new Error("no pen");
    });
    expect(host.told).toMatch(/fault of its own[\s\S]+disk on fire/);
    expect(host.told).not.toContain("no pen");
  });

  test("takes its guards away again", async () => {
    const host = new FakeHost();
    await launch(async () => 0, host.asHost());
    expect(host.eventNames()).toEqual([]);
    expect([host.stdin.eventNames(), host.stdout.eventNames()]).toEqual([[], []]);
  });
});

describe("while the screens run", () => {
  const guarded = () => {
    const host = new FakeHost();
    const session = takeTerminal({ stdin: host.stdin.asStream(), stdout: host.stdout.asStream() });
    guardTerminal(host.asHost(), session);
    return host;
  };
  const leftOf = (host: FakeHost) => host.stdout.written.includes(LEFT);

  test.each([
    ["SIGINT", 130],
    ["SIGTERM", 143],
  ])("%s gives the terminal back and ends with %i", (signal, code) => {
    const host = guarded();
    host.emit(signal, signal);
    expect([leftOf(host), host.exits, host.killed]).toEqual([true, [code], []]);
  });

  test.each([
    ["SIGHUP", (host: FakeHost) => host.emit("SIGHUP", "SIGHUP")],
    ["the end of the keyboard", (host: FakeHost) => host.stdin.emit("end")],
    ["an error of the keyboard", (host: FakeHost) => host.stdin.emit("error", new Error("EIO"))],
    ["an error of the screen", (host: FakeHost) => host.stdout.emit("error", new Error("EIO"))],
  ])("%s ends in order and then by the signal itself", (_, happens) => {
    const host = guarded();
    let lastWords = "";
    host.on("exit", () => {
      lastWords = `killed ${host.killed.length}`;
    });
    happens(host);
    expect([leftOf(host), host.exits, host.killed]).toEqual([true, [129], ["SIGHUP"]]);
    expect(lastWords).toBe("killed 0");
    expect(host.listenerCount("SIGHUP")).toBe(0);
    expect(host.told).toBe("");
  });

  test.each([[new Error("a bug")], ["a bug"]])("a fault (%s) is told after the terminal is given back", (fault) => {
    const host = guarded();
    host.emit("uncaughtException", fault);
    expect([leftOf(host), host.exits]).toEqual([true, [70]]);
    expect(host.told).toContain("a bug");
  });

  test("a throw on the way out, as by a last frame, changes neither the code nor the words", () => {
    const host = guarded();
    const { exit } = host;
    host.exit = (code: number) => {
      exit(code);
      if (host.exits.length === 1) throw new Error("thrown by the last frame");
    };
    host.emit("uncaughtException", new Error("a bug"));
    expect(host.exits).toEqual([70, 70]);
    expect(host.told).not.toContain("last frame");
  });

  test("any other exit gives it back as well", () => {
    const host = guarded();
    host.emit("exit", 0);
    expect(leftOf(host)).toBe(true);
  });
});

describe("size", () => {
  test("of a terminal that tells none is 80x24", () => {
    expect(sizeOf({ columns: 0, rows: 0 })).toEqual({ columns: 80, rows: 24 });
    expect(sizeOf({ columns: 132, rows: 43 })).toEqual({ columns: 132, rows: 43 });
  });

  test.each([
    [60, 16, true],
    [59, 16, false],
    [60, 15, false],
    [200, 60, true],
  ])("%ix%i fits: %s", (columns, rows, answer) => expect(fits({ columns, rows })).toBe(answer));

  test("leaves the last row of the terminal free", () => {
    expect(frameRows({ columns: 80, rows: 24 })).toBe(23);
    expect(frameRows({ columns: 80, rows: 1 })).toBe(1);
  });

  test("is told at each change until no longer wanted", () => {
    const output = new ShownOutput(80, 24);
    const seen: string[] = [];
    const stop = watchSize(output.asStream(), ({ columns, rows }) => seen.push(`${columns}x${rows}`));
    output.resize(100, 30);
    output.resize(60, 16);
    stop();
    output.resize(70, 20);
    expect(seen).toEqual(["100x30", "60x16"]);
  });
});

test("the bell rings, unless the station is quiet", () => {
  const output = new ShownOutput();
  createBell(output)();
  createBell(output, true)();
  expect(output.written).toBe("\x07");
});
