import { afterEach, describe, expect, test, vi } from "vitest";
import { bytesOf } from "./keystrokes.ts";
import { operatorsLeave, startOperator } from "./operator.ts";

vi.setConfig({ testTimeout: 60_000 });
afterEach(operatorsLeave);

/** A program that shows each key as it gets it, control characters as ^A. */
const shown = () => startOperator({ command: ["sh", "-c", "stty -icanon -echo -icrnl; echo ready; cat -v"], cols: 40 });

describe("an operator", () => {
  test("sees what the program writes, in place", async () => {
    const op = await startOperator({ command: ["printf", "\\033[3;5Hhere"], cols: 20, rows: 4 });
    await op.sees("here");
    expect(op.screen()).toEqual(["", "", "    here", ""]);
    expect(op.raw()).toBe("\x1b[3;5Hhere");
  });

  test("who doesn't see something says what was there instead", async () => {
    const op = await startOperator({ command: ["echo", "something else"], cols: 20, rows: 3 });
    await op.exit();
    await expect(op.sees("what was hoped for", 50)).rejects.toThrow(
      /did not see what was hoped for in 50 ms\n\+-{20}\+\n\|something else {6}\|\n.*the program has ended with 0/s,
    );
    await expect(op.seesNoMore("something", 50)).rejects.toThrow(/still saw something in 50 ms/);
  });

  test("types key by key and counts the keys", async () => {
    const op = await shown();
    await op.sees("ready");
    await op.types("12.5");
    await op.presses("up", "f4", "backspace", "ctrl+l", "n");
    await op.sees("12.5^[[A^[OS^?^Ln");
    expect(op.keysPressed).toBe(9);
  });

  test("scans and pastes without pressing a key", async () => {
    const op = await shown();
    await op.sees("ready");
    await op.scans("4471-B");
    op.pastes("x");
    await op.sees("4471-B^M^[[200~x^[[201~");
    expect(op.keysPressed).toBe(0);
  });

  test("gives Escape the time that tells it from a sequence", async () => {
    const op = await shown();
    await op.sees("ready");
    const began = performance.now();
    await op.presses("escape", "n");
    expect(performance.now() - began).toBeGreaterThan(80);
    await op.sees("^[n");
  });

  test("resizes the window, and the program is told", async () => {
    const op = await startOperator({
      command: ["sh", "-c", "trap 'stty size' WINCH; echo ready; while :; do sleep 0.05; done"],
    });
    await op.sees("ready");
    op.resize(101, 31);
    await op.sees("31 101");
    expect(op.screen().length).toBe(31);
  });

  test.each([
    ["exit 3", 3],
    ["kill -TERM $$", 143],
    ["true", 0],
  ])("is told how the program ended: %s is %i", async (script, code) => {
    const op = await startOperator({ command: ["sh", "-c", script] });
    expect(await op.exit()).toBe(code);
  });

  test("who waits for a program that doesn't end says so", async () => {
    const op = await startOperator({ command: ["sleep", "30"] });
    await expect(op.exit(50)).rejects.toThrow("the program has not ended in 50 ms");
    op.kill("SIGKILL");
    expect(await op.exit()).toBe(137);
  });

  test("has an environment of his own, not that of the machine that tests", async () => {
    process.env.SIEVEWRIGHT_LEAK = "1";
    const op = await startOperator({ command: ["env"], env: { TERM: "vt220", EXTRA: "yes" }, rows: 40 });
    await op.exit();
    delete process.env.SIEVEWRIGHT_LEAK;
    const names = op.screen().flatMap((row) => /^(\w+)=/.exec(row)?.[1] ?? []);
    expect(names.toSorted()).toEqual(expect.arrayContaining(["EXTRA", "HOME", "LANG", "PATH", "TERM"]));
    expect(names).not.toContain("SIEVEWRIGHT_LEAK");
    expect(names).not.toContain("CI");
    expect(op.screen()).toContain("TERM=vt220");
  });
});

describe("keys by name", () => {
  test.each([
    ["enter", "\r"],
    ["keypad enter", "\x1bOM"],
    ["ctrl+c", "\x03"],
    ["ctrl+z", "\x1a"],
    ["5", "5"],
    ["é", "é"],
    ["shift+tab", "\x1b[Z"],
  ])("%s is %j", (key, bytes) => expect(bytesOf(key)).toBe(bytes));

  test("that no terminal has are a mistake of the test", () => {
    expect(() => bytesOf("entre")).toThrow('no terminal has a key called "entre"');
    expect(() => bytesOf("")).toThrow();
  });
});
