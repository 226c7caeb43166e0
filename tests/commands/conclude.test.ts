import { Writable } from "node:stream";
import { describe, expect, test } from "vitest";
import { conclude } from "../../src/commands/conclude.ts";
import { done, faulty } from "../../src/commands/ending.ts";
import type { Io } from "../../src/commands/io.ts";

/** A stream that fails with this code once it was written to so many times. */
function stream(failsAfter = Number.POSITIVE_INFINITY, code = "EPIPE") {
  const parts: string[] = [];
  const output = new Writable({
    write(part, _encoding, written) {
      if (parts.length >= failsAfter) return written(Object.assign(new Error(`write ${code}`), { code }));
      parts.push(String(part));
      written();
    },
  });
  return Object.assign(output, { parts });
}

const io = (stdout: ReturnType<typeof stream>, stderr = stream()): Io & { stderr: ReturnType<typeof stream> } => ({
  stdout,
  stderr,
  stdin: stream() as unknown as Io["stdin"],
  env: {},
  now: () => "2026-11-24T03:12:05+01:00",
  version: "0",
  askHidden: async () => null,
  showDemo: async () => done(""),
  screensHelp: async () => ({ places: [], everywhere: [] }),
});

async function* endless() {
  for (;;) yield "a line\n";
}

describe("how a command ends", () => {
  test("a result goes to standard output, whole, and the code is its own", async () => {
    const stdout = stream();
    const machine = io(stdout);
    expect(await conclude(done("result\n", 2), machine)).toBe(2);
    expect([stdout.parts, machine.stderr.parts]).toEqual([["result\n"], []]);
  });

  test("a fault is one line on standard error, whatever stands in it", async () => {
    const stdout = stream();
    const machine = io(stdout);
    expect(await conclude(faulty(65, "a\n  b\u001b[2Jc "), machine)).toBe(65);
    expect(stdout.parts).toEqual([]);
    expect(machine.stderr.parts).toEqual(["sievewright: a b·c\n"]);
  });

  test("a reader that hangs up ends even an endless result, quietly", async () => {
    const stdout = stream(3);
    const machine = io(stdout);
    expect(await conclude({ code: 0, out: endless() }, machine)).toBe(0);
    expect(stdout.parts).toHaveLength(3);
    expect(machine.stderr.parts).toEqual([]);
  });

  test("a disk that is full is told, 74", async () => {
    const machine = io(stream(1, "ENOSPC"));
    expect(await conclude({ code: 0, out: endless() }, machine)).toBe(74);
    expect(machine.stderr.parts).toEqual(["sievewright: the result can't be written: write ENOSPC\n"]);
  });

  test("a remark after the result makes the code 1; without one the code stays", async () => {
    const machine = io(stream());
    expect(await conclude({ code: 0, out: "x\n", remark: () => "a day is missing" }, machine)).toBe(1);
    expect(machine.stderr.parts).toEqual(["sievewright: a day is missing\n"]);
    expect(await conclude({ code: 0, out: "x\n", remark: () => null }, io(stream()))).toBe(0);
  });
});
