import { mkdir, readdir, readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Product } from "../../src/record/product.ts";
import { sealOf } from "../../src/record/seal.ts";
import { arrival, productShelf } from "../../src/store/productShelf.ts";
import { fault, ModelDisk } from "../faults/modelDisk.ts";
import { must, mustNot, opened } from "./opened.ts";
import { product } from "./records.ts";
import { shelved } from "./shelved.ts";
import { temporaryFolder } from "./temporaryFolder.ts";

const revision = (n: number, more: Partial<Product> = {}): Product => ({ ...product, revision: n, ...more });
const loading = {
  fromPath: "shared/products/TH-0510.json",
  bytesSha256: "a".repeat(64),
  by: "SB",
  at: "2026-11-24T10:00:00+01:00",
};

describe("the revision in force", () => {
  const shelf = productShelf([
    revision(3, { effective: "2026-12-01" }),
    revision(1),
    revision(2, { effective: "2026-11-24" }),
    revision(1, { code: "TH-BAR", effective: "2027-01-01" }),
  ]);
  const on = (day: string) => shelf.inForce("TH-0510", day)?.revision;

  test("is the highest whose day has come; one without a day is in force at once", () => {
    expect(on("2020-01-01")).toBe(1);
    expect(on("2026-11-23")).toBe(1);
    expect(on("2026-11-24")).toBe(2);
    expect(on("2026-11-30")).toBe(2);
    expect(on("2026-12-01")).toBe(3);
    expect(on("2099-01-01")).toBe(3);
  });

  test("is none before the first day, and none for a product that isn't loaded", () => {
    expect(shelf.inForce("TH-BAR", "2026-12-31")).toBe(null);
    expect(shelf.inForce("TH-XXX", "2026-12-31")).toBe(null);
    expect(shelf.revisions("TH-XXX")).toEqual([]);
  });

  test("a higher revision without a day comes before a lower one with a day", () => {
    const later = productShelf([revision(2), revision(1, { effective: "2026-11-01" })]);
    expect(later.inForce("TH-0510", "2026-11-24")?.revision).toBe(2);
  });

  test("the shelf lists codes by the alphabet and revisions from the lowest, however they come in", () =>
    fc.assert(
      fc.property(fc.shuffledSubarray([1, 2, 3, 4, 10, 11], { minLength: 6 }), (numbers) => {
        const mixed = productShelf(
          numbers.flatMap((n) => [revision(n, { code: "TH-MAS" }), revision(n, { code: "TH-BAR" })]),
        );
        expect(mixed.codes).toEqual(["TH-BAR", "TH-MAS"]);
        expect(mixed.revisions("TH-MAS").map((one) => one.revision)).toEqual([1, 2, 3, 4, 10, 11]);
      }),
    ));

  test("never goes down as days go by", () =>
    fc.assert(
      fc.property(
        fc.array(fc.option(fc.integer({ min: 1, max: 28 }), { nil: null }), { minLength: 1, maxLength: 6 }),
        fc.integer({ min: 1, max: 27 }),
        (days, on) => {
          const date = (day: number) => `2026-11-${`${day}`.padStart(2, "0")}`;
          const some = productShelf(
            days.map((day, i) => revision(i + 1, day === null ? {} : { effective: date(day) })),
          );
          const today = some.inForce("TH-0510", date(on))?.revision ?? 0;
          const tomorrow = some.inForce("TH-0510", date(on + 1))?.revision ?? 0;
          expect(tomorrow).toBeGreaterThanOrEqual(today);
        },
      ),
    ));
});

describe("a product revision that comes in", () => {
  const shelf = productShelf([revision(2), revision(3)]);

  test("is new above the newest, also with a gap, and for an unknown code", () => {
    expect(arrival(revision(4), shelf)).toEqual({ is: "new" });
    expect(arrival(revision(9), shelf)).toEqual({ is: "new" });
    expect(arrival(revision(1, { code: "TH-MAS" }), shelf)).toEqual({ is: "new" });
  });

  test("is already there when its content is the same, whatever the order of its fields", () => {
    const turned = Object.fromEntries(Object.entries(revision(2)).reverse()) as Product;
    expect(arrival(turned, shelf)).toEqual({ is: "already there" });
  });

  test.each([
    [revision(3, { name: "other" }), "product TH-0510 revision 3 is loaded already, with other content"],
    [revision(1), "product TH-0510 is at revision 3 already; revision 1 is older"],
    [revision(4, { code: "th-0510" }), "product th-0510 differs from TH-0510 only by letter case"],
  ])("is refused: %o", (wrong, words) => {
    const coming = arrival(wrong, shelf);
    expect(coming.is === "refused" ? coming.why : "").toContain(words);
  });
});

