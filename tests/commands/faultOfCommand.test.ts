import { spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, expect, test } from "vitest";
import { withSum } from "../../src/store/summedCodec.ts";

const program = fileURLToPath(new URL("../../dist/sievewright.mjs", import.meta.url));
const root = mkdtempSync(join(tmpdir(), "sievewright-fault-"));
afterAll(() => rmSync(root, { recursive: true, force: true }));

const run = (...args: string[]) =>
  spawnSync(process.execPath, [program, ...args, "--data", join(root, "station")], {
    encoding: "utf8",
    env: { ...process.env, TMPDIR: root },
  });

/** The newest day with a test that lacks everything, under the sum that its text has: as only a forger leaves it. */
function forge() {
  const log = join(root, "station", "log");
  const days = readdirSync(log, { recursive: true, encoding: "utf8" }).filter((name) => /\d\.json$/.test(name));
  const day = join(log, days.toSorted().at(-1) ?? "");
  const { sum: _, ...content } = JSON.parse(readFileSync(day, "utf8"));
  content.entries = content.entries.map(({ test: _test, ...entry }: { test?: object }) => entry);
  writeFileSync(day, withSum(`${JSON.stringify(content, null, 2)}\n`));
}

test("a command that meets a fault of the program tells it in a few lines and where its report is", () => {
  expect(run("demo", "--fill", "12").status).toBe(0);
  forge();
  const { status, stderr } = run("log");
  expect(status).toBe(70);
  expect(stderr).toMatch(/stopped because of a fault of its own \(TypeError: .*\n.*nothing recorded is lost/);
  expect(stderr.length).toBeLessThan(1000);
  const [, report = ""] = /A report is in (.*)\n/.exec(stderr) ?? [];
  expect(readFileSync(report, "utf8")).toMatch(/place +a command/);
});
