import { afterEach, describe, expect, test, vi } from "vitest";
import { verifyLog } from "../../src/store/verify.ts";
import { recordedEntry } from "../screens/stage.ts";
import { must } from "../store/opened.ts";
import { type Operator, operatorsLeave, startOperator } from "./operator.ts";
import { opened, QUICK_SAND, stationFolder } from "./stationOf.ts";

vi.setConfig({ testTimeout: 90_000 });
afterEach(operatorsLeave);

/** At a station with one recorded test, on its page. */
async function onRecord(): Promise<{ folder: string; operator: Operator }> {
  const folder = await stationFolder([QUICK_SAND], [recordedEntry(1, "4471-B")]);
  const operator = await startOperator({ args: ["--data", folder] });
  await operator.sees(/4471-B +PASS/);
  await operator.presses("down", "enter");
  await operator.sees("signed KO");
  return { folder, operator };
}

/** The full mass of the 710 um sieve, retyped as if another display had been read. */
async function corrects(operator: Operator): Promise<void> {
  await operator.presses("e");
  await operator.sees("what to correct");
  for (let i = 0; i < 9; i++) await operator.presses("down");
  await operator.sees("▸ 710 um full");
  await operator.types("493,20");
  await operator.presses("enter");
  await operator.sees("* 493.20 g");
  await operator.types("r");
  await operator.sees("why: ");
  await operator.types("read the wrong display");
}

describe("in a real terminal", () => {
  test("a recorded weighing is corrected by keys alone, seen before it is signed, and the original stays", async () => {
    const { folder, operator } = await onRecord();
    await corrects(operator);
    await operator.presses("enter");
    await operator.sees(/710 um full g +493\.50 +\* 493\.20/);
    await operator.sees(/loss +0\.10 % +\* 0\.20 %/);
    await operator.presses("enter");
    await operator.sees("signed by  KO");
    await operator.presses("enter");
    await operator.sees(/recorded as no\. \d+: test no\. \d+ corrected/);
    await operator.sees("! corrected once");
    await operator.presses("escape");
    await operator.sees(/4471-B +PASS ✓ .* corrected/);
    await operator.presses("ctrl+c");
    expect(await operator.exit()).toBe(0);

    const store = await opened(folder);
    const [row] = await store.recentRows(1);
    expect(row).toMatchObject({ amended: { corrections: 1, voided: false, waived: false } });
    const { entry, later } = must(await store.history(row ?? { day: "", number: 0 }));
    expect(entry.test.weighings).toEqual(recordedEntry(1, "4471-B").test.weighings);
    expect(later).toMatchObject([
      { kind: "correction", by: "KO", reason: "read the wrong display", changes: [{ from: 493.5, to: 493.2 }] },
    ]);
    await store.close();
    expect(await verifyLog(folder)).toMatchObject({ ok: true });
  });

  test("killed before it is signed nothing is recorded; the test reads as it did", async () => {
    const { folder, operator } = await onRecord();
    await corrects(operator);
    await operator.presses("enter");
    await operator.sees("* 493.20");
    operator.kill();
    await operator.exit();
    const store = await opened(folder);
    const [row] = await store.recentRows(1);
    expect(row).not.toHaveProperty("amended");
    await store.close();
  });

  test("a bouncing Enter after the reason neither confirms nor signs", async () => {
    const { operator } = await onRecord();
    await corrects(operator);
    operator.sends("\r");
    operator.sends("\r");
    operator.sends("\r");
    await operator.sees("corrected");
    await operator.sees(/710 um full g +493\.50 +\* 493\.20/);
    expect(operator.screen().join("\n")).not.toContain("recorded as");
  });
});
