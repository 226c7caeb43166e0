import { readFile, rm, writeFile } from "node:fs/promises";
import { join, relative } from "node:path";
import { describe, expect, test } from "vitest";
import type { Disk } from "../../src/store/disk.ts";
import { careLedgerPath, dayPath } from "../../src/store/layout.ts";
import { realDisk } from "../../src/store/realDisk.ts";
import type { Store } from "../../src/store/store.ts";
import { correction, saying } from "./amended.ts";
import { cared, registered, SERIALS, SET, sieve, weighed, withSet } from "./careWorld.ts";
import { must, mustNot, opened } from "./opened.ts";
import { note } from "./records.ts";
import { shelved } from "./shelved.ts";
import { temporaryFolder } from "./temporaryFolder.ts";

const S710 = "S-0710-1";
const TODAY = "2026-11-24";
const GOOD_LOOKS = { light: "good", wrinkles: "good", tears: "good", solder: "good", seat: "good" } as const;

describe("the register", () => {
  test("holds each item as it was registered last, and where the log tells of every revision", async () => {
    const store = await withSet(await opened(await temporaryFolder()));
    must(await store.record(registered(sieve(S710, { location: "rack 2" }), "moved to the new rack")));
    const { sieves, sets } = await store.care.register();
    expect(sieves.map(({ serial }) => serial)).toEqual(SERIALS);
    expect(sieves[2]).toMatchObject({ serial: S710, location: "rack 2" });
    expect(sets).toEqual([SET]);
    const revisions = await store.care.revisionsOf(sieve(S710));
    expect(revisions).toHaveLength(2);
    const [first] = revisions;
    if (first === undefined) throw new Error("no revision");
    expect(must(await store.entry(first.day, first.number))).toMatchObject({ kind: "registered", item: sieve(S710) });
  });

  test("takes in what the library has of older programs and of the plant", async () => {
    const folder = await temporaryFolder();
    const store = await opened(folder);
    await shelved(folder, sieve(S710));
    expect((await store.care.register()).sieves).toEqual([sieve(S710)]);
    must(await store.record(registered(sieve(S710, { frameMm: 200 }), "measured")));
    expect((await store.care.register()).sieves).toEqual([sieve(S710, { frameMm: 200 })]);
  });

  test.each([
    ["a change without a reason", registered(sieve(S710, { frameMm: 200 })), /to change it takes a reason/],
    ["the same again", registered(sieve(S710), "again"), /registered like this already/],
    ["another letter case", registered(sieve("s-0710-1")), /differs from S-0710-1 only by letter case/],
    ["a set named like a sieve", registered({ ...SET, code: S710 }), /is the name of a sieve already/],
    ["a set of strangers", registered({ ...SET, code: "SET-B", serials: ["S-9"] }), /sieve S-9 .* not registered/],
    [
      "a set of two of one aperture",
      registered({ ...SET, code: "SET-B", serials: [S710, S710] }),
      /names a sieve twice/,
    ],
    [
      "an inspection at which nothing was looked at",
      cared({ did: "inspection", serial: S710, looks: {} }),
      /nothing was looked at/,
    ],
    ["care of a stranger", cared({ did: "cleaning", serials: ["S-9"], how: "brush" }), /S-9 is not registered/],
  ])("refuses %s", async (_, entry, why) => {
    const store = await withSet(await opened(await temporaryFolder()));
    expect(mustNot(await store.record(entry))).toMatch(why);
  });
});

