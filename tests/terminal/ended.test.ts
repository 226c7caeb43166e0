import { spawn } from "node:child_process";
import { once } from "node:events";
import { existsSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { homedir, tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterEach, describe, expect, test, vi } from "vitest";
import { beneath, type Crash } from "../faults/beneath.ts";
import { fullOnDisk, LOT, resumed, SOUND, soundness, stationInWork, weighed, weighsFull } from "../faults/inWork.ts";
import { must } from "../store/opened.ts";
import { note } from "../store/records.ts";
import { type Operator, operatorsLeave } from "./operator.ts";
import { opened } from "./stationOf.ts";

vi.setConfig({ testTimeout: 90_000 });
afterEach(operatorsLeave);

interface AtWork {
  readonly folder: string;
  readonly op: Operator;
}

/** Two masses accepted, a third half typed, in a window wide enough for paths. */
async function atWork(env: Readonly<Record<string, string>> = {}): Promise<AtWork> {
  const folder = await stationInWork();
  const op = await resumed(folder, { env, cols: 160, rows: 30 });
  await weighsFull(op, 0, 2);
  await op.types("49");
  await op.sees("49▌");
  return { folder, op };
}

async function crashed(how: Crash): Promise<AtWork> {
  const below = beneath();
  const work = await atWork(below.env);
  below.crashes(how);
  const poking = setInterval(() => work.op.sends("1"), 50); // some faults wait for a key, or for something to draw
  expect(await work.op.exit().finally(() => clearInterval(poking))).toBe(70);
  return work;
}

function expectTerminalGivenBack(op: Operator): void {
  expect(op.onAlternateScreen()).toBe(false);
  expect(op.cursorShown()).toBe(true);
  expect(op.modes()).toEqual({ bracketedPaste: false, wraparound: true });
}

/** What was accepted is on disk; the number that was being typed is gone. */
async function expectOnlyTypingLost(folder: string): Promise<void> {
  expect(fullOnDisk(folder)).toEqual(weighed(2));
  expect(await soundness(folder)).toEqual(SOUND);
}

async function expectWorkGoesOn(folder: string): Promise<void> {
  const again = await resumed(folder);
  await again.sees("weigh full 2/6");
  expect(again.screen().join("\n")).not.toContain("49▌");
  await weighsFull(again, 2, 3);
  expect(fullOnDisk(folder)).toEqual(weighed(3));
}

/** A report is short, for one's own eyes, and names nobody and nothing that was entered. */
function expectDiscreet(path: string, folder: string): void {
  const report = readFileSync(path, "utf8");
  expect(report.length).toBeLessThan(4000);
  for (const entered of [LOT, "K. Orr", "TH-0510", "418.02", "455.2", folder, homedir(), tmpdir()])
    expect(report).not.toContain(entered);
  if (process.platform === "win32") return;
  expect([dirname(path), path].map((one) => statSync(one).mode & 0o777)).toEqual([0o700, 0o600]);
}

const told = (op: Operator): string => op.screen().join("\n");
const reportPath = (op: Operator): string => /A report is in (.+)/.exec(told(op))?.[1] ?? `none:\n${told(op)}`;

describe("a fault of the program itself", () => {
  const CRASHES: readonly (readonly [string, Crash, string])[] = [
    ["an uncaught exception", "throw", "thrown by nobody's key"],
    ["an unhandled rejection", "reject", "a promise that nobody kept"],
    ["a throw in a key's handler", "key", "thrown in a key's handler"],
    ["a throw while drawing", "draw", "thrown while drawing a rule"],
  ];

  test.each(CRASHES)("%s gives the terminal back, ends with 70, keeps the draft and leaves a report", async (...of) => {
    const [, how, story] = of;
    const { folder, op } = await crashed(how);
    expectTerminalGivenBack(op);
    expect(told(op)).toContain(`stopped because of a fault of its own (Error: ${story})`);
    expect(told(op)).toContain("Every accepted entry is on disk and nothing recorded is lost: start it again");
    expect(dirname(reportPath(op))).toBe(join(folder, "faults"));
    const report = readFileSync(reportPath(op), "utf8");
    expect(report).toMatch(/^time {5}\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d[+-]\d\d:\d\d$/m);
    expect(report).toMatch(/^version {2}\d+\.\d+\.\d+, node \d+\./m);
    expect(report).toMatch(/^place {4}run, weigh full$/m);
    expect(report).toContain(`fault    Error: ${story}\n    at `);
    expectDiscreet(reportPath(op), folder);
    await expectOnlyTypingLost(folder);
    if (how === "draw") await expectWorkGoesOn(folder);
  });

  test("leaves its report in a temporary folder where the station's can't take it", async () => {
    const below = beneath();
    const { folder, op } = await atWork(below.env);
    writeFileSync(join(folder, "faults"), "a file lies where the folder should");
    below.crashes("reject");
    expect(await op.exit()).toBe(70);
    const path = reportPath(op);
    expect(path.startsWith(join(tmpdir(), "sievewright-fault-"))).toBe(true);
    expect(readFileSync(path, "utf8")).toContain("a promise that nobody kept");
    rmSync(dirname(path), { recursive: true });
    await expectOnlyTypingLost(folder);
  });
});

describe("a terminal that goes", () => {
  test.skipIf(process.platform === "win32")("by SIGHUP costs the typing only, and work goes on", async () => {
    const { folder, op } = await atWork();
    op.kill("SIGHUP");
    expect(await op.exit()).toBe(129);
    expectTerminalGivenBack(op);
    await expectOnlyTypingLost(folder);
    expect(existsSync(join(folder, "faults"))).toBe(false); // nobody's fault
    await expectWorkGoesOn(folder);
  });

  test("with its window, output and all, costs the typing only", async () => {
    const { folder, op } = await atWork();
    op.loseTerminal();
    expect(await op.exit()).toBe(129);
    await expectOnlyTypingLost(folder);
    expect(existsSync(join(folder, "faults"))).toBe(false);
  });
});

test("a window of 20x5 says what it needs; back at 80x24 everything is there, the half-typed number too", async () => {
  const { folder, op } = await atWork();
  const smalls: readonly (readonly [number, number, string])[] = [
    [20, 5, "needs 60x16, is\n20x5: make it\nlarger, what you\ntyped is kept\n"],
    [12, 3, "needs 60x16,\nis 12x3:"],
    [1, 1, ""],
    [59, 15, "needs 60x16, is 59x15: make it larger, what you typed is kept".slice(0, 54)],
  ];
  for (const [cols, rows, words] of smalls) {
    op.resize(cols, rows);
    await op.sees(words);
  }
  op.resize(20, 5);
  await op.sees("needs 60x16, is\n20x5");
  await op.types("4."); // onto a screen that shows no field
  op.resize(80, 24);
  await op.sees("49▌");
  await op.sees("what came while the window was too small was not taken");
  await op.sees("weigh full 2/6");
  await op.types("3.5");
  await op.sees("493.5▌");
  expect(fullOnDisk(folder)).toEqual(weighed(2));
});

describe("an output pipe that is closed", () => {
  const program = fileURLToPath(new URL("../../dist/sievewright.mjs", import.meta.url));

  async function longLog(): Promise<string> {
    const folder = await stationInWork();
    const store = await opened(folder);
    const notes = Array.from({ length: 400 }, (_, n) =>
      note(`${n} ${"long words ".repeat(35)}`, "2026-11-24T09:00:00Z"),
    );
    must(await store.recordAll(notes));
    await store.close();
    return folder;
  }

  /** A command whose reader leaves after the first piece of the output, or before it. */
  async function readBriefly(args: readonly string[], reader: "leaves at once" | "reads a piece") {
    const child = spawn(process.execPath, [program, ...args], { stdio: ["ignore", "pipe", "pipe"] });
    let complaint = "";
    child.stderr.setEncoding("utf8").on("data", (text: string) => {
      complaint += text;
    });
    if (reader === "reads a piece") await once(child.stdout, "data");
    child.stdout.destroy();
    const [code] = await once(child, "close");
    return { code, complaint };
  }

  test("ends each command quietly and leaves the station sound", async () => {
    const folder = await longLog();
    const readers = [
      [["log", "--json"], "reads a piece"],
      [["verify", "--json"], "leaves at once"],
      [["product", "list"], "reads a piece"],
      [["reindex"], "leaves at once"],
    ] as const;
    for (const [command, reader] of readers) {
      const ended = await readBriefly([...command, "--data", folder], reader);
      expect([command, ended]).toEqual([command, { code: 0, complaint: "" }]);
    }
    expect(await soundness(folder)).toEqual(SOUND);
    expect(readdirSync(folder)).not.toContain("station.lock");
  });
});
