import { expect, test, vi } from "vitest";
import type { Product } from "../../src/record/product.ts";
import type { Station } from "../../src/record/station.ts";
import { BUDGET_MODEL } from "../../src/record/uncertainty.ts";
import { EMPTY_G, FULL_G } from "../run/hands.ts";
import { recordedEntry, STATION } from "../screens/stage.ts";
import { startOperator } from "./operator.ts";
import { opened, QUICK_SAND, stationFolder } from "./stationOf.ts";

vi.setConfig({ testTimeout: 90_000 });

/** 41.82 % pass 710 um: inside the limit, by less than its guard band. */
const GUARDED: Product = {
  ...QUICK_SAND,
  envelope: [{ apertureUm: 710, passingPct: { max: 42 }, decision: { rule: "guarded", guard: { r: 0.5 } } }],
  values: [],
  material: { particleDensityKgM3: 2650 },
  uncertainty: { sampling: { sdPctAt50: 0.5 } },
};
const BALANCE = { id: "B1", capacityG: 3100, readabilityG: 0.01, repeatabilityG: 0.01, linearityG: 0.02 };
const KNOWN: Station = { ...STATION, balances: [BALANCE] };

test("a guarded limit that is met by too little is borderline from the weighing to the record, and says why", async () => {
  const folder = await stationFolder([GUARDED], [recordedEntry(1, "4471-B")], KNOWN);
  const operator = await startOperator({ args: ["--data", folder] });
  await operator.sees("new test");
  await operator.presses("1", "enter", "enter", "enter", "enter");
  await operator.types("300.20");
  await operator.presses("enter");
  for (const grams of EMPTY_G) {
    await operator.types(grams.toFixed(2));
    await operator.presses("enter");
  }
  await operator.sees("clamp it, start it");
  await operator.presses("enter");
  await operator.sees("time is up", 10_000);
  await operator.presses("enter");
  for (const grams of FULL_G) {
    await operator.types(grams.toFixed(2));
    await operator.presses("enter");
  }
  await operator.sees("BORDERLINE ~");
  await operator.sees(/710 um +\d+\.\d\d +\d+\.\d\d +41\.82 +±\d\.\d\d +≤ 42 +~/);
  await operator.sees(/decides: passing 710 um 41\.82 % ±\d\.\d\d, BORDERLINE: inside at most 42/);
  await operator.sees("not sure enough to pass");
  await operator.presses("v", "v");
  await operator.sees("how sure is each limit?");
  await operator.presses("v");
  await operator.sees("what makes it uncertain?");
  await operator.presses("enter");
  await operator.sees("BORDERLINE ~");
  await operator.presses("enter", "enter");
  await operator.sees(/recorded as no\. \d/);
  await operator.presses("ctrl+c");
  expect(await operator.exit()).toBe(0);

  const store = await opened(folder, KNOWN);
  const [row] = await store.recentRows(1);
  expect(row).toMatchObject({ test: "valid", verdict: "borderline" });
  if (!row) throw new Error("nothing is on record");
  const history = await store.history(row);
  await store.close();
  if (!history.ok) throw new Error(history.reason);
  const { test: recorded } = history.value.entry;
  // All that it was judged with is in the record itself.
  expect(recorded).toMatchObject({
    balance: BALANCE,
    signed: { product: "borderline", budget: BUDGET_MODEL },
    product: { material: GUARDED.material, uncertainty: GUARDED.uncertainty, envelope: GUARDED.envelope },
  });
  const page = await startOperator({ args: ["record", String(row.number), "--data", folder], cols: 100, rows: 140 });
  expect(await page.exit()).toBe(0);
  const text = page.screen().join(" ").replace(/\s+/g, " ");
  expect(text).toContain("signed as TEST VALID ✓ PRODUCT BORDERLINE ~");
  expect(text).not.toContain("this program computes other verdicts");
  expect(text).toContain("repeatability: each reading with a standard deviation of 0.01 g");
});
