import { readFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, expect, test, vi } from "vitest";
import { builtRun } from "../commands/realProcess.ts";
import { operatorsLeave, startOperator } from "./operator.ts";
import { stationFolder } from "./stationOf.ts";

vi.setConfig({ testTimeout: 120_000 });
afterEach(operatorsLeave);

const BUILT = 60_000;

test("sign-on from the first administrator to a command of the next shift, at a real terminal", async () => {
  const folder = await stationFolder();
  const op = await startOperator({ args: ["--data", folder] });
  await op.sees("new test", BUILT);
  await op.presses("a");
  await op.sees("initials are not checked by PIN at this station");
  await op.presses("n");
  await op.sees("set sign-on up");
  for (const answer of ["SB", "S. Baro", "471108", "471108"]) {
    await op.types(answer);
    await op.presses("enter");
  }
  await op.sees("recovery code", BUILT);
  expect(op.raw()).not.toContain("471108");
  await op.presses("enter");
  await op.sees("people sign on at this station");
  await op.presses("n");
  await op.sees("add somebody");
  for (const answer of ["KO", "K. Orr", "1", "190734", "190734"]) {
    await op.types(answer);
    await op.presses("enter");
  }
  await op.sees("KO: added", BUILT);
  await op.presses("escape");
  await op.sees("SB administrator");
  await op.presses("o");
  await op.sees("SB S. Baro is signed on");
  await op.types("KO");
  await op.presses("enter");
  await op.types("190735");
  await op.presses("enter");
  await op.sees("initials and PIN don't match", BUILT);
  await op.types("190734");
  await op.presses("enter");
  await op.sees("KO operator", BUILT);
  expect(op.raw()).not.toContain("190734");
  await op.presses("q");
  expect(await op.exit()).toBe(0);

  const list = readFileSync(join(folder, "operators.json"), "utf8");
  expect(list).not.toMatch(/471108|190734/);
  const unsigned = builtRun(["operator", "retire", "KO", "--data", folder, "--as", "SB"]);
  expect(unsigned).toMatchObject({ status: 64, stdout: "" });
  const asKo = builtRun(["operator", "retire", "SB", "--data", folder, "--as", "KO"], "", {
    SIEVEWRIGHT_PIN: "190734",
  });
  expect(asKo.status).toBe(77);
  expect(asKo.stderr).toContain("to manage operators takes an administrator");

  const typed = await startOperator({
    args: ["operator", "role", "KO", "quality", "--data", folder, "--as", "SB"],
  });
  await typed.sees("PIN of SB:", BUILT);
  await typed.types("471108");
  expect(typed.raw()).not.toContain("471108");
  await typed.presses("enter");
  await typed.sees("KO is quality from now on", BUILT);
  expect(await typed.exit()).toBe(0);
  expect(builtRun(["verify", "--data", folder]).status).toBe(0);

  const begun = await startOperator({ args: ["--data", folder] });
  await begun.sees("sign on · TH-DRY1", BUILT);
  await begun.presses("ctrl+c");
  expect(await begun.exit()).toBe(0);
});
