import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { afterEach, describe, expect, test, vi } from "vitest";
import { EMPTY_G, FULL_G } from "../run/hands.ts";
import { recordedEntry } from "../screens/stage.ts";
import { type Operator, operatorsLeave, startOperator } from "./operator.ts";
import { opened, QUICK_SAND, stationFolder } from "./stationOf.ts";

vi.setConfig({ testTimeout: 90_000 });
afterEach(operatorsLeave);

const PREFIXES = { lot: "L:", product: "P:", line: "N:", sieve: "S:", operator: "U:" };

async function station(): Promise<string> {
  const folder = await stationFolder([QUICK_SAND], [recordedEntry(1, "4471-B")]);
  const file = join(folder, "station.json");
  const told = JSON.parse(readFileSync(file, "utf8"));
  writeFileSync(file, JSON.stringify({ ...told, scanner: { prefixes: PREFIXES } }));
  return folder;
}

async function atStation(folder: string): Promise<Operator> {
  const operator = await startOperator({ args: ["--data", folder] });
  await operator.sees("4471-B");
  return operator;
}

/** Hands on the first empty sieve. */
async function weighing(operator: Operator): Promise<void> {
  await operator.presses("1", "enter", "enter", "enter", "enter");
  await operator.types("300.20");
  await operator.presses("enter");
  await operator.sees("weigh empty 0/6");
}

/** Longer than this between two keys is no keyboard wedge but a machine that is busy with something else. */
const STALL_MS = 25;

/** A keyboard wedge: every character a write of its own. Where the machine stalled the burst is undone and sent again. */
async function wedges(operator: Operator, text: string, gapMs: number, undone: () => Promise<unknown>): Promise<void> {
  for (let tries = 0; tries < 20; tries += 1) {
    let widestMs = 0;
    for (const character of text) {
      const begun = performance.now();
      operator.sends(character);
      await pause(gapMs);
      widestMs = Math.max(widestMs, performance.now() - begun);
    }
    if (widestMs < STALL_MS) return;
    await pause(400);
    await undone();
  }
  throw new Error(`this machine stalls too often to send a key every ${gapMs} ms`);
}

/** No hand is at the keys sooner after a burst. */
const handComes = () => pause(400);

/** What a split burst left in the first row, typed or accepted, is taken back. */
async function firstRowFreed(operator: Operator): Promise<void> {
  const isFree = () =>
    /weigh empty 0\/6/.test(operator.screen()[0] ?? "") && !/1\.40 mm +\S+▌/.test(operator.screen().join("\n"));
  while (!isFree()) {
    await operator.presses("u");
    await handComes();
  }
}

const backspaces = (operator: Operator) => () => operator.presses(...Array.from({ length: 12 }, () => "backspace"));

const FORMATS: readonly (readonly [string, string])[] = [
  ["a sign apart and a unit, ended by CR", "+  412.31 g\r"],
  ["LF alone", "412.31 g\n"],
  ["CR LF", "+412.31 g\r\n"],
  ["a tab", "412.31 g\t"],
  ["a tab and an Enter", "412.31\t\r"],
  ["a decimal comma", "412,31\r"],
  ["kg", "0.41231 kg\r\n"],
  ["mg", "412310 mg\r"],
  ["a stability mark before it", "S  +  412.31 g\r\n"],
  ["a stability mark behind it", "412.31 g S\r"],
  ["words before it, apart by commas", "ST,GS,+  412.31,g\r\n"],
  ["net before it", "N  +  412.31 g\r\n"],
  ["day and clock before it", "2026-11-24 03:12:05  412.31 g\r\n"],
];

