import { readdir, rm } from "node:fs/promises";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { momentsIn } from "../../src/record/moment.ts";
import type { Station } from "../../src/record/station.ts";
import { background } from "../../src/screens/effects/background.ts";
import { must, opened } from "../store/opened.ts";
import { note, station } from "../store/records.ts";
import { temporaryFolder } from "../store/temporaryFolder.ts";

const plant: Station = { ...station, demo: false, shiftBegins: ["06:00", "14:00", "22:00"] };

/** A station with work going on behind its screens, a clock that stands until it is moved, and what was told. */
async function atWork(begun = "2026-11-24T13:50:00+01:00", of: Station = plant) {
  const folder = join(await temporaryFolder(), "station");
  const clock = { wallMs: Date.parse(begun), counterMs: 0 };
  const momentOf = momentsIn("Europe/Berlin");
  const now = () => momentOf(clock.wallMs);
  const store = await opened(folder, { now, create: of });
  must(await store.record(note("x", now())));
  const told: string[] = [];
  const counterMs = () => clock.counterMs;
  const { tick } = background({ store, now, momentOf, programVersion: "0", counterMs, tell: (it) => told.push(it) });
  const seconds = (count: number): void => {
    for (let i = 0; i < count; i += 1) {
      clock.wallMs += 1000;
      clock.counterMs += 1000;
      tick();
    }
  };
  const set = (byS: number): void => {
    clock.wallMs += byS * 1000;
  };
  const copies = async (): Promise<number> => (await readdir(join(folder, "backups", "copies")).catch(() => [])).length;
  return { folder, store, told, seconds, set, copies, now };
}

describe("behind the screens", () => {
  test("the files are copied a few seconds after the start, not before", async () => {
    const { seconds, copies, told } = await atWork();
    seconds(4);
    expect(await copies()).toBe(0);
    seconds(1);
    await expect.poll(copies).toBe(1);
    seconds(25);
    expect(await copies()).toBe(1);
    expect(told).toEqual([]);
  });

  test("and again when a shift ends, if anything has changed", async () => {
    const { store, seconds, copies, now } = await atWork();
    seconds(60);
    await expect.poll(copies).toBe(1);
    must(await store.record(note("y", now())));
    seconds(9 * 60 - 31);
    expect(await copies()).toBe(1);
    seconds(61); // it is 14:00
    await expect.poll(copies).toBe(2);
  });

  test("a copy that fails is told, and nothing else happens", async () => {
    const usb = join(await temporaryFolder(), "usb");
    const { store, seconds, told } = await atWork(undefined, { ...plant, backups: { folder: usb } });
    seconds(5);
    await expect.poll(() => told).toEqual([expect.stringMatching(/^no copy was made: .*usb is not there/)]);
    expect(store.readOnly).toBe(null);
  });

  test("a clock that is set while the program runs is told, and the log tells of it once", async () => {
    const { store, seconds, set, told, now } = await atWork();
    seconds(10);
    set(-86_400);
    seconds(10);
    await expect.poll(() => told).toEqual([expect.stringMatching(/^the computer's clock was set back by 24 h/)]);
    const [entry] = await store.entriesOfDay(now().slice(0, 10));
    expect(entry).toMatchObject({ kind: "clock set", by: "program", byS: -86_400, from: "2026-11-24T13:50:11+01:00" });
    set(86_400);
    seconds(10);
    await expect.poll(() => told.length).toBe(2);
  });

  test("a computer that slept is no clock that was set", async () => {
    const { seconds, told, store } = await atWork("2026-11-24T06:00:00+01:00");
    seconds(10);
    seconds(4 * 3600);
    await store.close();
    expect(told).toEqual([]);
  });

  test("a demo is neither copied nor timed, and nor is a station that another window has", async () => {
    const demo = await atWork(undefined, { ...plant, demo: true });
    demo.seconds(40);
    demo.set(-86_400);
    demo.seconds(5);
    const closed = await atWork();
    await closed.store.close();
    closed.seconds(40);
    await rm(join(closed.folder, "index"), { recursive: true });
    expect([await demo.copies(), await closed.copies(), demo.told, closed.told]).toEqual([0, 0, [], []]);
  });
});
