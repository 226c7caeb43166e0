import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { checkHistory } from "../../src/care/reference/history.ts";
import type { Register } from "../../src/care/register/register.ts";
import { fillStation } from "../../src/demo/fillStation.ts";
import { DEMO_STATION } from "../../src/demo/station.ts";
import { withDemoStation } from "../../src/demo/temporaryStation.ts";
import { lifeTold } from "../../src/store/careReading.ts";
import type { Disk } from "../../src/store/disk.ts";
import { indexRowOf } from "../../src/store/indexRowOf.ts";
import { realDisk } from "../../src/store/realDisk.ts";
import { verifyLog } from "../../src/store/verify.ts";
import { must, opened } from "../store/opened.ts";
import { temporaryFolder } from "../store/temporaryFolder.ts";

const FILLING = { tests: 40, seed: 1, untilMs: Date.parse("2026-11-24T02:00:00Z"), programVersion: "0.1.0" };
/** Sieves, sets, balance, weights and reference material, what was done to the sieves before the season, and its first run. */
const REGISTERED = 31 + 4 + 4 + 26 + 1;
const openDemo = (folder: string, disk: Disk = realDisk) => opened(folder, { create: DEMO_STATION, indexRowOf, disk });

async function filled(change: Partial<typeof FILLING> = {}, disk?: Disk) {
  const folder = await temporaryFolder();
  const store = await openDemo(folder, disk);
  const count = must(await fillStation(store, { ...FILLING, ...change }));
  await store.close();
  return { folder, count };
}

function must710({ sieves }: Register) {
  const sieve = sieves.find(({ serial }) => serial === "S-0710-1");
  if (sieve === undefined) throw new Error("the demo has no S-0710-1");
  return sieve;
}

/** Every file of a folder with its bytes, by its name. */
function contentOf(folder: string): Record<string, string> {
  const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  const named = files.map((file) => join(file.parentPath, file.name)).toSorted();
  return Object.fromEntries(named.map((path) => [path.slice(folder.length), readFileSync(path, "utf8")]));
}

describe("a demo station", () => {
  test("filled twice alike is the same to the last byte", async () => {
    const [one, other] = [await filled(), await filled()];
    expect(contentOf(one.folder)).toEqual(contentOf(other.folder));
    expect(Object.keys(contentOf(one.folder)).length).toBeGreaterThan(12);
  });

  test("filled from another seed is another", async () => {
    const [one, other] = [await filled({ tests: 5 }), await filled({ tests: 5, seed: 2 })];
    expect(contentOf(one.folder)).not.toEqual(contentOf(other.folder));
  });

  test("holds all its tests in a log that verifies, every product and program, and one test in work", async () => {
    const { folder, count } = await filled();
    expect(count).toBe(40);
    const store = await openDemo(folder);
    expect(store.problems).toEqual([]);
    expect((await store.recentRows(100)).length).toBe(40);
    expect((await store.products()).codes).toEqual(["TH-0510", "TH-BAR", "TH-MAS", "TH-PG3"]);
    expect((await store.programs()).map((program) => program.code)).toEqual(["TH-C08", "TH-T10", "TH-V10"]);
    expect(store.drafts().map((draft) => draft.weighings.filter((w) => w.fullG !== null).length)).toEqual([3]);
    await store.close();
    expect(await verifyLog(folder)).toMatchObject({ ok: true, entries: 40 + 4 + 3 + REGISTERED });
  });

  test("has runs of its reference material between its tests, in the order of time, one each thirty days", async () => {
    const runsOf = async (tests: number) => {
      const { folder } = await filled({ tests });
      const store = await openDemo(folder);
      const { checks } = await lifeTold(store, must710(await store.care.register()));
      await store.close();
      return checks;
    };
    const [few, many] = [await runsOf(5), await runsOf(400)];
    expect(few).toHaveLength(1);
    expect(many).toHaveLength(2);
    const history = checkHistory("S-0710-1", many);
    expect(history.map(({ material, checked }) => [material, checked.result])).toEqual([
      ["TH-RM1", "agrees"],
      ["TH-RM1", "agrees"],
    ]);
    const [first, second] = history;
    expect(Date.parse(second?.at ?? "") - Date.parse(first?.at ?? "")).toBe(30 * 86_400_000);
    expect((second?.number ?? 0) - (first?.number ?? 0)).toBeGreaterThan(100);
  });

  test("has rows in its index that are drawn from the log again without a change", async () => {
    const { folder } = await filled();
    const before = contentOf(join(folder, "index"));
    const store = await openDemo(folder);
    must(await store.reindex());
    await store.close();
    expect(contentOf(join(folder, "index"))).toEqual(before);
  });

  test("costs a few writes a day, not a few writes a test", async () => {
    let writes = 0;
    const counting: Disk = {
      ...realDisk,
      writeAndSync(path, text) {
        writes += 1;
        return realDisk.writeAndSync(path, text);
      },
    };
    const { folder } = await filled({ tests: 240 }, counting);
    const days = Object.keys(contentOf(join(folder, "log"))).length - 1;
    expect(days).toBeGreaterThan(30);
    // A day file, the head, the index of its month and what is known of sieves each day; products, programs, the register,
    // the draft and the lock once.
    expect(writes).toBeLessThanOrEqual(4 * days + 50);
  });

  test("in a temporary folder is filled before the work on it, and gone afterwards", async () => {
    let where = "";
    const rows = must(
      await withDemoStation(
        { ...FILLING, tests: 6 },
        () => "2026-11-24T03:00:00+01:00",
        async (store) => {
          where = store.folder;
          return store.recentRows(100);
        },
      ),
    );
    expect(rows).toHaveLength(6);
    expect(() => readdirSync(where)).toThrow();
  });
});
