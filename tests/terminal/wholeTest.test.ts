import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test, vi } from "vitest";
import { EMPTY_G, FILTER_SAND, FULL_G } from "../run/hands.ts";
import { recordedEntry } from "../screens/stage.ts";
import { type Operator, startOperator } from "./operator.ts";
import { opened, QUICK_SAND, stationFolder } from "./stationOf.ts";

const two = (grams: number) => grams.toFixed(2);

async function atStation(folder: string, size: { cols?: number; rows?: number } = {}): Promise<Operator> {
  const operator = await startOperator({ args: ["--data", folder], ...size });
  await operator.sees("new test");
  await operator.sees(/no test on record|recorded {4}product/);
  return operator;
}

/** From the bench to the first empty sieve; the lot is typed, as there is no last test to take it from. */
async function setsOut(operator: Operator, lot = "4471"): Promise<void> {
  await operator.presses("1", "enter");
  await operator.types(lot);
  await operator.presses("enter", "enter", "enter");
  await operator.types("300.20");
  await operator.presses("enter");
  await operator.sees("weigh empty 0/6");
}

/** A balance that types: each mass is one burst with its Enter. */
async function balanceTypes(operator: Operator, masses: readonly number[]): Promise<void> {
  for (const [row, grams] of masses.entries()) {
    await operator.scans(`+  ${two(grams)} g`);
    // The last one leads on to another place.
    if (row < masses.length - 1) await operator.sees(two(grams));
  }
}

async function weighs(operator: Operator, masses: readonly number[]): Promise<void> {
  for (const grams of masses) {
    await operator.types(two(grams));
    await operator.presses("enter");
  }
}

async function shakes(operator: Operator): Promise<void> {
  await operator.sees("clamp it, start it");
  await operator.presses("enter");
  await operator.sees("time is up", 10_000);
  await operator.presses("enter");
  await operator.sees("weigh full 0/6");
}

const draftsOnDisk = (folder: string) =>
  readdirSync(join(folder, "drafts")).map((name) => JSON.parse(readFileSync(join(folder, "drafts", name), "utf8")));

vi.setConfig({ testTimeout: 90_000 });

