import { createHash } from "node:crypto";
import { mkdir, symlink, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { importShared } from "../../src/store/sharedImport.ts";
import { type ImportReport, refusedCount } from "../../src/store/sharedReport.ts";
import { must, mustNot, opened } from "./opened.ts";
import { product } from "./records.ts";
import { temporaryFolder } from "./temporaryFolder.ts";

const SAMPLE = fileURLToPath(new URL("../../shared", import.meta.url));
const AT = "2026-11-24T10:00:00+01:00";
const HOW = { by: "SB", at: AT, dryRun: false };
const program = { schema: "sievewright.program/1", code: "P10", name: "ten", motion: "tapping", durationS: 600 };
const stack = { schema: "sievewright.stack/1", code: "ST1", name: "sand", serials: ["S-1"] };

async function sharedWith(files: Readonly<Record<string, unknown>>): Promise<string> {
  const folder = await temporaryFolder();
  for (const kind of ["products", "programs", "stacks"]) await mkdir(join(folder, kind));
  for (const [name, content] of Object.entries(files))
    await writeFile(join(folder, name), typeof content === "string" ? content : JSON.stringify(content));
  return folder;
}

const states = ({ files }: ImportReport) => files.map(({ file, is }) => `${file} ${is}`);

describe("importing the sample of a plant's shared folder", () => {
  test("loads every product, program and stack; a second time all are there", async () => {
    const store = await opened(await temporaryFolder());
    const report = must(await importShared(store, SAMPLE, HOW));
    expect(report.files.length).toBeGreaterThanOrEqual(9);
    expect(new Set(report.files.map(({ is }) => is))).toEqual(new Set(["new"]));
    expect(report.files.every(({ note }) => note === null)).toBe(true);
    expect((await store.products()).codes).toEqual(["TH-0510", "TH-BAR", "TH-MAS", "TH-PG3"]);
    expect((await store.programs()).map(({ code }) => code)).toEqual(["TH-C08", "TH-T10", "TH-V10"]);
    expect(await store.stacks()).toHaveLength(2);
    const entries = await store.entriesOfDay("2026-11-24");
    const again = must(await importShared(store, SAMPLE, HOW));
    expect(new Set(again.files.map(({ is }) => is))).toEqual(new Set(["already there"]));
    expect(await store.entriesOfDay("2026-11-24")).toEqual(entries);
  });

  test("tells the log of each file: from where, and the SHA-256 of its bytes", async () => {
    const bytes = JSON.stringify(product);
    const folder = await sharedWith({ "products/sand.json": bytes, "programs/P10.json": program });
    const store = await opened(await temporaryFolder());
    const report = must(await importShared(store, folder, HOW));
    const sha256 = createHash("sha256").update(bytes).digest("hex");
    expect(report.files.find(({ file }) => file === "products/sand.json")).toMatchObject({
      what: "TH-0510 revision 3",
      sha256,
    });
    expect((await store.entriesOfDay("2026-11-24")).at(-1)).toMatchObject({
      kind: "product loaded",
      code: "TH-0510",
      by: "SB",
      from: join(folder, "products/sand.json"),
      sha256,
    });
    expect((await store.entriesOfDay("2026-11-24")).at(0)).toMatchObject({
      kind: "program loaded",
      what: "program",
      code: "P10",
      by: "SB",
      from: join(folder, "programs/P10.json"),
      sha256: createHash("sha256").update(JSON.stringify(program)).digest("hex"),
    });
  });

  test("on a dry run says the same and changes nothing, not even the log", async () => {
    const folder = await sharedWith({ "products/a.json": product, "programs/P10.json": program, "stacks/s.json": "{" });
    const store = await opened(await temporaryFolder());
    const dry = must(await importShared(store, folder, { ...HOW, dryRun: true }));
    expect((await store.products()).codes).toEqual([]);
    expect(await store.programs()).toEqual([]);
    expect(store.indexMonths()).toEqual([]);
    const real = must(await importShared(store, folder, HOW));
    expect(real).toEqual({ ...dry, dryRun: false });
  });
});

describe("a bad file hinders only itself", () => {
  test("each is refused with what is wrong and where; the good ones are loaded", async () => {
    const folder = await sharedWith({
      "products/good.json": product,
      "products/broken.json": '{ "schema": ',
      "products/empty.json": "",
      "products/newer.json": { ...product, schema: "sievewright.product/9" },
      "products/wrong.json": {
        ...product,
        code: "TH-2",
        envelope: [{ apertureUm: 500, passingPct: { min: 9, max: 3 } }],
      },
      "programs/product.json": product,
      "products/device.json": { ...product, code: "NUL" },
      "stacks/deep.json": "[".repeat(100_000),
    });
    const store = await opened(await temporaryFolder());
    const report = must(await importShared(store, folder, HOW));
    const why = Object.fromEntries(report.files.map((one) => [one.file, one.why]));
    expect(why["products/good.json"]).toBe(null);
    expect(why["products/broken.json"]).toMatch(/^line 1/);
    expect(why["products/empty.json"]).toMatch(/is empty/);
    expect(why["products/newer.json"]).toMatch(/made by a newer Sievewright/);
    expect(why["products/wrong.json"]).toMatch(/envelope\[0\]\.passingPct has its min above its max/);
    expect(why["programs/product.json"]).toMatch(/schema/);
    expect(why["stacks/deep.json"]).toMatch(/deep/);
    expect(refusedCount(report)).toBe(7);
    expect(why["products/device.json"]).toMatch(/Windows keeps/);
    expect((await store.products()).codes).toEqual(["TH-0510"]);
  });

  test("a link is not followed, and what is no JSON file is not looked at", async () => {
    const folder = await sharedWith({ "products/good.json": product, "products/notes.txt": "hello" });
    const elsewhere = join(await temporaryFolder(), "x.json");
    await writeFile(elsewhere, JSON.stringify({ ...product, code: "TH-2" }));
    await symlink(elsewhere, join(folder, "products/link.json"));
    const store = await opened(await temporaryFolder());
    const report = must(await importShared(store, folder, HOW));
    expect(states(report)).toEqual(["products/good.json new", "products/link.json refused"]);
    expect(report.files[1]?.why).toMatch(/it is a link/);
  });
});

describe("nothing is overwritten", () => {
  test("a revision of other content, an older one, another program or stack under the same code are refused", async () => {
    const store = await opened(await temporaryFolder());
    must(
      await importShared(
        store,
        await sharedWith({ "products/a.json": product, "programs/p.json": program, "stacks/s.json": stack }),
        HOW,
      ),
    );
    const folder = await sharedWith({
      "products/a.json": { ...product, name: "other" },
      "products/b.json": { ...product, revision: 2 },
      "programs/p.json": { ...program, durationS: 900 },
      "stacks/s.json": { ...stack, serials: ["S-2"] },
    });
    const report = must(await importShared(store, folder, HOW));
    expect(report.files.map(({ why }) => why)).toEqual([
      expect.stringMatching(/revision 3 is loaded already, with other content/),
      expect.stringMatching(/at revision 3 already; revision 2 is older/),
      "program P10 is in the library with other content, and an import replaces nothing",
      "stack ST1 is in the library with other content, and an import replaces nothing",
    ]);
    expect((await store.products()).revisions("TH-0510")).toEqual([product]);
    expect(await store.programs()).toEqual([program]);
    expect(await store.stacks()).toEqual([stack]);
  });

  test("of two files with the same code or revision and other content the first is taken, on a dry run too", async () => {
    const folder = await sharedWith({
      "products/a.json": product,
      "products/b.json": { ...product, name: "other" },
      "programs/p.json": program,
      "programs/q.json": { ...program, name: "other" },
    });
    const store = await opened(await temporaryFolder());
    for (const dryRun of [true, false])
      expect(states(must(await importShared(store, folder, { ...HOW, dryRun })))).toEqual([
        "products/a.json new",
        "products/b.json refused",
        "programs/p.json new",
        "programs/q.json refused",
      ]);
  });
});

describe("files of one folder count for each other", () => {
  test("revisions are loaded in their order, whatever the files are called", async () => {
    const folder = await sharedWith({ "products/a.json": { ...product, revision: 12 }, "products/b.json": product });
    const store = await opened(await temporaryFolder());
    const report = must(await importShared(store, folder, HOW));
    expect(states(report)).toEqual(["products/a.json new", "products/b.json new"]);
    expect((await store.products()).revisions("TH-0510").map(({ revision }) => revision)).toEqual([3, 12]);
  });

  test("a product whose program is nowhere is loaded, and that is told", async () => {
    const named = (name: string) => ({ ...product, code: `TH-${name}`, method: { program: name } });
    const folder = await sharedWith({
      "products/a.json": named("P10"),
      "products/b.json": named("P99"),
      "programs/p.json": program,
    });
    const report = must(await importShared(await opened(await temporaryFolder()), folder, HOW));
    expect(report.files.map(({ note }) => note)).toEqual([
      null,
      "its program P99 is neither in this folder nor in the library",
      null,
    ]);
  });
});

test("a folder that is not there, or has nothing of ours, is refused as a whole", async () => {
  const store = await opened(await temporaryFolder());
  expect(mustNot(await importShared(store, "/no/such/folder", HOW))).toMatch(/^there is no folder \/no\/such\/folder/);
  expect(mustNot(await importShared(store, await temporaryFolder(), HOW))).toMatch(/has no JSON file in products\//);
});
