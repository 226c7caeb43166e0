import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, expect, onTestFinished, test } from "vitest";
import { type Operator, operatorsLeave, startOperator } from "./operator.ts";
import { QUICK_SAND, stationFolder } from "./stationOf.ts";

afterEach(operatorsLeave);

async function atStation(folder: string): Promise<Operator> {
  const operator = await startOperator({ args: ["--data", folder] });
  await operator.sees("no test on record");
  return operator;
}

/** From the bench to the envelope of the product's draft. */
async function drafts(operator: Operator, who: string): Promise<void> {
  await operator.presses("p");
  await operator.sees("type to find");
  await operator.presses("enter");
  await operator.sees("revision 3 · in force");
  await operator.presses("e");
  await operator.sees("who writes the next revision?");
  await operator.types(who);
  await operator.presses("enter");
  await operator.sees("draft of revision 4");
}

const draftIn = (folder: string) =>
  JSON.parse(readFileSync(join(folder, "library/product-drafts/TH-0510.json"), "utf8"));

test("a limit is edited, published by somebody else, and the next test is set out with the new revision", async () => {
  const folder = await stationFolder([QUICK_SAND]);
  const operator = await atStation(folder);
  await drafts(operator, "KO");
  await operator.sees(/▸ passing 1\.40 mm % +95▌/);
  await operator.types("97.5");
  await operator.presses("enter");
  await operator.sees(/▸ passing 1\.40 mm % +97\.5 +100▌/);
  await operator.presses("p");
  await operator.sees("passing at 1.40 mm: at least 95 % -> 97.5 %");
  await operator.types("finer sand asked for");
  await operator.presses("enter");
  await operator.sees("a day like");
  await operator.presses("enter");
  await operator.sees("your initials");
  await operator.types("SB");
  await operator.presses("enter");
  await operator.sees("SB is not known at this station");
  await operator.presses("enter");
  await operator.sees("published: TH-0510 revision 4");
  await operator.sees("written by KO · approved by SB");
  await operator.presses("escape", "escape");
  await operator.sees("new test");
  await operator.presses("n");
  await operator.sees("TH-0510  filter sand 0.5-1.0 mm  rev 4");
  await operator.presses("enter");
  await operator.types("4471");
  await operator.presses("enter", "enter", "enter");
  await operator.types("300.20");
  await operator.presses("enter");
  await operator.sees("weigh empty 0/6");
  await operator.sees("97.5 – 100");
  await operator.presses("ctrl+c");
  expect(await operator.exit()).toBe(0);
});

test("a bound that was accepted survives the end of the program; what was half typed does not become one", async () => {
  const folder = await stationFolder([QUICK_SAND]);
  const operator = await atStation(folder);
  await drafts(operator, "KO");
  await operator.types("96");
  await operator.presses("enter");
  await operator.sees(/▸ passing 1\.40 mm % +96 /);
  await operator.types("99");
  await operator.sees("99▌");
  operator.kill("SIGKILL");
  await operator.exit();
  expect(draftIn(folder)).toMatchObject({
    revision: 4,
    author: "KO",
    envelope: [{ passingPct: { min: 96, max: 100 } }, {}],
  });
  const again = await atStation(folder);
  await again.presses("p");
  await again.sees("rev 3, draft 4");
  await again.presses("enter");
  await again.sees("draft of revision 4 by KO");
  await again.presses("ctrl+c");
  expect(await again.exit()).toBe(0);
});

test("what the plant shares is looked at, loaded, and there from then on", async () => {
  const plant = mkdtempSync(join(tmpdir(), "sievewright-plant-"));
  onTestFinished(() => rmSync(plant, { recursive: true, force: true }));
  mkdirSync(join(plant, "products"));
  writeFileSync(join(plant, "products/new.json"), JSON.stringify({ ...QUICK_SAND, code: "TH-NEW", name: "new sand" }));
  writeFileSync(join(plant, "products/bad.json"), "{");
  const folder = await stationFolder([QUICK_SAND]);
  const stationFile = join(folder, "station.json");
  writeFileSync(stationFile, JSON.stringify({ ...JSON.parse(readFileSync(stationFile, "utf8")), sharedFolder: plant }));
  const operator = await atStation(folder);
  await operator.presses("p");
  await operator.sees("type to find");
  await operator.presses("f2");
  await operator.sees("Enter loads 1 new");
  await operator.sees(/refused ✗ +products\/bad\.json/);
  await operator.types("KO");
  await operator.presses("enter");
  await operator.sees("loaded: 1, refused: 1");
  await operator.presses("escape");
  await operator.sees("TH-NEW");
  await operator.presses("ctrl+c");
  expect(await operator.exit()).toBe(0);
});
