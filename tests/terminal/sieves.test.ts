import { afterEach, expect, test } from "vitest";
import { SERIALS, weighed, withSet } from "../store/careWorld.ts";
import { must } from "../store/opened.ts";
import { operatorsLeave, startOperator } from "./operator.ts";
import { opened, QUICK_SAND, stationFolder } from "./stationOf.ts";

afterEach(operatorsLeave);

/** A station whose set was used in 14 tests. */
async function withTests(): Promise<string> {
  const folder = await stationFolder([QUICK_SAND]);
  const store = await withSet(await opened(folder));
  for (let i = 0; i < 14; i++)
    must(await store.record(weighed(`T-${i}`, `2026-11-20T${String(6 + i).padStart(2, "0")}:00:00+01:00`)));
  await store.close();
  return folder;
}

test("a cleaning is noted, and stands in the life of the sieve after the program was started again", async () => {
  const folder = await withTests();
  const operator = await startOperator({ args: ["--data", folder] });
  await operator.sees("TH-0510");
  await operator.presses("s");
  await operator.sees("SET-A");
  for (const serial of SERIALS) await operator.sees(serial);
  await operator.types("0710");
  await operator.presses("enter");
  await operator.sees(/S-0710-1 · 710 um/);
  await operator.presses("c");
  await operator.sees("this sieve, others by serial, or a whole set by its code");
  await operator.presses("enter");
  await operator.sees("1  brush");
  await operator.types("2");
  await operator.presses("enter");
  await operator.types("402.01");
  await operator.presses("enter");
  await operator.types("5 min");
  await operator.presses("enter");
  await operator.sees("your initials");
  await operator.types("KO");
  await operator.presses("enter");
  await operator.sees("sieve S-0710-1 cleaned: ultrasonic");
  await operator.presses("v");
  await operator.sees(/cleaned: ultrasonic, empty 402\.01 g after \(5 min\) +KO/);
  await operator.presses("v");
  await operator.sees("15 empty weighings");
  await operator.presses("ctrl+c");
  expect(await operator.exit()).toBe(0);

  const again = await startOperator({ args: ["--data", folder], cols: 120, rows: 40 });
  await again.sees("TH-0510");
  await again.presses("s");
  await again.sees("SET-A");
  await again.scans("S-0710-1");
  await again.sees("S-0710-1 · 710 um");
  await again.presses("v");
  await again.sees(/cleaned: ultrasonic, empty 402\.01 g after \(5 min\) +KO/);
  await again.presses("ctrl+c");
  expect(await again.exit()).toBe(0);
});
