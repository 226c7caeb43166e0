import { execFileSync, spawnSync } from "node:child_process";
import { rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import fc from "fast-check";
import { afterAll, afterEach, beforeAll, describe, expect, test, vi } from "vitest";
import { type Operator, type OperatorOptions, operatorsLeave, startOperator } from "./operator.ts";
import { bundleTinyProgram } from "./tinyProgram.ts";

vi.setConfig({ testTimeout: 90_000, hookTimeout: 60_000 }); // real processes on a machine that may be busy

let program: string;
beforeAll(async () => {
  program = await bundleTinyProgram();
});
afterEach(operatorsLeave);
afterAll(() => rmSync(dirname(program), { recursive: true }));

async function tiny(options: OperatorOptions = {}): Promise<Operator> {
  const op = await startOperator({ program, ...options });
  await op.sees(/tiny \d+x\d+/);
  return op;
}

/** The tiny program's whole screen, as it should be. */
function expectedScreen(cols: number, rows: number, heard: readonly string[]): string[] {
  const frame = Math.max(1, rows - 1);
  const numbered = Array.from({ length: Math.max(0, frame - 4) }, (_, row) => `${row} `.padEnd(cols, "─"));
  const fits = cols >= 60 && rows >= 16 ? "fits" : "too small";
  const heading = `tiny ${cols}x${rows} ${fits} PASS ✓`;
  return [heading, `keys ${heard.length}`, `heard: ${heard.join(" ")}`.trimEnd(), ...numbered, "q quit", ""];
}

describe("keys in a real terminal", () => {
  test("arrive exactly once, as what they are", async () => {
    const op = await tiny();
    await op.types("12.5");
    await op.presses("enter", "keypad enter", "backspace", "delete", "up", "f4", "f12", "shift+tab", "escape", "n");
    await op.sees("heard: 1 2 . 5 enter enter backspace delete up f4 f12 shift+tab escape n\n");
    await op.sees("keys 14\n");
    expect(op.keysPressed).toBe(14);
  });

  test("of a balance's line are one entry, and cost no key", async () => {
    const op = await tiny();
    await op.scans("+  521.40 g", "\r\n");
    await op.sees("heard: <+  521.40 g]");
    await op.sees("keys 1\n");
    expect(op.keysPressed).toBe(0);
  });

  test("come in brackets when pasted", async () => {
    const op = await tiny();
    op.pastes("4471-B\n");
    await op.sees("heard: <4471-B]");
  });

  test("that the program knows nothing of do no harm", async () => {
    const op = await tiny();
    for (const bytes of ["\x1b[1;5P", "\x1b[27;5;9~", "\x1b[<0;3;4M", "\x1b]11;rgb:0/0/0\x07", "\x00"]) op.sends(bytes);
    await op.presses("7");
    await op.sees("heard: 7\n");
  });

  test("typed before the first frame are not lost", async () => {
    const op = await startOperator({ program });
    await op.types("7");
    await op.sees("heard: 7");
  });

  test("ctrl+l draws anew what something else spoilt", async () => {
    const flag = join(dirname(program), "spoil");
    const spoiler = `(while [ ! -e '${flag}' ]; do sleep 0.05; done; printf '\\033[5;5Hspoilt')`;
    const op = await tiny({ command: ["sh", "-c", `${spoiler} & exec '${process.execPath}' '${program}'`] });
    writeFileSync(flag, "");
    await op.sees("spoilt");
    await op.presses("ctrl+l");
    await op.seesNoMore("spoilt");
    expect(op.screen()).toEqual(expectedScreen(80, 24, []));
  });
});

describe("drawing", () => {
  test("fills the frame and leaves the terminal's last row free", async () => {
    const op = await tiny();
    expect(op.screen()).toEqual(expectedScreen(80, 24, []));
  });

  test("writes only the rows that change", async () => {
    const op = await tiny();
    await op.presses("7");
    await op.sees("heard: 7");
    const before = op.raw().length;
    await op.presses("8");
    await op.sees("heard: 7 8");
    expect(op.raw().length - before).toBeLessThan(100);
  });

  test("is whole after every resize, with what was typed", async () => {
    const op = await tiny();
    await op.types("12");
    await op.sees("heard: 1 2");
    for (const [cols, rows] of [
      [60, 16],
      [132, 50],
      [80, 24],
      [40, 8],
      [200, 10],
      [61, 40],
    ] as const) {
      op.resize(cols, rows);
      await op.sees(`tiny ${cols}x${rows} `);
      await op.sees("q quit");
      expect(op.screen()).toEqual(expectedScreen(cols, rows, ["1", "2"]));
    }
  });

  test("is whole after any run of resizes that come faster than frames", async () => {
    const op = await tiny();
    const size = fc.record({ cols: fc.integer({ min: 30, max: 150 }), rows: fc.integer({ min: 5, max: 50 }) });
    const runs = fc.sample(fc.array(size, { minLength: 2, maxLength: 6 }), { numRuns: 12, seed: 7 });
    for (const sizes of runs) {
      for (const { cols, rows } of sizes) op.resize(cols, rows);
      const { cols, rows } = sizes[sizes.length - 1]!;
      await op.sees(`tiny ${cols}x${rows} `);
      await op.sees("q quit");
      expect(op.screen()).toEqual(expectedScreen(cols, rows, []));
    }
  });

  test("is in colour, but not with NO_COLOR", async () => {
    const coloured = await tiny();
    expect(coloured.raw()).toMatch(/\x1b\[1m\x1b\[38;5;\d+m/);
    const plain = await tiny({ env: { NO_COLOR: "1", COLORTERM: "truecolor", FORCE_COLOR: "3" } });
    await plain.sees("PASS ✓");
    expect(plain.raw()).not.toMatch(/\x1b\[(?:\d+;)*[34]\d/);
  });

  test("goes on where CI or DEV are set", async () => {
    const op = await tiny({ env: { CI: "1", CONTINUOUS_INTEGRATION: "true", DEV: "true" } });
    await op.presses("7");
    await op.sees("heard: 7");
    op.resize(70, 20);
    await op.sees("tiny 70x20");
  });

  test("is ASCII where the locale has no Unicode", async () => {
    const op = await tiny({ env: { LANG: "C" } });
    await op.sees("PASS +");
    expect(op.raw()).toMatch(/^[\x00-\x7f]*$/);
    expect(op.screen()[3]).toBe(`0 ${"-".repeat(78)}`);
  });

  test("rings the bell and stays as it is", async () => {
    const op = await tiny();
    await op.presses("B");
    await op.sees("heard: B");
    expect(op.raw()).toContain("\x07");
    expect(op.screen()).toEqual(expectedScreen(80, 24, ["B"]));
  });
});

describe("the terminal is as it was", () => {
  const ends: readonly [string, number, (op: Operator) => Promise<void> | void][] = [
    ["q", 0, (op) => op.presses("q")],
    ["ctrl+c", 0, (op) => op.presses("ctrl+c")],
    ["a throw in a key's handler", 70, (op) => op.presses("T")],
    ["a rejected promise", 70, (op) => op.presses("R")],
    ["a throw while drawing", 70, (op) => op.presses("D")],
    ["SIGTERM", 143, (op) => op.kill("SIGTERM")],
    ["SIGINT", 130, (op) => op.kill("SIGINT")],
    ["SIGHUP", 129, (op) => op.kill("SIGHUP")],
  ];

  test.each(ends)("after %s, and the exit code is %i", async (_, code, end) => {
    const op = await tiny();
    expect(op.onAlternateScreen()).toBe(true);
    expect(op.cursorShown()).toBe(false);
    await end(op);
    expect(await op.exit()).toBe(code);
    expect(op.onAlternateScreen()).toBe(false);
    expect(op.cursorShown()).toBe(true);
    expect(op.modes()).toEqual({ bracketedPaste: false, wraparound: true });
    expect(op.screen().join("\n")).not.toContain("q quit");
  });

  test.each([
    ["T", "thrown by a key"],
    ["R", "rejected by a key"],
    ["D", "thrown while drawing"],
  ])("and tells what went wrong on it: %s", async (key, story) => {
    const op = await tiny();
    await op.presses(key);
    await op.exit();
    const told = op.screen().join("\n");
    expect(told).toContain("Sievewright stopped because of a fault of its own");
    expect(told).toContain(story);
  });

  test.each(["q", "T", "D"])(
    "for the shell that comes back after %s: its text, its echo, its line editing",
    async (key) => {
      const command = `echo before; node '${program}' 2>/dev/null; stty -a | tr ';' '\\n'; echo after`;
      const op = await tiny({ command: ["sh", "-c", command], rows: 60 });
      await op.presses(key);
      await op.exit();
      const shell = op.screen().join("\n");
      expect(shell).toMatch(/^before\n/);
      expect(shell).toMatch(/(?<!-)\bicanon\b/);
      expect(shell).toMatch(/(?<!-)\becho\b/);
      expect(shell).toMatch(/(?<!-)\bicrnl\b/);
      expect(shell).toMatch(/\nafter\n/);
    },
  );
});

test("a terminal that goes away ends the program", async () => {
  const op = await tiny();
  op.loseTerminal();
  expect(await op.exit()).toBe(129);
});

describe("without a terminal", () => {
  const run = (env: NodeJS.ProcessEnv = {}) =>
    spawnSync(process.execPath, [program], { env: { PATH: process.env.PATH, ...env }, encoding: "utf8", input: "" });

  test("says so on standard error, writes nothing else and ends with 64", () => {
    const { status, stdout, stderr } = run();
    expect(stderr).toBe("the screens need a terminal, but the output goes to a file or a pipe\n");
    expect({ status, stdout }).toEqual({ status: 64, stdout: "" });
  });

  test("says so where only the keyboard is missing", async () => {
    const op = await startOperator({ command: ["sh", "-c", `node '${program}' </dev/null`] });
    expect(await op.exit()).toBe(64);
    expect(op.screen()[0]).toBe("the screens need a keyboard, but the input comes from a file or a pipe");
  });

  test("says so on one that can't place text", async () => {
    const op = await startOperator({ program, env: { TERM: "dumb" } });
    expect(await op.exit()).toBe(64);
    expect(op.raw()).toBe("this terminal (TERM=dumb) can't place text on the screen; use another one\r\n");
  });
});

test("no process of the tiny program outlives its operator", async () => {
  const op = await tiny();
  await op.leaves();
  const processes = execFileSync("ps", ["-eo", "args"], { encoding: "utf8" });
  expect(processes).not.toContain(program);
});
