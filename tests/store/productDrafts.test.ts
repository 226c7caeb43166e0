import { readdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import { describe, expect, test } from "vitest";
import type { Product } from "../../src/record/product.ts";
import { draftFrom, type ProductDraft, publishedFrom, type Release } from "../../src/record/productDraft.ts";
import { sealOf } from "../../src/record/seal.ts";
import { openStore } from "../../src/store/openStore.ts";
import type { Store } from "../../src/store/store.ts";
import { verifyLog } from "../../src/store/verify.ts";
import { deadProcess } from "../faults/deadProcess.ts";
import { fault, ModelDisk } from "../faults/modelDisk.ts";
import { must, mustNot, opened } from "./opened.ts";
import { indexRowOf, note, now, product, station } from "./records.ts";
import { temporaryFolder } from "./temporaryFolder.ts";

const AT = "2026-11-24T10:00:00+01:00";
const loading = { fromPath: "x.json", bytesSha256: "a".repeat(64), by: "SB", at: AT };
const DRAFT: ProductDraft = {
  ...draftFrom(product, "KO", AT),
  envelope: [{ apertureUm: 500, passingPct: { max: 12 } }],
};
const RELEASE: Release = { by: "SB", at: AT, effective: "2026-11-24", reason: "less fines asked for" };
const PUBLISHED = publishedFrom(DRAFT, RELEASE);

async function withDraft(folder?: string, disk?: ModelDisk): Promise<Store> {
  const store = await opened(folder ?? (await temporaryFolder()), disk ? { disk } : {});
  must(await store.addProduct(product, loading));
  must(await store.saveProductDraft(DRAFT));
  return store;
}
const revisionsIn = async (store: Store) => (await store.products()).revisions("TH-0510").map((one) => one.revision);

describe("a draft of a product", () => {
  test("lies on a shelf of its own, across a restart, and is never in force", async () => {
    const folder = await temporaryFolder();
    const store = await withDraft(folder);
    expect(await readdir(join(folder, "library/product-drafts"))).toEqual(["TH-0510.json"]);
    await store.close();
    const again = await opened(folder);
    expect(await again.productDrafts()).toEqual([DRAFT]);
    expect(await revisionsIn(again)).toEqual([3]);
    expect((await again.products()).inForce("TH-0510", "2099-01-01")).toEqual(product);
  });

  test("is saved again and again, one file a code, and logs nothing", async () => {
    const store = await withDraft();
    must(await store.saveProductDraft({ ...DRAFT, name: "finer" }));
    expect(await store.productDrafts()).toMatchObject([{ name: "finer" }]);
    expect(await store.entriesOfDay("2026-11-24")).toHaveLength(1);
  });

  test("must be of a revision that does not exist yet, and one that would be read back", async () => {
    const store = await withDraft();
    expect(mustNot(await store.saveProductDraft({ ...DRAFT, revision: 3 }))).toBe(
      "TH-0510 is at revision 3 already; this draft is of revision 3",
    );
    expect(mustNot(await store.saveProductDraft({ ...DRAFT, stackUm: [] }))).toMatch(
      /^the draft of product can't be kept: damaged at stackUm/,
    );
  });

  test("that is discarded goes from the shelf; its file stays beside", async () => {
    const folder = await temporaryFolder();
    const store = await withDraft(folder);
    const kept = must(await store.discardProductDraft("TH-0510"));
    expect(await store.productDrafts()).toEqual([]);
    expect(JSON.parse(await readFile(join(folder, kept), "utf8"))).toEqual(DRAFT);
    expect(mustNot(await store.discardProductDraft("TH-0510"))).toMatch(/^there is no draft of TH-0510/);
    await store.close();
    const again = await opened(folder);
    expect(await again.productDrafts()).toEqual([]);
    expect(again.problems).toEqual([]);
  });
});

describe("publishing", () => {
  test("logs who wrote it, who let it go, why and which bytes; puts it on the shelf; the draft goes", async () => {
    const folder = await temporaryFolder();
    const store = await withDraft(folder);
    expect(must(await store.publishProduct("TH-0510", RELEASE))).toEqual(PUBLISHED);
    expect((await store.entriesOfDay("2026-11-24")).at(-1)).toMatchObject({
      kind: "product published",
      code: "TH-0510",
      revision: 4,
      by: "SB",
      author: "KO",
      effective: "2026-11-24",
      reason: "less fines asked for",
      sha256: sealOf(PUBLISHED),
    });
    expect(await store.productDrafts()).toEqual([]);
    await store.close();
    const again = await opened(folder);
    expect((await again.products()).inForce("TH-0510", "2026-11-24")).toEqual(PUBLISHED);
  });

  test("leaves the revision of today in force until the day of the new one has come", async () => {
    const store = await withDraft();
    must(await store.publishProduct("TH-0510", { ...RELEASE, effective: "2026-12-01" }));
    const shelf = await store.products();
    expect(shelf.inForce("TH-0510", "2026-11-30")?.revision).toBe(3);
    expect(shelf.inForce("TH-0510", "2026-12-01")?.revision).toBe(4);
  });

  test.each<[Partial<Release>, RegExp]>([
    [{ effective: "2026-11-23" }, /^2026-11-23 is past: .* from today \(2026-11-24\) or a later day$/],
    [{ effective: "soon" }, /^it can't be published: damaged at effective/],
    [{ reason: " " }, /needs a reason in words/],
    [{ by: "" }, /^it can't be published: damaged at by/],
  ])("with %j is refused, logs nothing, and the draft stays as it was", async (wrong, why) => {
    const store = await withDraft();
    expect(mustNot(await store.publishProduct("TH-0510", { ...RELEASE, ...wrong }))).toMatch(why);
    expect(await store.entriesOfDay("2026-11-24")).toHaveLength(1);
    expect(await store.productDrafts()).toEqual([DRAFT]);
  });

  test("in a night shift counts from the production day, which began the evening before", async () => {
    const store = await withDraft();
    const night = { ...RELEASE, at: "2026-11-25T02:00:00+01:00", effective: "2026-11-24" };
    expect(must(await store.publishProduct("TH-0510", night)).effective).toBe("2026-11-24");
  });

  test("of an envelope that no curve can meet is refused", async () => {
    const store = await withDraft();
    const envelope = [
      { apertureUm: 710, passingPct: { max: 70 } },
      { apertureUm: 500, passingPct: { min: 80 } },
    ];
    must(await store.saveProductDraft({ ...DRAFT, envelope }));
    expect(mustNot(await store.publishProduct("TH-0510", RELEASE))).toMatch(/no curve does both$/);
  });

  test("of a draft that another revision has overtaken is refused, and says so", async () => {
    const store = await withDraft();
    must(await store.addProduct({ ...product, revision: 4, name: "theirs" }, loading));
    expect(mustNot(await store.publishProduct("TH-0510", RELEASE))).toMatch(
      /^product TH-0510 revision 4 is loaded already, with other content/,
    );
    must(await store.saveProductDraft({ ...DRAFT, revision: 5, basedOn: 4 }));
    expect(must(await store.publishProduct("TH-0510", RELEASE)).revision).toBe(5);
  });

  test("without a draft says how one is made", async () => {
    const store = await opened(await temporaryFolder());
    expect(mustNot(await store.publishProduct("TH-0510", RELEASE))).toBe(
      'there is no draft of TH-0510: make one with "sievewright product draft TH-0510"',
    );
  });

  test("a reader beside the writer changes nothing", async () => {
    const folder = await temporaryFolder();
    await withDraft(folder);
    const reader = await opened(folder);
    expect(await reader.productDrafts()).toEqual([DRAFT]);
    expect(mustNot(await reader.saveProductDraft(DRAFT))).toMatch(/process \d+/);
    expect(mustNot(await reader.publishProduct("TH-0510", RELEASE))).toMatch(/process \d+/);
  });
});

describe("publishing on a disk that fails", () => {
  const failing = (disk: ModelDisk, where: string) => {
    disk.interference = ({ call, path }) => (call === "write" && path.includes(where) ? fault("ENOSPC") : null);
  };

  test("before the log: it is a draft still, and can be published again", async () => {
    const disk = new ModelDisk();
    const store = await withDraft("/station", disk);
    failing(disk, "/log/2026/");
    expect(mustNot(await store.publishProduct("TH-0510", RELEASE))).toMatch(/^the entry is not recorded/);
    disk.interference = () => null;
    expect(await store.productDrafts()).toEqual([DRAFT]);
    must(await store.publishProduct("TH-0510", RELEASE));
    expect((await store.entriesOfDay("2026-11-24")).filter(({ kind }) => kind === "product published")).toHaveLength(1);
  });

  test("after the log: the next try carries out what the log says, once, and what was typed anew is not asked for", async () => {
    const disk = new ModelDisk();
    const store = await withDraft("/station", disk);
    failing(disk, "/products/");
    expect(mustNot(await store.publishProduct("TH-0510", RELEASE))).toMatch(/The log has it as published/);
    expect(mustNot(await store.saveProductDraft({ ...DRAFT, name: "another" }))).toMatch(
      /publication .* was begun|is not kept/,
    );
    disk.interference = () => null;
    must(await store.record(note("meanwhile")));
    expect(must(await store.publishProduct("TH-0510", { ...RELEASE, reason: "second try" }))).toEqual(PUBLISHED);
    expect((await store.entriesOfDay("2026-11-24")).filter(({ kind }) => kind === "product published")).toHaveLength(1);
    expect(await store.productDrafts()).toEqual([]);
  });
});

describe("the power goes while a product is published", () => {
  const pid = deadProcess();
  const open = (disk: ModelDisk) => openStore("/station", { now, indexRowOf, create: station, disk, pid });

  interface Cut {
    readonly step: string;
    readonly disk: ModelDisk;
    readonly isDone: boolean;
  }

  async function cuts(chance: () => number): Promise<readonly Cut[]> {
    const disk = new ModelDisk();
    const store = must(await open(disk));
    must(await store.addProduct(product, loading));
    must(await store.saveProductDraft(DRAFT));
    const found: Cut[] = [];
    let isDone = false;
    const cut = (step: string) => found.push({ step, disk: disk.afterPowerCut(chance), isDone });
    disk.interference = ({ call, path }, index) => {
      if (call !== "read" && call !== "list") cut(`${index} ${call} ${path}`);
      return null;
    };
    must(await store.publishProduct("TH-0510", RELEASE));
    isDone = true;
    cut("after it was acknowledged");
    await store.close();
    return found;
  }

  const published = async (store: Store) =>
    (await store.entriesOfDay("2026-11-24")).filter((entry) => entry.kind === "product published");

  async function expectOneOrTheOther({ step, disk, isDone }: Cut): Promise<void> {
    const store = must(await open(disk));
    const revisions: readonly Product[] = (await store.products()).revisions("TH-0510");
    const drafts = await store.productDrafts();
    const entries = await published(store);
    expect(entries.length, step).toBeLessThanOrEqual(1);
    // Published, with an entry and without a draft; or a draft, without an entry.
    expect([revisions.length - 1, 1 - drafts.length], step).toEqual([entries.length, entries.length]);
    if (isDone) expect(entries, step).toHaveLength(1);
    if (entries.length === 0) expect(drafts, step).toEqual([DRAFT]);
    expect(revisions.at(-1), step).toEqual(entries.length === 1 ? PUBLISHED : product);
    expect(store.problems, step).toEqual([]);
    if (entries.length === 0) must(await store.publishProduct("TH-0510", RELEASE));
    expect(await published(store), step).toHaveLength(1);
    await store.close();
    expect(await verifyLog("/station", disk), step).toMatchObject({ ok: true });
  }

  test.each([1, 2, 3, 4, 5])(
    "before any step (seed %i): it is published or a draft, never both nor neither",
    async (seed) => {
      const random = xoroshiro128plus(seed);
      const found = await cuts(() => (random.next() >>> 0) / 2 ** 32);
      expect(found.length).toBeGreaterThan(15);
      for (const cut of found) await expectOneOrTheOther(cut);
    },
  );
});
