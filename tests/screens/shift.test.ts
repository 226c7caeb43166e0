import { readFile, writeFile } from "node:fs/promises";
import { describe, expect, test, vi } from "vitest";
import { assessTest } from "../../src/assess/assessTest.ts";
import type { Draft } from "../../src/record/draft.ts";
import { sha256Of } from "../../src/record/seal.ts";
import { record } from "../../src/screens/effects/recording.ts";
import { carryOutShift } from "../../src/screens/effects/shift.ts";
import { frameOf } from "../../src/screens/frame.ts";
import { textOf } from "../../src/screens/line.ts";
import { createShell } from "../../src/screens/shell.ts";
import { lockPath } from "../../src/store/layout.ts";
import type { Store } from "../../src/store/store.ts";
import type { NamedKey } from "../../src/terminal/keys.ts";
import { deadProcess } from "../faults/deadProcess.ts";
import { FILTER_SAND, Hands } from "../run/hands.ts";
import { must, opened } from "../store/opened.ts";
import { station } from "../store/records.ts";
import { temporaryFolder } from "../store/temporaryFolder.ts";

vi.setConfig({ testTimeout: 60_000 });

const NOW = "2026-11-24T03:12:00+01:00";

/** The screens on a real store; waits for what the disk has to say. */
async function screensOn(store: Store) {
  let ms = 0;
  const clockMs = () => {
    ms += 1000;
    return ms;
  };
  const shell = createShell({ store, now: () => NOW, programVersion: "test", bell: () => undefined, clockMs });
  const comes = (is: () => boolean) =>
    vi.waitFor(() => (is() ? undefined : expect.fail(`${shell.app().message}`)), 20_000);
  const types = (text: string) => {
    for (const character of text) shell.press({ name: "char", text: character });
  };
  const presses = (...names: NamedKey[]) => {
    for (const name of names) shell.press({ name });
  };
  const enters = (text: string) => {
    types(text);
    presses("enter");
  };
  const at = (name: string) => comes(() => shell.app().place.name === name);
  await comes(() => shell.app().recent !== null);
  return { shell, types, presses, enters, at, comes };
}

/** What carries effects out, without keys. */
async function deskOn(store: Store) {
  let app = (await screensOn(store)).shell.app();
  return {
    store,
    now: () => NOW,
    programVersion: "test",
    bell: () => undefined,
    clockMs: () => 0,
    app: () => app,
    show: (next: typeof app) => {
      app = next;
    },
    take: () => undefined,
  };
}

/** A finished test as it is recorded from the sign page, of a product that it can't meet (or can). */
async function recorded(store: Store, max: number, change: Partial<Draft> = {}): Promise<string | null> {
  const draft: Draft = {
    ...new Hands().tests().run.draft,
    disposition: "rework",
    lot: "4471-B",
    ...change,
    product: { ...FILTER_SAND, envelope: [{ apertureUm: 500, passingPct: { max } }], values: [] },
  };
  const desk = await deskOn(store);
  await record(desk, draft, "KO", must(assessTest(draft)));
  return desk.app().message;
}

describe("a test out of its limits", () => {
  test("opens a hold on its lot with the limits it missed; a second one leaves the first hold", async () => {
    const store = await opened(await temporaryFolder());
    await recorded(store, 0.001);
    await recorded(store, 0.001, { testId: "t-again" });
    const matters = await store.matters();
    expect(matters).toHaveLength(1);
    expect(matters[0]).toMatchObject({ kind: "hold opened", lot: "4471-B", owner: "quality", by: "KO" });
    expect(matters[0]).toMatchObject({
      reason: expect.stringMatching(/^fail: passing 500 um [\d.]+ % is above 0.001 %$/),
    });
  });

  test("opens none when it passes, nor when the lot is rejected at once", async () => {
    const store = await opened(await temporaryFolder());
    await recorded(store, 100, { disposition: "release" });
    await recorded(store, 0.001, { testId: "t-2", disposition: "reject" });
    expect(await store.matters()).toEqual([]);
  });

  test("stands on the bench; its lot keeps the fail after a pass, until the hold is closed with a reason", async () => {
    const store = await opened(await temporaryFolder());
    await recorded(store, 0.001);
    expect(await recorded(store, 100, { testId: "t-2", disposition: "release" })).toMatch(/lot is on hold by no. \d/);
    await recorded(store, 100, { testId: "t-2", disposition: "hold" });
    const { shell, types, presses, enters, at, comes } = await screensOn(store);
    expect(shell.app().holds).toHaveLength(1);
    presses("down");
    types("j");
    await at("lot");
    expect(shell.app().place).toMatchObject({ lot: "4471-B", histories: [{}, {}] });
    types("c");
    enters("rework");
    enters("screened again on deck B");
    enters("KO");
    await comes(() => shell.app().holds.length === 0 || shell.app().message?.includes("not known") === true);
    if (shell.app().holds.length > 0) presses("enter");
    await comes(() => shell.app().holds.length === 0);
    expect((await store.events("2026-11")).at(-1)).toMatchObject({ kind: "hold closed", disposition: "rework" });
    await at("lot");
  });
});