describe("loading a product", () => {
  test("keeps it under its code and revision and logs where it came from", async () => {
    const folder = await temporaryFolder();
    const store = await opened(folder);
    expect(must(await store.addProduct(product, loading))).toBe("added");
    expect(await readdir(join(folder, "library/products"))).toEqual(["TH-0510.rev3.json"]);
    expect(await store.entriesOfDay("2026-11-24")).toMatchObject([
      {
        kind: "product loaded",
        number: 1,
        code: "TH-0510",
        revision: 3,
        from: loading.fromPath,
        sha256: loading.bytesSha256,
        contentSha256: sealOf(product),
        by: "SB",
      },
    ]);
    expect((await store.products()).inForce("TH-0510", "2026-11-24")).toEqual(product);
  });

  test("keeps the older revisions, across a restart", async () => {
    const folder = await temporaryFolder();
    const store = await opened(folder);
    for (const n of [1, 2, 10]) must(await store.addProduct(revision(n), loading));
    await store.close();
    const shelf = await (await opened(folder)).products();
    expect(shelf.revisions("TH-0510").map((one) => one.revision)).toEqual([1, 2, 10]);
  });

  test("a second time is fine and logs nothing more", async () => {
    const store = await opened(await temporaryFolder());
    must(await store.addProduct(product, loading));
    expect(must(await store.addProduct(product, loading))).toBe("already there");
    expect(await store.entriesOfDay("2026-11-24")).toHaveLength(1);
  });

  test("that is refused logs nothing and changes no file", async () => {
    const folder = await temporaryFolder();
    const store = await opened(folder);
    must(await store.addProduct(product, loading));
    const before = await readFile(join(folder, "library/products/TH-0510.rev3.json"));
    mustNot(await store.addProduct({ ...product, name: "other" }, loading));
    mustNot(await store.addProduct({ ...product, revision: 4, stackUm: [] }, loading));
    expect(mustNot(await store.addProduct({ ...product, code: "NUL" }, loading))).toContain("Windows keeps");
    expect(await store.entriesOfDay("2026-11-24")).toHaveLength(1);
    expect(await readFile(join(folder, "library/products/TH-0510.rev3.json"))).toEqual(before);
  });

  test("two at the same moment: the higher one waits for the lower, none is lost", async () => {
    const store = await opened(await temporaryFolder());
    const both = await Promise.all([store.addProduct(revision(1), loading), store.addProduct(revision(2), loading)]);
    expect(both.map(must)).toEqual(["added", "added"]);
    expect((await store.products()).revisions("TH-0510")).toHaveLength(2);
  });

  test("can be tried again when the file could not be written after it was logged", async () => {
    const disk = new ModelDisk();
    const store = await opened("/station", { disk });
    disk.interference = ({ call, path }) => (call === "write" && path.includes("/library/") ? fault("ENOSPC") : null);
    expect(mustNot(await store.addProduct(product, loading))).toMatch(
      /^product TH-0510\.rev3 is not kept: .+\(ENOSPC\)\. Load it again/,
    );
    expect((await store.products()).codes).toEqual([]);
    disk.interference = () => null;
    expect(must(await store.addProduct(product, loading))).toBe("added");
  });

  test("that can't be logged is not kept: none is used that the log does not know of", async () => {
    const disk = new ModelDisk();
    const store = await opened("/station", { disk });
    disk.interference = ({ call, path }) => (call === "write" && path.includes("/log/2026/") ? fault("ENOSPC") : null);
    expect(mustNot(await store.addProduct(product, loading))).toMatch(/^the entry is not recorded: the disk is full/);
    expect((await store.products()).codes).toEqual([]);
    expect(disk.paths().filter((path) => path.includes("/library/"))).toEqual([]);
  });

  test("never replaces a file that is there but out of reach", async () => {
    const disk = new ModelDisk();
    const before = await opened("/station", { disk });
    must(await before.addProduct(product, loading));
    await before.close();
    const store = await opened("/station", { disk });
    disk.interference = ({ call, path }) => (call === "read" && path.includes("rev3") ? fault("EIO") : null);
    expect((await store.products()).codes).toEqual([]);
    expect(store.problems).toEqual([
      expect.stringMatching(/^library\/products\/TH-0510\.rev3\.json can't be read: .+\(EIO\)$/),
    ]);
    expect(mustNot(await store.addProduct(product, loading))).toBe(
      "TH-0510.rev3 is in the library but can't be read; it is not replaced",
    );
  });
});

describe("programs, sieves and stacks", () => {
  const program = {
    schema: "sievewright.program/1",
    code: "P-10",
    name: "10 min",
    motion: "tapping",
    durationS: 600,
  } as const;
  const sieve = { schema: "sievewright.sieve/1", serial: "S-0710-2", apertureUm: 710 } as const;
  const stack = { schema: "sievewright.stack/1", code: "ST-1", name: "sand", serials: ["S-0710-2"] } as const;

  test("are kept across a restart, in the order of their names", async () => {
    const folder = await temporaryFolder();
    const store = await opened(folder);
    must(await store.addProgram({ ...program, code: "P-20" }, loading));
    must(await store.addProgram(program, loading));
    await shelved(folder, sieve);
    must(await store.addStack({ ...stack, serials: [...stack.serials] }, loading));
    await store.close();
    const again = await opened(folder);
    expect((await again.programs()).map(({ code }) => code)).toEqual(["P-10", "P-20"]);
    expect(await again.sieves()).toEqual([sieve]);
    expect(await again.stacks()).toEqual([stack]);
  });

  test("none is kept yet: the lists are empty", async () => {
    const store = await opened(await temporaryFolder());
    expect([await store.programs(), await store.sieves(), await store.stacks()]).toEqual([[], [], []]);
    expect((await store.products()).codes).toEqual([]);
  });

  test("nothing replaces a program or stack under its code, and each that comes in is logged, once", async () => {
    const folder = await temporaryFolder();
    const store = await opened(folder);
    const serials = [...stack.serials];
    expect(must(await store.addProgram(program, loading))).toBe("added");
    expect(must(await store.addProgram(program, loading))).toBe("already there");
    expect(mustNot(await store.addProgram({ ...program, durationS: 900 }, loading))).toBe(
      "program P-10 is in the library with other content; nothing replaces it. Give the change a new code",
    );
    must(await store.addStack({ ...stack, serials }, loading));
    expect(mustNot(await store.addStack({ ...stack, name: "gravel", serials }, loading))).toContain("other content");
    expect(await store.programs()).toEqual([program]);
    const { fromPath: from, bytesSha256: sha256, by } = loading;
    const common = { kind: "program loaded", from, sha256, by };
    expect(await store.entriesOfDay("2026-11-24")).toMatchObject([
      { ...common, what: "program", code: "P-10", contentSha256: sealOf(program) },
      { ...common, what: "stack", code: "ST-1", contentSha256: sealOf(stack) },
    ]);
  });

  test("that can't be logged is not kept; that could not be written after it was logged can be tried again", async () => {
    const disk = new ModelDisk();
    const store = await opened("/station", { disk });
    disk.interference = ({ call, path }) => (call === "write" && path.includes("/log/2026/") ? fault("ENOSPC") : null);
    expect(mustNot(await store.addProgram(program, loading))).toMatch(/^the entry is not recorded: the disk is full/);
    disk.interference = ({ call, path }) => (call === "write" && path.includes("/library/") ? fault("ENOSPC") : null);
    expect(mustNot(await store.addProgram(program, loading))).toContain("Load it again afterwards");
    expect(await store.programs()).toEqual([]);
    disk.interference = () => null;
    expect(must(await store.addProgram(program, loading))).toBe("added");
  });

  test("a code that differs only by letter case is refused, as is what would not be read back", async () => {
    const store = await opened(await temporaryFolder());
    must(await store.addProgram(program, loading));
    expect(mustNot(await store.addProgram({ ...program, code: "p-10" }, loading))).toBe(
      "p-10 differs from P-10 only by letter case; use P-10",
    );
    expect(mustNot(await store.addProgram({ ...program, durationS: -1 }, loading))).toMatch(
      /^the program can't be kept: damaged at durationS/,
    );
    expect(mustNot(await store.addProgram({ ...program, code: "aux" }, loading))).toContain("Windows keeps");
  });

  test("a folder of them that is no folder is told, and the rest goes on", async () => {
    const folder = await temporaryFolder();
    await mkdir(join(folder, "library"));
    await writeFile(join(folder, "library/sieves"), "a stranger's");
    const store = await opened(folder);
    expect(await store.sieves()).toEqual([]);
    expect(store.problems).toEqual([expect.stringMatching(/^library\/sieves can't be read/)]);
    must(await store.addProgram(program, loading));
  });
});
