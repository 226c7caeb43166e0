import { describe, expect, test } from "vitest";
import type { NewEntry } from "../../src/record/logEntry.ts";
import { readSuspects } from "../../src/store/suspectReading.ts";
import { cared } from "./careWorld.ts";
import { must, mustNot, opened } from "./opened.ts";
import { OFF_UM, SAND_PRODUCT, SAND_SERIALS, sandEntry, sandRegister, sandTests } from "./suspectWorld.ts";
import { temporaryFolder } from "./temporaryFolder.ts";

const GOOD = { light: "good", wrinkles: "good", tears: "good", solder: "good", seat: "good" } as const;
const inspected = (at: string): NewEntry[] =>
  SAND_SERIALS.map((serial) => cared({ did: "inspection", serial, looks: GOOD }, at));

async function station(entries: readonly NewEntry[]) {
  const store = await opened(await temporaryFolder());
  must(await store.recordAll([...sandRegister(), ...entries]));
  return store;
}

const right = (tests: number, seed = 7) => sandTests(tests, 0, seed);
const off = (tests: number, seed = 8) => sandTests(tests, 0.06, seed);

describe("sieves suspected by routine tests", () => {
  test("are those that changed since the whole stack was inspected; nothing else is, and no record changes", async () => {
    const tests = [...right(40), ...off(40)].map(sandEntry);
    const store = await station([...inspected("2025-12-31T08:00:00+01:00"), ...tests]);
    const head = store.head();
    const read = must(await readSuspects(store, SAND_PRODUCT.code));
    expect(read).toMatchObject({ serials: SAND_SERIALS, testsBefore: 40, problem: null });
    expect(read.found.tests).toBe(40);
    const suspects = read.found.sieves.filter(({ suspect }) => suspect);
    expect(suspects.map(({ serial }) => serial)).toEqual([`S-${OFF_UM}`]);
    const { effectiveUm, fromUm, toUm } = suspects[0] ?? {};
    expect(effectiveUm?.determinable && effectiveUm.value / OFF_UM).toBeCloseTo(1.06, 2);
    expect((fromUm ?? 0) < OFF_UM * 1.06 && (toUm ?? 0) > OFF_UM * 1.06).toBe(true);
    expect(store.head()).toEqual(head);
  });

  test("are none while the stack is as it was", async () => {
    const tests = right(80).map(sandEntry);
    const store = await station([...inspected("2025-12-31T08:00:00+01:00"), ...tests]);
    const { found, testsBefore } = must(await readSuspects(store, SAND_PRODUCT.code));
    expect([testsBefore, found.sieves.filter(({ suspect }) => suspect)]).toEqual([40, []]);
  });

  test("are compared with their neighbours alone where the stack was never known to be right", async () => {
    const store = await station(right(20).map(sandEntry));
    const read = must(await readSuspects(store, SAND_PRODUCT.code));
    expect(read).toMatchObject({ rightSince: null, testsBefore: 0 });
    expect(read.found.notes.join()).toMatch(/against the neighbours alone/);
    expect(must(await readSuspects(store, SAND_PRODUCT.code))).toEqual(read); // chance is seeded
  });

  test("are looked for only in tests with the same sieves", async () => {
    const others = right(20).map((one, k) => {
      const entry = sandEntry(one, k);
      if (entry.kind !== "test") throw new Error("no test");
      const weighings = entry.test.weighings.map((w) =>
        w.serial === undefined ? w : { ...w, serial: `${w.serial}-B` },
      );
      return { ...entry, test: { ...entry.test, weighings } };
    });
    const store = await station([
      ...others,
      ...right(30)
        .slice(20)
        .map((one, k) => sandEntry(one, 20 + k)),
    ]);
    const read = must(await readSuspects(store, SAND_PRODUCT.code));
    expect(read.found.tests).toBe(10);
    expect(read.found.notes.join()).toMatch(/10 tests say nothing/);
  });

  test("can't be told where no test tells its sieves", async () => {
    const store = await station([]);
    expect(mustNot(await readSuspects(store, SAND_PRODUCT.code))).toMatch(/no valid test of TH-SIM tells which sieves/);
  });
});