describe("the page of a lot", () => {
  test("shows a test voided meanwhile when it comes back in view, the mark where it was", async () => {
    const store = await opened(await temporaryFolder());
    await recorded(store, 0.001);
    await recorded(store, 0.001, { testId: "t-2" });
    const { shell, types, presses, enters, at, comes } = await screensOn(store);
    const drawn = () => frameOf(shell.app(), { columns: 80, rows: 24 }).map(textOf).join("\n");
    presses("down");
    types("j");
    await at("lot");
    presses("up", "enter");
    await at("record");
    types("y");
    await at("reason");
    enters("spilt beside the pan");
    enters("KO");
    await comes(() => shell.app().message?.includes("void") === true);
    presses("escape");
    await comes(() => /▸ no\. \d+ .*VOID/i.test(drawn()));
    expect(shell.app().place).toMatchObject({ name: "lot", at: 0, histories: [{ later: [{ kind: "voided" }] }, {}] });
  });
});

describe("a test whose hold a power cut kept from the log", () => {
  /** The entry as it is without the hold that follows it. */
  const cutShort = async (folder: string): Promise<void> => {
    const store = await opened(folder, { create: { ...station, demo: false } });
    const { schema: _schema, stage: _stage, ...test } = new Hands().tests().run.draft;
    const product = { ...FILTER_SAND, envelope: [{ apertureUm: 500, passingPct: { max: 0.001 } }], values: [] };
    const signed = { program: "test", test: "valid", product: "fail", lossPct: 0.1 } as const;
    const done = { ...test, product, lot: "4471-B", disposition: "rework", finishedAt: NOW, by: "KO", signed } as const;
    must(await store.record({ kind: "test", at: NOW, by: "KO", test: done }));
    await store.close();
  };

  test("has it opened at the next start, once, and not again when it was closed", async () => {
    const folder = await temporaryFolder();
    await cutShort(folder);
    const again = await opened(folder);
    const { shell, comes } = await screensOn(again);
    await comes(() => shell.app().holds.length === 1);
    const [hold] = await again.matters();
    if (hold?.kind !== "hold opened") return expect.fail("no hold on record");
    expect(hold).toMatchObject({ lot: "4471-B", by: "KO", of: { number: expect.any(Number) } });
    const { number, day, product, lot } = hold;
    const closed = { product, lot, hold: { number, day }, disposition: "rework", reason: "screened again" } as const;
    must(await again.record({ kind: "hold closed", at: NOW, by: "KO", ...closed }));
    await again.close();
    const third = await opened(folder);
    const { shell: later } = await screensOn(third);
    await new Promise((resolve) => setTimeout(resolve, 200));
    expect([later.app().holds, await third.matters()]).toEqual([[], []]);
  });
});

