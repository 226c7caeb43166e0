import { writeFile } from "node:fs/promises";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { expect, test } from "vitest";
import { frameOf } from "../../../src/screens/frame.ts";
import { textOf } from "../../../src/screens/line.ts";
import { createShell } from "../../../src/screens/shell.ts";
import type { NamedKey } from "../../../src/terminal/keys.ts";
import { SERIALS, weighed, withSet } from "../../store/careWorld.ts";
import { must, opened } from "../../store/opened.ts";
import { temporaryFolder } from "../../store/temporaryFolder.ts";
import { MATERIAL } from "./world.ts";

const NOW = "2026-11-24T10:00:00+01:00";
const S710 = "S-0710-1";

/** A station with a set and so many tests of it; the 710 um sieve gains grains from the given test on. */
async function station(count: number, riseFrom = count) {
  const folder = await temporaryFolder();
  const store = await withSet(await opened(folder));
  for (let i = 0; i < count; i++) {
    const at = new Date(Date.UTC(2026, 10, 20, 8 + i)).toISOString().replace("Z", "+00:00");
    must(await store.record(weighed(`T-${i}`, at, { [S710]: 0.03 * Math.max(0, i - riseFrom) })));
  }
  let clockMs = 0;
  const shell = createShell({
    store,
    now: () => NOW,
    programVersion: "test",
    bell: () => undefined,
    clockMs: () => (clockMs += 1000),
  });
  const screen = () => frameOf(shell.app(), { columns: 120, rows: 45 }).map(textOf).join("\n");
  const types = (text: string) => {
    for (const character of text) shell.press({ name: "char", text: character });
  };
  const presses = (...names: NamedKey[]) => {
    for (const name of names) shell.press({ name });
  };
  const hands = {
    sees: (what: string | RegExp) => expect.poll(screen, { timeout: 15_000 }).toMatch(what),
    types,
    presses,
    enters: (text: string) => {
      types(text);
      presses("enter");
    },
    opens: async (serial: string) => {
      await hands.sees("SET-A");
      hands.enters(serial);
      await hands.sees(/\[state\]/);
    },
  };
  hands.types("s");
  return { folder, store, shell, screen, ...hands };
}

test("a cleaning is noted, stands in the life of the sieve, and the list knows of it", async () => {
  const at = await station(20, 13);
  await at.opens(S710);
  await at.sees(/more than when clean/);
  at.types("c");
  at.presses("enter");
  at.enters("brush");
  at.enters("402");
  at.enters("by the window");
  at.presses("enter");
  await at.sees(/sieve S-0710-1 cleaned: brush/);
  at.types("v");
  await at.sees(/2026-11-24 10:00 +cleaned: brush, empty 402\.00 g after \(by the window\) +\S+/);
  await at.sees(/registered +KO/);
  const { notes } = must({ ok: true, value: await at.store.care.reading(S710) }) ?? { notes: [] };
  expect(notes.map(({ care }) => care.did)).toEqual(["cleaning"]);
});

test("quarantine and return change what the list and the page say", async () => {
  const at = await station(3);
  await at.opens(S710);
  at.types("q");
  at.enters("dropped on the floor");
  at.presses("enter", "enter");
  await at.sees(/QUARANTINE ✗ {2}quarantine since 2026-11-24: dropped on the floor/);
  at.types("r");
  at.enters("measured and right");
  at.presses("enter", "enter");
  await at.sees(/state +fit ✓/);
});

test("a sieve is registered by the form, and its page is there", async () => {
  const at = await station(1);
  await at.sees("SET-A");
  at.presses("f3");
  at.enters("sieve");
  at.enters("S-0355-1");
  at.enters("355");
  at.presses(...Array<"enter">(9).fill("enter"));
  at.presses("enter");
  await at.sees(/no\. \d+: sieve S-0355-1 registered/);
  // The list follows what was registered: Enter opens it.
  await at.sees(/▸ +S-0355-1/);
  at.presses("enter");
  await at.sees(/S-0355-1 · 355 um/);
});

test("a reference material comes from its file; the check judges a recorded test and joins the lives", async () => {
  const at = await station(2);
  await writeFile(join(at.folder, "rm.json"), JSON.stringify(MATERIAL));
  await writeFile(join(at.folder, "bad.json"), "{");
  await at.sees("SET-A");
  at.presses("f3");
  at.enters("file");
  at.enters("nowhere.json");
  at.presses("enter", "enter");
  await at.sees("nowhere.json: there is no such file: check the name");
  for (let i = 0; i < "nowhere".length + 5; i++) at.presses("backspace");
  at.enters("bad.json");
  at.presses("enter", "enter");
  await at.sees(/bad\.json: line 1, column 2/);
  for (let i = 0; i < "bad.json".length; i++) at.presses("backspace");
  at.enters("rm.json");
  at.presses("enter", "enter");
  await at.sees("reference material RM-SAND registered");
  await at.sees(/▸ +RM-SAND/);
  at.presses("f4");
  await at.sees("which material was run?");
  at.presses("enter");
  await at.sees(/▸ .*TH-0510/);
  at.presses("enter");
  await at.sees(/S-0710-1 +40\.00/);
  at.presses("enter");
  await at.sees("reference material RM-SAND run on S-1400-1");
  const reading = await at.store.care.reading(S710);
  expect(reading?.told.map(({ did }) => did)).toEqual(["reference check"]);
});

test("apertures are imported from a file; what is wrong with it is told, and nothing is lost", async () => {
  const at = await station(1);
  await writeFile(join(at.folder, "good.csv"), "warp_um,weft_um\n711,709\n713,708\n");
  await writeFile(join(at.folder, "bad.csv"), "warp_um\nwide\n");
  await at.opens(S710);
  at.types("igggggi");
  at.enters("bad.csv");
  await at.sees('bad.csv: line 2, warp_um: "wide" is not a number');
  for (let i = 0; i < 7; i++) at.presses("backspace");
  at.enters("good.csv");
  await at.sees("good.csv: 2 apertures along the warp, 2 along the weft");
  at.presses("enter", "enter", "enter");
  await at.sees(/looked over, no fault seen, 4 apertures measured/);
  await at.sees(/state +fit ✓ {2}inspection not due: 0 of 183 days since 2026-11-24/);
});

test("effective apertures are worked out from the log when first looked at", async () => {
  const at = await station(18);
  await at.opens(S710);
  at.presses("left");
  await at.sees(/from the latest 18 valid tests of TH-0510 on this stack, each sieve against its/);
  await at.sees(/▸ {2}S-0710-1 +710 um/);
  await at.sees("how sure: ranges hold for all sieves together at 95 %");
});

test("a sieve of whose serial no test tells has no effective aperture, and says why", async () => {
  const at = await station(0);
  await at.opens(SERIALS[0] ?? "");
  at.presses("left");
  await at.sees("no valid test in the log tells the serial of this sieve");
});

test("keys pressed while the log is being read are not undone by what it brings", async () => {
  const at = await station(3);
  await at.sees("SET-A");
  const read = at.store.entry.bind(at.store);
  let reading: () => void = () => undefined;
  const isReading = new Promise<void>((resolve) => {
    reading = resolve;
  });
  at.store.entry = async (day, number) => {
    reading();
    await pause(20);
    return read(day, number);
  };
  at.enters(S710);
  await isReading;
  at.types("v");
  await at.sees(/registered +KO/);
  expect(at.screen()).toContain("[life]");
});