describe("what is known of a sieve", () => {
  test("is what it was used for, its empty masses and what was done to it", async () => {
    const store = await withSet(await opened(await temporaryFolder()));
    must(await store.record(weighed("t-1", "2026-11-21T08:00:00+01:00")));
    must(
      await store.record(cared({ did: "inspection", serial: S710, looks: GOOD_LOOKS }, "2026-11-22T08:00:00+01:00")),
    );
    must(await store.record(weighed("t-2", "2026-11-23T08:00:00+01:00", { [S710]: 0.05 })));
    const reading = await store.care.reading(S710);
    expect(reading?.life).toMatchObject({ serial: S710, apertureUm: 710, used: { tests: 1 }, ever: { tests: 2 } });
    expect(reading?.life.used.passedKg).toBeCloseTo(0.12); // 60 g on the finer sieve and in the pan
    expect(reading?.life.weighings.map(({ emptyG }) => emptyG)).toEqual([402, 402.05]);
    expect(reading?.told.map(({ did }) => did)).toEqual(["inspection"]);
    expect(reading?.notes).toHaveLength(1);
    expect(await store.care.lastSet("TH-0510")).toBe(SET.code);
    expect(await store.care.reading("S-9")).toBe(null);
  });

  test("follows a correction of its empty mass", async () => {
    const { correctionOf } = await import("../../src/assess/correctionOf.ts");
    const store = await withSet(await opened(await temporaryFolder()));
    const entry = must(await store.record(weighed("t-1", "2026-11-21T08:00:00+01:00")));
    if (entry.kind !== "test") throw new Error("no test");
    const change = { field: "emptyG", apertureUm: 710, from: 402, to: 402.5 } as const;
    const correction = must(correctionOf({ entry, later: [] }, [change], "misread the balance", "0.1.0"));
    must(await store.record({ ...correction, at: "2026-11-21T09:00:00+01:00", by: "KO" }));
    expect((await store.care.reading(S710))?.life.weighings[0]?.emptyG).toBe(402.5);
  });

  describe("of tests that are read otherwise later", () => {
    const at = (hour: number) => `2026-11-23T${String(hour).padStart(2, "0")}:00:00+01:00`;
    async function tested() {
      const folder = await temporaryFolder();
      const store = await withSet(await opened(folder));
      await store.record(weighed("t-0", "2026-11-20T09:00:00+01:00"));
      const { day, number } = must(await store.record(weighed("t-1", "2026-11-21T08:00:00+01:00", { [S710]: 5 })));
      return { folder, store, place: { day, number } };
    }
    const lifeIn = async (store: Store, serial = S710) => (await store.care.reading(serial))?.life;
    /** Followed entry by entry, and drawn from the log: both must say the same. */
    async function bothWays(folder: string, store: Store, serial = S710) {
      const followed = await lifeIn(store, serial);
      await store.close();
      await rm(careLedgerPath(folder));
      const again = await opened(folder);
      expect(await lifeIn(again, serial)).toEqual(followed);
      return followed;
    }

    test("counts no void test nor its empty mass, and a reinstated one again", async () => {
      const { folder, store, place } = await tested();
      const before = await lifeIn(store);
      expect(before?.weighings.map(({ emptyG }) => emptyG)).toEqual([402, 407]);
      must(await store.record(await saying(store, "voided", place, at(9))));
      const voided = await lifeIn(store);
      expect(voided).toMatchObject({ used: { tests: 1 }, ever: { tests: 1 }, weighings: [{ emptyG: 402 }] });
      expect(voided?.ever.passedKg).toBeCloseTo((before?.ever.passedKg ?? 0) / 2);
      must(await store.record(await saying(store, "reinstated", place, at(10))));
      expect(await bothWays(folder, store)).toEqual(before);
    });

    test("leaves what was counted since an inspection alone when a test before it is voided", async () => {
      const { folder, store, place } = await tested();
      must(await store.record(cared({ did: "inspection", serial: S710, looks: GOOD_LOOKS }, at(8))));
      must(await store.record(weighed("t-2", at(9))));
      must(await store.record(await saying(store, "voided", place, at(10))));
      expect(await bothWays(folder, store)).toMatchObject({ used: { tests: 1 }, ever: { tests: 2 } });
    });

    test("follows corrected masses: kg passed by a full mass, also when the test was void meanwhile", async () => {
      const { folder, store, place } = await tested();
      const passedKg = (await lifeIn(store))?.ever.passedKg ?? 0;
      const heavier = { field: "fullG", apertureUm: 500, to: 563 } as const; // 403 g empty, 463 g as recorded
      must(await store.record(await correction(store, place, heavier, at(9))));
      expect((await lifeIn(store))?.ever.passedKg).toBeCloseTo(passedKg + 0.1);
      must(await store.record(await saying(store, "voided", place, at(10))));
      must(await store.record(await saying(store, "reinstated", place, at(11))));
      const life = await bothWays(folder, store);
      expect(life?.ever.tests).toBe(2);
      expect(life?.ever.passedKg).toBeCloseTo(passedKg + 0.1);
    });
  });

  test("becomes its condition: due, out of service, grains caught", async () => {
    const store = await withSet(await opened(await temporaryFolder()));
    const hour = (k: number) =>
      `2026-11-${String(2 + Math.floor(k / 10)).padStart(2, "0")}T${String(8 + (k % 10)).padStart(2, "0")}:00:00+01:00`;
    must(
      await store.recordAll(
        Array.from({ length: 30 }, (_, k) => weighed(`t-${k}`, hour(k), { [S710]: k < 20 ? 0 : 0.05 * (k - 19) })),
      ),
    );
    must(await store.record(cared({ did: "quarantine", serials: ["S-0500-1"], reason: "dented rim" })));
    const { sieves } = await store.care.conditions(TODAY);
    const of = (serial: string) => sieves.find((one) => one.serial === serial);
    expect(of(S710)?.tare).toMatchObject({ state: "caught" });
    expect(of(S710)?.counts.tests).toBe(30);
    expect(of("S-0500-1")).toMatchObject({ state: "out of service", registered: "quarantine" });
    expect((await store.care.conditions("2027-11-24")).sieves[0]?.state).toBe("overdue");
  });
});