describe("what a balance types, in a real terminal", () => {
  test("each form at full speed, key by key, and as a paste, is one entry in its row", async () => {
    const operator = await atStation(await station());
    await weighing(operator);
    const sends = {
      "at full speed": async (text: string) => operator.sends(text),
      "key by key": (text: string) => wedges(operator, text, 4, () => firstRowFreed(operator)),
      "as a paste": async (text: string) => operator.pastes(text),
    };
    for (const [form, text] of FORMATS) {
      for (const [how, send] of Object.entries(sends)) {
        await send(text);
        await operator.sees(/1\.40 mm +412\.31/).catch((missed) => expect.fail(`${form}, ${how}: ${missed}`));
        await operator.sees("weigh empty 1/6");
        await operator.presses("u");
        await operator.sees("weigh empty 0/6");
        await handComes(); // the same again sooner would be left out
      }
    }
  });

  test("a whole test by bursts: every mass at full speed, in the form of its own balance", async () => {
    const folder = await station();
    const operator = await atStation(folder);
    await weighing(operator);
    for (const [row, grams] of EMPTY_G.entries()) {
      operator.sends(`S N +  ${grams.toFixed(2)} g\r\n`);
      if (row < 5) await operator.sees(`weigh empty ${row + 1}/6`);
    }
    await operator.sees("clamp it, start it");
    await handComes();
    await operator.presses("enter");
    await operator.sees("time is up", 10_000);
    await operator.presses("enter");
    await operator.sees("weigh full 0/6");
    for (const [row, grams] of FULL_G.entries()) {
      operator.pastes(`${grams.toFixed(2).replace(".", ",")} g\t`);
      if (row < 5) await operator.sees(`weigh full ${row + 1}/6`);
    }
    await operator.sees("TEST VALID ✓  PASS ✓");
    await handComes();
    await operator.presses("enter", "enter");
    await operator.sees("signed by  KO");
    await operator.scans("U:KO");
    await operator.sees("takes an Enter by hand");
    await handComes();
    await operator.presses("enter");
    await operator.sees(/recorded as no\. \d/);
    await operator.presses("ctrl+c");
    expect(await operator.exit()).toBe(0);
    const store = await opened(folder);
    const [row] = await store.recentRows(1);
    expect(row).toMatchObject({ lot: "4471-B", verdict: "pass", by: "KO" });
    await store.close();
  });

  test("unstable, twice the same, and without an end", async () => {
    const operator = await atStation(await station());
    await weighing(operator);
    operator.sends("+ 412.31 g ?\r");
    await operator.sees("the balance says it is not at rest (?)");
    operator.sends("+ 412.31 g\r");
    await pause(60);
    operator.sends("+ 412.31 g\r");
    await operator.sees("the same came twice within 0.3 s");
    await operator.sees("weigh empty 1/6");
    await pause(400);
    operator.sends("+ 412.31 g\r");
    await operator.sees("the same mass as the one before");
    await wedges(operator, "398.74", 5, backspaces(operator));
    await operator.sees(/1\.00 mm +398\.74▌/);
    await operator.sees("weigh empty 1/6");
    await handComes();
    await operator.presses("enter");
    await operator.sees("weigh empty 2/6");
  });
});

describe("what a scanner types, in a real terminal", () => {
  test.each([
    ["at full speed", async (operator: Operator, text: string) => operator.sends(`${text}\r`)],
    ["key by key", (operator: Operator, text: string) => wedges(operator, `${text}\r`, 6, backspaces(operator))],
    ["as a paste", async (operator: Operator, text: string) => operator.pastes(`${text}\r\n`)],
    ["without an end", async (operator: Operator, text: string) => operator.sends(text)],
  ])("%s: a lot and a line go to their fields, though the product is in hand", async (_, send) => {
    const operator = await atStation(await station());
    await operator.presses("1");
    await operator.sees(/▸ +product/);
    await send(operator, "L:4499-C");
    await operator.sees("lot 4499-C is taken");
    await operator.sees(/▸ +product/);
    await send(operator, "N:Screen deck B");
    await operator.sees(/line +Screen deck B/);
    await handComes();
    await operator.presses("enter", "enter", "enter", "enter");
    await operator.types("300.20");
    await operator.presses("enter");
    await operator.sees("weigh empty 0/6");
    await send(operator, "L:4500-A");
    await operator.sees("lot 4500-A was scanned, this test is of lot 4499-C");
  });

  test("no letter of it acts: letters that are keys, on the bench and while weighing, at every speed", async () => {
    const operator = await atStation(await station());
    const home = () => operator.presses("escape", "escape", "escape", "escape");
    for (const gapMs of [0, 3, 10]) {
      await wedges(operator, "slab path\r", gapMs, home);
      await operator.sees('"slab path" is not a product');
      operator.sends("q\r");
      await operator.sees('"q" is not a product');
    }
    await handComes();
    await weighing(operator);
    operator.sends("uzof\r");
    await operator.sees("is not a number");
    await operator.sees("weigh empty 0/6");
    await operator.presses("q");
    await operator.sees("q does nothing here");
  });

  test("a lot on the bench sets its test out", async () => {
    const operator = await atStation(await station());
    await wedges(operator, "L:4499-C\r", 8, () => operator.presses("escape", "escape"));
    await operator.sees(/lot +4499-C/);
    await operator.sees("new test");
  });
});
