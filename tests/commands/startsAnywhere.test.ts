import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { chmodSync, cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { Script } from "node:vm";
import { afterAll, beforeEach, describe, expect, test } from "vitest";

const dist = fileURLToPath(new URL("../../dist", import.meta.url));
const root = mkdtempSync(join(tmpdir(), "sievewright moved ä-"));
afterAll(() => rmSync(root, { recursive: true, force: true }));

let folder: string;
const named = (end: string): string => {
  const found = readdirSync(folder).find((name) => name.startsWith("program-") && name.endsWith(end));
  if (found === undefined) throw new Error(`no program${end} in ${folder}`);
  return join(folder, found);
};
const run = () => {
  const { status, stdout, stderr } = spawnSync(process.execPath, [join(folder, "sievewright.mjs"), "sieves", "600"], {
    encoding: "utf8",
  });
  return { status, stderr, told: stdout.includes("600") };
};
const WELL = { status: 0, stderr: "", told: true };

beforeEach(() => {
  folder = mkdtempSync(join(root, "dist-"));
  cpSync(dist, folder, { recursive: true });
});

describe("the built program, wherever its folder lies", () => {
  test("takes the code that was compiled ahead of it", () => {
    const file = readFileSync(named(".compiled"));
    const code = file.subarray(32);
    expect(createHash("sha256").update(code).digest()).toEqual(file.subarray(0, 32));
    expect(new Script(readFileSync(named(".js"), "latin1"), { cachedData: code }).cachedDataRejected).toBe(false);
  });

  test("has one byte a character, as it is read", () =>
    expect(readFileSync(named(".js"), "utf8")).toMatch(/^[\x00-\x7f]*$/));

  test("starts from a folder that was moved and can't be written", () => {
    chmodSync(folder, 0o555);
    expect(run()).toEqual(WELL);
    chmodSync(folder, 0o755);
  });

  test("starts without the compiled code", () => {
    rmSync(named(".compiled"));
    expect(run()).toEqual(WELL);
  });

  test.each([
    ["empty", () => Buffer.alloc(0)],
    ["cut short", (file: Buffer) => file.subarray(0, 100_000)],
    ["changed in its midst", (file: Buffer) => file.fill(0xff, 500_000, 500_100)],
    ["of something else", () => Buffer.alloc(2_000_000, 7)],
  ])("starts with compiled code that is %s", (_, spoilt) => {
    writeFileSync(named(".compiled"), spoilt(readFileSync(named(".compiled"))));
    expect(run()).toEqual(WELL);
  });
});