describe("the file behind it", () => {
  async function used(): Promise<string> {
    const folder = await temporaryFolder();
    const store = await withSet(await opened(folder));
    for (const k of [1, 2, 3]) must(await store.record(weighed(`t-${k}`, `2026-11-2${k}T08:00:00+01:00`)));
    must(await store.record(cared({ did: "cleaning", serials: [S710], how: "brush" })));
    await store.close();
    return folder;
  }
  const known = async (folder: string) => {
    const store = await opened(folder);
    const found = [await store.care.register(), await store.care.reading(S710), await store.care.conditions(TODAY)];
    await store.close();
    return found;
  };

  test.each<[string, (path: string) => Promise<unknown>]>([
    ["missing", (path) => rm(path)],
    ["empty", (path) => writeFile(path, "")],
    ["garbage", (path) => writeFile(path, "\u0000\u0001{[not json")],
    ["lying", async (path) => writeFile(path, (await readFile(path, "utf8")).replace('"tests":3', '"tests":2'))],
    ["of another kind", (path) => writeFile(path, '{"schema":"sievewright.head/1"}')],
  ])("that is %s is drawn again from the log", async (_, harm) => {
    const folder = await used();
    const before = await known(folder);
    const file = await readFile(careLedgerPath(folder), "utf8");
    await harm(careLedgerPath(folder));
    expect(await known(folder)).toEqual(before);
    expect(await readFile(careLedgerPath(folder), "utf8")).toBe(file);
  });

  test("that is behind after a crash meets the log again; one that is ahead of it is drawn anew", async () => {
    const folder = await used();
    const old = await readFile(careLedgerPath(folder), "utf8");
    const store = await opened(folder);
    must(await store.record(weighed("t-9", "2026-11-24T12:00:00+01:00")));
    await store.close();
    const now = await known(folder);
    await writeFile(careLedgerPath(folder), old);
    expect(await known(folder)).toEqual(now);
    const other = await used();
    await writeFile(careLedgerPath(other), await readFile(careLedgerPath(folder), "utf8"));
    expect((await known(other))[1]).toMatchObject({ life: { ever: { tests: 3 } } });
  });

  test("is left alone by entries that tell nothing of sieves", async () => {
    const folder = await used();
    const before = await readFile(careLedgerPath(folder), "utf8");
    const store = await opened(folder);
    must(await store.record(note("nothing of sieves", "2026-11-24T13:00:00+01:00")));
    await store.close();
    expect(await readFile(careLedgerPath(folder), "utf8")).toBe(before);
  });

  describe.each(["damaged", "gone", "of a newer program"])("with a day of the log that is %s", (harm) => {
    /** Harms a day; gives back how to bring it back. */
    async function harmed(folder: string): Promise<() => Promise<void>> {
      const path = dayPath(folder, "2026-11-22");
      const whole = await readFile(path, "utf8");
      if (harm === "gone") await rm(path);
      else if (harm === "damaged") await writeFile(path, whole.slice(0, 200));
      else await writeFile(path, whole.replace('"sievewright.day/1"', '"sievewright.day/2"'));
      await rm(careLedgerPath(folder));
      return () => writeFile(path, whole);
    }
    const testsIn = async (store: Store) => (await store.care.reading(S710))?.life.ever.tests;

    test("is drawn again as soon as the day can be read", async () => {
      const folder = await used();
      const bringBack = await harmed(folder);
      const store = await opened(folder);
      expect(await testsIn(store)).toBe(2);
      expect(await testsIn(store)).toBe(2);
      await bringBack();
      expect(await testsIn(store)).toBe(3);
    });

    test("says that it is short, goes on, and is drawn whole by a later session", async () => {
      const folder = await used();
      const before = await readFile(careLedgerPath(folder), "utf8");
      const bringBack = await harmed(folder);
      const store = await opened(folder);
      expect(await testsIn(store)).toBe(2);
      expect((await store.care.known("2026-11-25")).short).toBe(true);
      if (harm !== "of a newer program") must(await store.record(weighed("t-9", "2026-11-25T12:00:00+01:00")));
      await store.close();
      if (harm !== "of a newer program") {
        const short = JSON.parse(await readFile(careLedgerPath(folder), "utf8")).short;
        expect(short).toEqual(["2026-11-20", "2026-11-21", "2026-11-23", "2026-11-24", "2026-11-25"]);
      }
      await bringBack();
      const again = await opened(folder);
      expect(await testsIn(again)).toBe(harm === "of a newer program" ? 3 : 4);
      expect(await again.care.known("2026-11-25")).not.toHaveProperty("short");
      await again.close();
      const now = JSON.parse(await readFile(careLedgerPath(folder), "utf8"));
      expect(now.short).toBe(undefined);
      if (harm === "of a newer program") expect(now).toEqual(JSON.parse(before));
    });
  });

  test("is drawn again by reindex, to the same", async () => {
    const folder = await used();
    const before = await readFile(careLedgerPath(folder), "utf8");
    const store = await opened(folder);
    must(await store.reindex());
    await store.close();
    expect(await readFile(careLedgerPath(folder), "utf8")).toBe(before);
  });
});

