import { writeFile } from "node:fs/promises";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { lifeTold, productOfSieve } from "../../src/store/careReading.ts";
import { outsideFile } from "../../src/store/outsideFile.ts";
import { cared, registered, SERIALS, sieve, weighed, withSet } from "./careWorld.ts";
import { must, mustNot, opened } from "./opened.ts";
import { temporaryFolder } from "./temporaryFolder.ts";

const S710 = "S-0710-1";
const station = async () => withSet(await opened(await temporaryFolder()));

describe("the life of a sieve", () => {
  test("is its registrations and its care, newest first, whole entries", async () => {
    const store = await station();
    must(await store.record(cared({ did: "cleaning", serials: SERIALS, how: "brush" }, "2026-11-21T09:00:00+01:00")));
    must(await store.record(cared({ did: "repair", serials: ["S-1400-1"], what: "rim" }, "2026-11-21T10:00:00+01:00")));
    must(await store.record(registered(sieve(S710, { frameMm: 200 }), "measured", "2026-11-22T09:00:00+01:00")));
    const told = await lifeTold(store, sieve(S710));
    expect(told.older).toBe(0);
    expect(told.entries.map((entry) => (entry.kind === "care" ? entry.care.did : entry.kind))).toEqual([
      "registered",
      "cleaning",
      "registered",
    ]);
    const [newest] = told.entries;
    expect(newest).toMatchObject({ reason: "measured", by: "KO" });
  });

  test("of many entries the newest 60 are read, the older ones counted", async () => {
    const store = await station();
    const entries = Array.from({ length: 70 }, (_, i) =>
      cared(
        { did: "cleaning", serials: [S710], how: "tap", note: `${i}` },
        `2026-11-21T09:${String(i % 60).padStart(2, "0")}:00+01:00`,
      ),
    );
    must(await store.recordAll(entries));
    const { entries: read, older } = await lifeTold(store, sieve(S710));
    expect([read.length, older]).toEqual([60, 11]);
    expect(read[0]).toMatchObject({ care: { note: "69" } });
  });
});

describe("the product of a sieve", () => {
  test("is that of its latest test; none for a stranger and for one that stood in no test", async () => {
    const store = await station();
    expect(await productOfSieve(store, S710)).toBeNull();
    must(await store.record(weighed("T-0", "2026-11-20T09:00:00+01:00")));
    expect(await productOfSieve(store, S710)).toBe("TH-0510");
    expect(await productOfSieve(store, "S-9")).toBeNull();
  });
});

describe("a file that somebody names", () => {
  test("is read from the station's folder on, or by its whole path", async () => {
    const folder = await temporaryFolder();
    await writeFile(join(folder, "a.csv"), "warp_um\n1\n");
    expect(new TextDecoder().decode(must(await outsideFile(folder, "a.csv")))).toBe("warp_um\n1\n");
    expect(must(await outsideFile("elsewhere", join(folder, "a.csv")))).toHaveLength(10);
  });

  test("that is none, or a folder, is refused in words; one too large is cut where its reader sees it", async () => {
    const folder = await temporaryFolder();
    expect(mustNot(await outsideFile(folder, "b.csv"))).toBe("b.csv: there is no such file: check the name");
    expect(mustNot(await outsideFile(folder, "."))).toBe(".: is a folder: name a file");
    expect(mustNot(await outsideFile(folder, "a\0b"))).toMatch(/there is no such file/);
    await writeFile(join(folder, "large"), Buffer.alloc(2 * 1024 * 1024));
    expect(must(await outsideFile(folder, "large"))).toHaveLength(1024 * 1024 + 1);
  });
});
