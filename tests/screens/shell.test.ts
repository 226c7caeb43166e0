import { describe, expect, test } from "vitest";
import { accepted, refused } from "../../src/entry/outcome.ts";
import type { Draft } from "../../src/record/draft.ts";
import type { IndexRow } from "../../src/record/indexRow.ts";
import { frameOf } from "../../src/screens/frame.ts";
import { textOf } from "../../src/screens/line.ts";
import { createShell } from "../../src/screens/shell.ts";
import { NOBODY_LISTED } from "../../src/screens/signOn/people.ts";
import type { Store } from "../../src/store/store.ts";
import { NOTHING_KNOWN } from "../care/knownWorld.ts";
import { FILTER_SAND, Hands, TEN_MINUTES } from "../run/hands.ts";
import { recordedRow, STATION } from "./stage.ts";

const settled = () => new Promise((resolve) => setImmediate(resolve));

/** A store in memory whose answers come when the test lets them. */
function slowStore(change: Partial<Store> = {}) {
  const gates: (() => void)[] = [];
  const held = <T>(value: T) => new Promise<T>((resolve) => gates.push(() => resolve(value)));
  const shelf = { codes: [FILTER_SAND.code], revisions: () => [FILTER_SAND], inForce: () => FILTER_SAND };
  const saves: Draft[] = [];
  const store = {
    station: STATION,
    folder: "memory",
    readOnly: null,
    problems: [],
    drafts: () => [],
    session: null,
    operators: { ...NOBODY_LISTED, people: () => [] },
    indexMonths: () => ["2026-11"],
    atOpening: [],
    products: async () => shelf,
    productDrafts: async () => [],
    programs: async () => [TEN_MINUTES],
    matters: async () => [],
    care: { known: async () => NOTHING_KNOWN },
    events: async () => [],
    recentRows: async () => [recordedRow()],
    entriesOfDay: async () => [],
    testEntry: async () => refused("not here"),
    history: async () => refused("not here"),
    monthWords: async () => new Map(),
    indexRows: (): Promise<readonly IndexRow[]> => held([recordedRow(1), recordedRow(2)]),
    saveDraft: (draft: Draft) => {
      saves.push(draft);
      return held(accepted(undefined));
    },
    ...change,
  } as unknown as Store;
  const openGates = async () => {
    for (const open of gates.splice(0)) open();
    await settled();
  };
  return { store, saves, openGates };
}

async function started(store: Store) {
  const shell = createShell({
    store,
    now: () => "2026-11-24T03:12:00+01:00",
    programVersion: "test",
    bell: () => undefined,
    clockMs: () => 0,
  });
  await settled();
  const types = (text: string) => {
    for (const character of text) shell.press({ name: "char", text: character });
  };
  return { shell, types };
}