describe("what it costs", () => {
  /** A station with so many tests of the set, ten a day, and what is read to know all of its sieves. */
  async function readFor(tests: number): Promise<{ readonly files: readonly string[]; readonly bytes: number }> {
    const folder = await temporaryFolder();
    const store = await withSet(await opened(folder));
    const momentOf = (k: number) => new Date(Date.parse("2026-01-02T08:00:00Z") + k * 2.4 * 3_600_000).toISOString();
    const many = Array.from({ length: tests }, (_, k) => weighed(`t-${k}`, momentOf(k).replace("Z", "+00:00")));
    must(await store.recordAll(many));
    await store.close();
    const read = { files: [] as string[], bytes: 0 };
    const counting: Disk = {
      ...realDisk,
      read: async (path) => {
        const bytes = await realDisk.read(path);
        if (!path.endsWith("station.lock")) read.files.push(relative(folder, path));
        read.bytes += bytes?.length ?? 0;
        return bytes;
      },
    };
    const again = await opened(folder, { disk: counting });
    Object.assign(read, { files: [], bytes: 0 });
    expect((await again.care.known(TODAY)).lives.get(S710)?.ever.tests).toBe(tests);
    return read;
  }

  test("is one file of the same size, however many tests the log holds", async () => {
    const [few, many] = [await readFor(130), await readFor(400)];
    expect(few.files).toEqual([join("index", "care.json")]);
    expect(many.files).toEqual(few.files);
    expect(many.bytes).toBeLessThan(1.5 * few.bytes); // more tests are thinned out to between 90 and 120 weighings a sieve
  });
});
