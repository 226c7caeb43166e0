import { existsSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { afterEach, expect, test } from "vitest";
import { operatorsLeave, startOperator } from "./operator.ts";
import { stationFolder } from "./stationOf.ts";

afterEach(operatorsLeave);

const filesOf = (folder: string) => (existsSync(folder) ? readdirSync(folder) : []);

test("a program that is killed in the middle of practice leaves no trace of it, and the next start knows nothing of it", async () => {
  const folder = await stationFolder();
  const logged = readdirSync(join(folder, "log"), { recursive: true });
  const op = await startOperator({ args: ["--data", folder] });
  await op.sees("new test");
  await op.presses("x");
  await op.sees("PRACTICE ◇");
  await op.sees("nothing of this is ever recorded");
  await op.presses("enter", "enter", "enter", "enter", "f6");
  await op.sees("weigh empty 0/6");
  await op.presses("i", "i");
  await op.sees("weigh empty 2/6");
  expect(op.screen()[0]).toContain("PRACTICE ◇");
  op.kill("SIGKILL");
  await op.exit();
  expect(filesOf(join(folder, "drafts"))).toEqual([]);
  expect(readdirSync(join(folder, "log"), { recursive: true })).toEqual(logged);

  const next = await startOperator({ args: ["--data", folder] });
  await next.sees("new test");
  expect(next.screen().join("\n")).not.toMatch(/PRACTICE|resume|tour \d/);
}, 60_000);

test("a whole practice test in the built program ends with nothing on record", async () => {
  const folder = await stationFolder();
  const op = await startOperator({ args: ["--data", folder] });
  await op.sees("new test");
  await op.presses("x");
  await op.sees("PRACTICE ◇");
  await op.presses("enter", "enter", "enter", "enter", "f6");
  await op.sees("weigh empty 0/6");
  for (let keys = 0; keys < 13; keys++) await op.presses("i");
  await op.sees("TEST");
  await op.presses("enter");
  await op.sees("NOT RECORDED");
  await op.presses("enter");
  await op.types("KO");
  await op.presses("enter");
  await op.sees("practice ended: nothing of it was recorded");
  await op.sees("no test on record yet");
  expect(filesOf(join(folder, "drafts"))).toEqual([]);
}, 60_000);