describe("the handover", () => {
  test("is handed over with its page kept, and taken by the next", async () => {
    const store = await opened(await temporaryFolder());
    await recorded(store, 0.001);
    const { shell, types, presses, enters, at, comes } = await screensOn(store);
    types("h");
    await at("handover");
    types("h");
    await at("event");
    enters("dryer runs hot");
    enters("KO");
    await comes(() => shell.app().message?.includes("page kept as") === true);
    const [handed] = (await store.events("2026-11")).filter(({ kind }) => kind === "handover");
    if (handed?.kind !== "handover") return expect.fail("no handover on record");
    const page = await readFile(shell.app().message?.split("page kept as ")[1] ?? "", "utf8");
    expect(handed.pageSha256).toBe(sha256Of(page));
    expect(page).toContain("4471-B for quality");
    await comes(() => shell.app().place.name === "handover" && "untaken" in shell.app().place);
    await comes(() => (shell.app().place as { untaken: unknown }).untaken !== null);
    types("a");
    await at("event");
    presses("enter");
    enters("KO");
    await comes(() => shell.app().message?.includes("taken") === true);
    await comes(() => (shell.app().place as { untaken?: unknown }).untaken === null);
    expect((await store.events("2026-11")).at(-1)).toMatchObject({ kind: "handover taken" });
  });

  test("shows earlier shifts and comes back; a second page of the same shift gets a name of its own", async () => {
    const store = await opened(await temporaryFolder());
    await recorded(store, 100, { disposition: "release" });
    const { shell, types, presses, at, comes } = await screensOn(store);
    types("h");
    await at("handover");
    const shown = () => (shell.app().place as { handover?: { shift: { began: string } } }).handover?.shift.began ?? "";
    const present = shown();
    presses("left");
    await comes(() => shown() !== present);
    expect(Date.parse(shown())).toBeLessThan(Date.parse(present));
    presses("right");
    await comes(() => shown() === present);
    presses("right");
    expect(shell.app().message).toBe("this is the present shift");
    types("w");
    await comes(() => shell.app().message?.startsWith("page kept as") === true);
    types("w");
    await comes(() => shell.app().message?.endsWith("-2.txt") === true);
  });
});

describe("a window that only reads", () => {
  test("says as of when it shows the log, and reads again on a key", async () => {
    const folder = await temporaryFolder();
    const writing = await opened(folder);
    const reading = await opened(folder);
    const { shell, types, comes } = await screensOn(reading);
    expect(shell.app().recent).toEqual([]);
    await recorded(writing, 0.001);
    expect(shell.app()).toMatchObject({ recent: [], holds: [] });
    expect(frameOf(shell.app(), { columns: 80, rows: 24 }).map(textOf).join("\n")).toMatch(
      /read only, as of 03:12\s+\(r reads\s+again\)/,
    );
    types("r");
    await comes(() => shell.app().holds.length === 1);
    expect(shell.app().recent).toHaveLength(1);
    expect(shell.app().message).toBe("read again, as of 03:12");
    const lock = JSON.parse(await readFile(lockPath(folder), "utf8"));
    await writeFile(lockPath(folder), JSON.stringify({ ...lock, pid: deadProcess() }));
    types("r");
    await comes(() => shell.app().readOnly === "that window has ended: leave and start again to write");
  });
});

describe("the page of a lot of long ago", () => {
  const MONTHS = ["2025-01", "2025-09", ...Array.from({ length: 11 }, (_, m) => `2026-${`${m + 1}`.padStart(2, "0")}`)];

  test("has its tests where it is known which month they lie in", async () => {
    const store = await opened(await temporaryFolder());
    const { schema: _schema, stage: _stage, ...test } = new Hands().tests().run.draft;
    const signed = { program: "test", test: "valid", product: "pass", lossPct: 0.1 } as const;
    for (const month of MONTHS) {
      const at = `${month}-10T08:00:00+01:00`;
      const done = {
        ...test,
        testId: `t-${month}`,
        lot: `L-${month}`,
        startedAt: at,
        finishedAt: at,
        by: "KO",
        signed,
      };
      must(await store.record({ kind: "test", at, by: "KO", test: { ...done, disposition: "release" } }));
    }
    await store.indexRows("2025-01");
    const desk = await deskOn(store);
    await carryOutShift(desk, { do: "readLot", product: test.product.code, lot: "L-2025-01", line: test.line });
    expect(desk.app().place).toMatchObject({ name: "lot", histories: [{ entry: { day: "2025-01-10" } }] });
  });
});