describe("a whole six-row test in a real terminal", () => {
  test("by numeric keypad keys alone, at most twelve keys besides the weighings, and it is on record", async () => {
    const folder = await stationFolder([QUICK_SAND], [recordedEntry(1, "4471-B")]);
    const operator = await atStation(folder);
    await operator.presses("1", "enter", "enter", "enter", "enter");
    await operator.types("300.20");
    await operator.presses("enter");
    await weighs(operator, EMPTY_G);
    await shakes(operator);
    await weighs(operator, FULL_G);
    await operator.sees("TEST VALID ✓  PASS ✓");
    await operator.presses("enter", "enter");
    await operator.sees("signed by  KO");
    await operator.presses("enter");
    await operator.sees(/recorded as no\. \d/);
    const weighingKeys = [300.2, ...EMPTY_G, ...FULL_G].reduce((keys, grams) => keys + two(grams).length + 1, 0);
    expect(operator.keysPressed - weighingKeys).toBeLessThanOrEqual(12);
    await operator.presses("ctrl+c");
    expect(await operator.exit()).toBe(0);

    const store = await opened(folder);
    const [row] = await store.recentRows(1);
    const said = {
      product: "TH-0510",
      lot: "4471-B",
      test: "valid",
      verdict: "pass",
      by: "KO",
      disposition: "release",
    };
    expect(row).toMatchObject(said);
    await store.close();
  });

  test("a wrong mass is doubted, accepted, seen on the result, corrected and kept on the trail", async () => {
    const folder = await stationFolder();
    const operator = await atStation(folder);
    await setsOut(operator);
    await balanceTypes(operator, EMPTY_G);
    await shakes(operator);
    await operator.types("421.02");
    await operator.presses("enter");
    await balanceTypes(operator, FULL_G.slice(1));
    await operator.sees("more than the charge");
    await operator.presses("enter");
    await operator.sees("TEST INVALID !");
    await operator.presses("f");
    await operator.sees("weigh full 6/6");
    await operator.types("418.02");
    await operator.presses("enter");
    await operator.presses("enter", "enter", "enter", "enter", "enter");
    await operator.sees("TEST VALID ✓  PASS ✓");
    const [draft] = draftsOnDisk(folder);
    expect(draft.trail.at(-1)).toMatchObject({ field: "fullG", apertureUm: 1400, from: 421.02, to: 418.02 });
    await operator.presses("ctrl+c");
    await operator.exit();
  });

  test("killed after the fourth weighing: all four are there again, and the next row is in hand", async () => {
    const folder = await stationFolder();
    const operator = await atStation(folder);
    await setsOut(operator);
    await balanceTypes(operator, EMPTY_G.slice(0, 4));
    await operator.sees("weigh empty 4/6");
    await operator.sees("▸ 355 um");
    operator.kill("SIGKILL");
    await operator.exit();

    const [draft] = draftsOnDisk(folder);
    expect(draft.weighings.map((w: { emptyG: number | null }) => w.emptyG)).toEqual([
      ...EMPTY_G.slice(0, 4),
      null,
      null,
    ]);
    const again = await atStation(folder);
    await again.sees(/resume +TH-0510 +lot 4471.*weigh empty, 4 of 6 done/);
    await again.presses("enter");
    await again.sees("▸ 355 um");
    for (const grams of EMPTY_G.slice(0, 4)) expect(again.screen().join("\n")).toContain(two(grams));
    await again.presses("ctrl+c");
    await again.exit();
  });

  test("the countdown goes on over a restart of the program", async () => {
    const folder = await stationFolder([FILTER_SAND]);
    const operator = await atStation(folder);
    await setsOut(operator);
    await balanceTypes(operator, EMPTY_G);
    await operator.presses("enter");
    await operator.sees(/9:\d\d to go/);
    operator.kill("SIGKILL");
    await operator.exit();
    const again = await atStation(folder);
    await again.sees(/shaking, 10 min to go/);
    await again.presses("enter");
    await again.sees(/9:\d\d to go/);
    await again.presses("ctrl+c");
    await again.exit();
  });

  test("the recorded test is found by its lot the next day and opens as it was judged", async () => {
    const folder = await stationFolder();
    const operator = await atStation(folder);
    await setsOut(operator, "0911");
    await balanceTypes(operator, EMPTY_G);
    await shakes(operator);
    await balanceTypes(operator, FULL_G);
    await operator.presses("enter", "enter");
    await operator.types("KO");
    await operator.presses("enter");
    await operator.sees(/recorded as no\. \d/);
    await operator.presses("q");
    await operator.exit();

    const tomorrow = await atStation(folder);
    await tomorrow.presses("l");
    await tomorrow.types("0911");
    await tomorrow.sees("1 test ");
    await tomorrow.presses("enter");
    await tomorrow.sees("TEST VALID ✓  PASS ✓");
    await tomorrow.sees(/1\.00 mm +56\.46 +18\.83 +79\.27 +±\d\.\d\d +75 – 95/);
    await tomorrow.sees("signed KO");
    await tomorrow.presses("ctrl+c");
    await tomorrow.exit();
  });

  test("the window is resized while a mass is typed: what was typed stays, the frame fits", async () => {
    const folder = await stationFolder();
    const operator = await atStation(folder);
    await setsOut(operator);
    await operator.types("412");
    operator.resize(100, 30);
    await operator.types(".3");
    await operator.sees("412.3▌");
    operator.resize(50, 12);
    await operator.sees("needs 60x16");
    operator.resize(80, 24);
    await operator.sees("412.3▌");
    await operator.types("1");
    await operator.presses("enter");
    await operator.sees("412.31");
    await operator.sees("weigh empty 1/6");
    expect(operator.screen().at(-1)).toBe("");
    await operator.presses("ctrl+c");
    await operator.exit();
  });

  test("a scanner or a balance that types lands as one entry in the field in hand", async () => {
    const folder = await stationFolder();
    const operator = await atStation(folder);
    await operator.scans("TH-0510");
    await operator.sees("set out");
    await operator.presses("enter");
    await operator.scans("4471-B");
    await operator.presses("enter", "enter");
    await operator.scans("+  300.20 g");
    await operator.sees("weigh empty 0/6");
    await operator.scans("+  412.31 g");
    await operator.sees("weigh empty 1/6");
    expect(operator.screen().join("\n")).toContain("lot 4471-B");
    await operator.presses("ctrl+c");
    await operator.exit();
  });
});

test("a second window on the same station opens for reading and says who has it", async () => {
  const folder = await stationFolder();
  const first = await atStation(folder);
  const second = await startOperator({ args: ["--data", folder] });
  await second.sees(/read only: another Sievewright \(process \d+/);
  await second.presses("n");
  await second.sees("process");
  expect(second.screen().join("\n")).not.toContain("set out");
  await second.presses("q");
  expect(await second.exit()).toBe(0);
  await first.presses("q");
  expect(await first.exit()).toBe(0);
});

test("the product stands in the test as it was, whatever the library says later", async () => {
  const folder = await stationFolder();
  const operator = await atStation(folder);
  await setsOut(operator);
  await balanceTypes(operator, EMPTY_G.slice(0, 1));
  await operator.presses("ctrl+c");
  await operator.exit();
  const store = await opened(folder);
  const stricter = { ...QUICK_SAND, revision: 4, envelope: [{ apertureUm: 1400, passingPct: { min: 99.9 } }] };
  const added = await store.addProduct(stricter, {
    fromPath: "t",
    bytesSha256: "1".repeat(64),
    by: "SB",
    at: "2026-11-02T06:00:00+01:00",
  });
  expect(added.ok).toBe(true);
  await store.close();
  const again = await atStation(folder);
  await again.presses("enter");
  await again.sees("rev 3");
  await again.sees("95 – 100");
  await again.presses("ctrl+c");
  await again.exit();
});
