import { describe, expect, test } from "vitest";
import { frameOf } from "../../src/screens/frame.ts";
import { textOf } from "../../src/screens/line.ts";
import { createShell, type Shell } from "../../src/screens/shell.ts";
import type { NamedKey } from "../../src/terminal/keys.ts";
import { must, opened } from "../store/opened.ts";
import { product, testRecord } from "../store/records.ts";
import { temporaryFolder } from "../store/temporaryFolder.ts";

const NOW = "2026-11-24T03:00:00+01:00";

/** A station with 30 tests whose d50 scatters. */
async function filled() {
  const store = await opened(await temporaryFolder());
  const loading = { fromPath: "TH-0510.json", bytesSha256: "0".repeat(64), by: "KO", at: "2026-11-01T06:00:00+01:00" };
  must(await store.addProduct(product, loading));
  for (let i = 0; i < 30; i++) {
    const at = `2026-11-${String(10 + Math.floor(i / 3)).padStart(2, "0")}T${String(8 + 4 * (i % 3)).padStart(2, "0")}:00:00+01:00`;
    const record = testRecord(`T-${i}`, at);
    const weighings = record.weighings.map((w) => ({
      ...w,
      fullG: (w.fullG ?? 0) + (w.apertureUm === 1000 ? 8 * Math.sin(i * 2.4) : 0),
    }));
    must(await store.record({ kind: "test", at, by: "KO", test: { ...record, weighings } }));
  }
  return store;
}

const screen = (shell: Shell): string => frameOf(shell.app(), { columns: 120, rows: 40 }).map(textOf).join("\n");

function hands(shell: Shell) {
  const seen = async (text: string) => {
    await expect.poll(() => screen(shell), { timeout: 10_000 }).toContain(text);
  };
  const types = (text: string) => {
    for (const character of text) shell.press({ name: "char", text: character });
  };
  const presses = (name: NamedKey) => shell.press({ name });
  return { seen, types, presses };
}

describe("the trend over a real station", () => {
  test("reads the tests, freezes limits on record, shows who froze them, and opens a test", async () => {
    const store = await filled();
    let ms = 0;
    const shell = createShell({
      store,
      now: () => NOW,
      programVersion: "test",
      bell: () => undefined,
      clockMs: () => (ms += 1000),
    });
    const { seen, types, presses } = hands(shell);
    await seen("4471-B");
    types("t");
    await seen("30 of 30 tests");
    await seen("from 25 tests, 11-10 to 11-18");
    types("k");
    types("agreed with quality");
    presses("enter");
    presses("enter");
    await seen("limits frozen as entry no. 32");
    await seen("frozen 2026-11-24 by KO: agreed with quality");
    const [matter] = await store.matters();
    expect(matter).toMatchObject({
      kind: "limits frozen",
      on: "percentileUm@50",
      line: "Dryer 1",
      tests: 25,
      first: { testId: "T-0" },
    });
    presses("left");
    presses("enter");
    await expect.poll(() => shell.app().place.name).toBe("record");
    await seen("no. 30 ");
    presses("escape");
    expect(shell.app().place.name).toBe("trend");
  });
});