describe("the shell", () => {
  test("keeps what was typed while a month of the log was still being read", async () => {
    const { store, openGates } = slowStore();
    const { shell, types } = await started(store);
    types("l");
    types("0510");
    await openGates();
    expect(shell.app().place).toMatchObject({ name: "log", filter: "0510", rows: [{ number: 2 }, { number: 1 }] });
  });

  test("does not keep the hands waiting for the disk: the next digits type while the last entry is saved", async () => {
    const { store, saves, openGates } = slowStore();
    const { shell, types } = await started(store);
    types("n");
    for (let i = 0; i < 4; i++) shell.press({ name: "enter" });
    types("300");
    expect(shell.app().place).toMatchObject({ run: { typed: "300" } });
    expect(saves).toHaveLength(4);
    expect(shell.app().saved.size).toBe(0);
    await openGates();
    expect([...shell.app().saved.values()]).toEqual([4]);
    expect(shell.app().place).toMatchObject({ run: { typed: "300" } });
  });

  test("says so when the disk refuses, and keeps the draft", async () => {
    const full = { saveDraft: async () => refused("no space left: make room and go on") };
    const { store } = slowStore(full);
    const { shell, types } = await started(store);
    types("n");
    shell.press({ name: "enter" });
    await settled();
    expect(shell.app().message).toBe("not on disk: no space left: make room and go on");
    expect(shell.app().drafts).toHaveLength(1);
  });

  test("tries what the disk refused again every few ticks and with each key, warns till then, and says it is saved", async () => {
    let full = true;
    let tries = 0;
    const saveDraft = async () => {
      tries += 1;
      return full ? refused("no space left") : accepted(undefined);
    };
    const { shell, types } = await started(slowStore({ saveDraft }).store);
    const screen = () => frameOf(shell.app(), { columns: 80, rows: 24 }).map(textOf).join("\n");
    types("n");
    shell.press({ name: "enter" });
    await settled();
    expect(tries).toBe(1);
    types("1");
    await settled();
    expect(tries).toBe(2);
    expect(screen()).toContain("! not on disk: no space left");
    shell.press({ name: "f1" });
    await settled();
    expect(shell.app().place.name).toBe("help");
    expect(screen()).toContain("! not on disk: no space left");
    const before = tries;
    for (let i = 0; i < 5; i++) shell.tick();
    await settled();
    expect(tries).toBe(before + 1);
    full = false;
    for (let i = 0; i < 5; i++) shell.tick();
    await settled();
    expect(shell.app().notOnDisk).toBe(null);
    expect(shell.app().message).toContain("on disk again");
    for (let i = 0; i < 10; i++) shell.tick();
    expect(tries).toBe(before + 2);
  });

  test("leaving tries once more, and asks while the disk still refuses", async () => {
    let full = true;
    const saveDraft = async () => (full ? refused("no space left") : accepted(undefined));
    const { shell, types } = await started(slowStore({ saveDraft }).store);
    let left = false;
    void shell.left.then(() => {
      left = true;
    });
    types("n");
    shell.press({ name: "enter" });
    await settled();
    shell.press({ name: "ctrl+c" });
    await settled();
    expect(shell.app().message).toContain("leaving now loses what is not on disk (no space left)");
    expect(left).toBe(false);
    full = false;
    shell.press({ name: "ctrl+c" });
    await settled();
    expect(left).toBe(true);
    expect(shell.app().notOnDisk).toBe(null);
  });

  test("takes no key in a window too small to be read, but lets one leave, and says afterwards that nothing was taken", async () => {
    let size = { columns: 20, rows: 5 };
    const { store } = slowStore();
    const clock = { now: () => "2026-11-24T03:12:00+01:00", clockMs: () => 0 };
    const shell = createShell({ store, ...clock, programVersion: "test", bell: () => undefined, size: () => size });
    await settled();
    shell.press({ name: "char", text: "p" });
    shell.press({ name: "enter" });
    expect(shell.app().place.name).toBe("bench");
    expect(shell.app().message).toContain("too small was not taken");
    size = { columns: 80, rows: 24 };
    shell.press({ name: "char", text: "p" });
    expect(shell.app().place.name).toBe("products");
    size = { columns: 20, rows: 5 };
    shell.press({ name: "ctrl+c" });
    await expect(shell.left).resolves.toBe(undefined);
  });

  test("leaves only when everything accepted is on disk", async () => {
    const { store, openGates } = slowStore();
    const { shell, types } = await started(store);
    types("n");
    shell.press({ name: "enter" });
    let left = false;
    void shell.left.then(() => {
      left = true;
    });
    shell.press({ name: "ctrl+c" });
    await settled();
    expect(left).toBe(false);
    await openGates();
    await openGates();
    expect(left).toBe(true);
  });

  test("keys pressed before the library has been read are not lost", async () => {
    const { store } = slowStore();
    const shell = createShell({
      store,
      now: () => "2026-11-24T03:12:00+01:00",
      programVersion: "test",
      bell: () => undefined,
      clockMs: () => 0,
    });
    shell.press({ name: "char", text: "p" });
    expect(shell.app().place.name).toBe("bench");
    await settled();
    expect(shell.app().place.name).toBe("products");
  });
});

test("after a restart the mark stands on the test that was worked on last, not on the oldest one", async () => {
  const { draft } = new Hands().setsOut().run;
  const older = { ...draft, testId: "older", startedAt: "2026-11-24T01:00:00+01:00" };
  const newer = { ...older, testId: "newer", startedAt: "2026-11-24T02:00:00+01:00" };
  const touched = (one: Draft, at: string) => ({ ...one, trail: one.trail.map((item) => ({ ...item, at })) });
  const drafts = [touched(older, "2026-11-24T02:10:00+01:00"), touched(newer, "2026-11-24T02:40:00+01:00")];
  const { store } = slowStore({ drafts: () => drafts });
  expect((await started(store)).shell.app().place).toMatchObject({ name: "bench", at: 1 });
});
