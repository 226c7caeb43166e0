import { mkdir, writeFile } from "node:fs/promises";
import { dirname, join } from "node:path";
import { describe, expect, test } from "vitest";
import { IndexMonthSchema } from "../../src/record/indexRow.ts";
import { indexKind, productKind, stationKind } from "../../src/record/kinds.ts";
import { readRecord } from "../../src/record/migrate.ts";
import { readProduct } from "../../src/record/readExchanged.ts";
import { readSheet } from "../../src/record/readSheet.ts";
import { sealOf } from "../../src/record/seal.ts";
import { file, folder, run } from "../commands/inProcess.ts";
import { FILTER_SAND } from "../run/hands.ts";
import { recordedEntry, recordedRow } from "../screens/stage.ts";
import { must, opened } from "../store/opened.ts";
import { draft, note, station, testEntry } from "../store/records.ts";
import { ALL_UNSEEN, PROTOTYPE_NAMES } from "./evil.ts";

const DEEP = 100_000;
const product = (change: string): string => JSON.stringify(FILTER_SAND).replace(/}$/, `,${change}}`);
const reasonOf = (text: string | Uint8Array): string => {
  const read = readProduct(typeof text === "string" ? Buffer.from(text) : text);
  return read.ok ? "read" : read.reason;
};
const whyOf = (text: string): string => {
  const read = readRecord(text, productKind);
  return read.is === "read" ? "read" : read.why;
};

describe("a file that nests a hundred thousand deep", () => {
  const deep = [
    ["lists", "[".repeat(DEEP) + "]".repeat(DEEP)],
    ["objects", `${'{"a":'.repeat(DEEP)}1${"}".repeat(DEEP)}`],
    ["lists in a product", product(`"note":${"[".repeat(DEEP)}${"]".repeat(DEEP)}`)],
    ["unclosed", "[".repeat(DEEP)],
  ] as const;
  test.each(deep)("%s: is refused at once by every reader, whatever else is in it", (_, text) => {
    const startedAt = performance.now();
    expect(reasonOf(text)).toMatch(/^line 1, column \d+: is nested more than 32 deep$/);
    expect(whyOf(text)).toBe("the file nests brackets deeper than any record does");
    expect(readSheet(Buffer.from(text))).toMatchObject({ ok: false });
    expect(performance.now() - startedAt).toBeLessThan(5000);
  });

  test("in a station's folder: told, set aside, and the rest goes on", async () => {
    const at = folder();
    const store = await opened(at);
    must(await store.record(testEntry("T-1")));
    must(await store.saveDraft(draft("T-2", 2)));
    await store.close();
    for (const name of ["drafts/T-3.json", "operators.json", "library/products/TH-9.rev1.json"]) {
      await mkdir(dirname(join(at, name)), { recursive: true });
      await writeFile(join(at, name), "[".repeat(DEEP));
    }
    const again = await opened(at);
    await again.products();
    expect(again.problems.join("\n").split("nests brackets deeper")).toHaveLength(4);
    expect(again.drafts().map(({ testId }) => testId)).toEqual(["T-2"]);
  });
});

describe("names that objects inherit", () => {
  test.each(PROTOTYPE_NAMES)("%s as a field of a file is an unknown field, and nothing inherits from it", (name) => {
    const text = product(`${JSON.stringify(name)}:{"polluted":true}`);
    expect(reasonOf(text)).toContain(name);
    expect(whyOf(text)).toContain("unknown field");
    expect(({} as Record<string, unknown>).polluted).toBeUndefined();
  });

  test.each(PROTOTYPE_NAMES)("%s deep within a stored file", (name) => {
    const row = JSON.stringify({ schema: "sievewright.index/1", month: "2026-11", days: {}, rows: [recordedRow()] });
    const within = row.replace('"lot":', `${JSON.stringify(name)}:{"polluted":true},"lot":`);
    expect(readRecord(within, indexKind).is).toBe("damaged");
    expect(({} as Record<string, unknown>).polluted).toBeUndefined();
  });

  test.each(PROTOTYPE_NAMES)(
    "%s as the name of a value in a record of values: taken as a figure or not at all",
    (name) => {
      const row = recordedRow();
      const text = JSON.stringify({ ...row, values: {} }).replace(
        '"values":{}',
        `"values":{${JSON.stringify(name)}:7}`,
      );
      const index = `{"schema":"sievewright.index/1","month":"2026-11","days":{},"rows":[${text}]}`;
      const read = readRecord(index, indexKind);
      if (read.is !== "read") return expect(read.is).toBe("damaged");
      const values = read.value.rows[0]?.values ?? {};
      expect(Object.getPrototypeOf(values)).toBe(Object.prototype);
      for (const figure of Object.values(values)) expect(figure).toBe(7);
      expect(IndexMonthSchema.safeParse(read.value).success).toBe(true);
    },
  );

  test.each([...PROTOTYPE_NAMES, "hasOwn"])(
    "%s as the name of anything on the command line is no such thing",
    async (name) => {
      for (const argv of [
        ["help", name],
        ["sieves", name],
        [name],
        ["product", "show", name, "--data", folder()],
        ["product", "diff", name, `${name}@1`, "--data", folder()],
        ["evaluate", "-", "--basis", name],
        ["evaluate", "-", "--interpolation", name],
        ["log", "--since", name],
      ]) {
        const { code, out, err } = await run(argv, { stdin: "aperture_um,net_g\n500,1\npan,1\n" });
        expect([argv, [64, 65, 66].includes(code), out]).toEqual([argv, true, ""]);
        expect(err).not.toMatch(/fault of the program|native code|undefined/);
      }
    },
  );

  test.each(PROTOTYPE_NAMES)("%s as a code, a lot or a line works like any other word, or is refused", async (name) => {
    const at = folder();
    const store = await opened(at, { create: { ...station, lines: [name] } });
    const loading = { fromPath: "x", bytesSha256: "a".repeat(64), by: "KO", at: "2026-11-24T08:00:00+01:00" };
    const coded = await store.addProduct({ ...FILTER_SAND, code: name }, loading);
    expect(coded.ok).toBe(!name.startsWith("_"));
    const shelf = await store.products();
    expect(shelf.revisions(name)).toHaveLength(coded.ok ? 1 : 0);
    expect(shelf.revisions("isPrototypeOf")).toEqual([]);
    const entry = testEntry("T-1");
    if (entry.kind !== "test") throw new Error("a test entry is of kind test");
    must(await store.record({ ...entry, test: { ...entry.test, lot: name, line: name } }));
    expect((await store.recentRows(5)).map(({ lot, line }) => [lot, line])).toEqual([[name, name]]);
    expect(must(await store.reindex())).toMatchObject({ months: 1 });
    await store.close();
    expect((await run(["verify", "--data", at])).code).toBe(0);
  });
});

describe("what JSON allows and no record means", () => {
  test.each([
    ["a number beyond all numbers", product('"note":1e999'), /note/],
    ["a name twice", product('"code":"X"'), /"code" stands twice/],
    ["a name twice, once escaped", product('"c\\u006fde":"X"'), /"code" stands twice/],
    ["half a surrogate in a name", product('"\\ud800":1'), /unknown field/],
    ["half a surrogate in a text", product('"x":1').replace("filter sand", "\\ud800"), /control or broken characters/],
    ["NUL in a text", product('"x":1').replace("filter sand", "\\u0000"), /control or broken characters/],
    ["a raw NUL", product('"x":1').replace("filter sand", "\0"), /^line 1, column \d+: /],
    ["a text without end", JSON.stringify({ ...FILTER_SAND, name: "x".repeat(500_000) }), /longer than 80 characters/],
    ["a code without end", JSON.stringify({ ...FILTER_SAND, code: "x".repeat(500_000) }), /at most 40/],
    ["a stack without end", JSON.stringify({ ...FILTER_SAND, stackUm: Array(9000).fill(1) }), /stackUm/],
    ["a revision of 0", JSON.stringify({ ...FILTER_SAND, revision: -0 }), /revision/],
    ["a revision with decimals", JSON.stringify({ ...FILTER_SAND, revision: 1.5 }), /revision/],
    ["a number with a leading zero", product('"note":01'), /^line 1, column \d+: /],
    ["comments", `/* */${JSON.stringify(FILTER_SAND)}`, /^line 1, column 1: /],
    ["a second value behind", `${JSON.stringify(FILTER_SAND)}{}`, /expected the end/],
  ])("%s is refused with its place", (_, text, words) => {
    expect(reasonOf(text)).toMatch(words);
    expect(reasonOf(text)).toMatch(/^line \d+, column \d+: [^\p{Cc}]+$/u);
  });

  test("byte-order marks and UTF-16: one mark is passed over, all else refused in words", () => {
    const text = JSON.stringify(FILTER_SAND);
    expect(reasonOf(`\ufeff${text}`)).toBe("read");
    expect(reasonOf(`\ufeff\ufeff${text}`)).toMatch(/^line 1, column 1: /);
    expect(reasonOf(Buffer.from(`\ufeff${text}`, "utf16le"))).toBe("is not UTF-8 text: save it again as UTF-8");
    expect(reasonOf(Buffer.from(text, "utf16le"))).toMatch(/^line 1, column 2: /);
    expect(reasonOf(Buffer.from(text, "latin1").map((byte) => byte | 0x80))).toBe(
      "is not UTF-8 text: save it again as UTF-8",
    );
  });

  test("-0 is taken for 0 on reading, so that it is never on its way to the disk", async () => {
    const text = JSON.stringify({ ...station, lines: [] }).replace(/"capacityG":\d+/, '"capacityG":-0');
    const read = readRecord(text, stationKind);
    expect(read.is).toBe("read");
    const entry = { ...recordedEntry(1), day: "2026-11-24" };
    const zero = { ...entry, test: { ...entry.test, chargeG: -0 } };
    expect(sealOf(zero)).toBe(sealOf({ ...entry, test: { ...entry.test, chargeG: 0 } }));
  });

  test("the longest texts that fields take are kept whole and drawn within the page", async () => {
    const at = folder();
    const store = await opened(at);
    must(await store.record(note(ALL_UNSEEN.padEnd(400, "x").slice(0, 400))));
    await store.close();
    const { out } = await run(["log", "--json", "--data", at]);
    expect(JSON.parse(out.trim()).text).toHaveLength(400);
  });

  test("a hundred thousand names in one object are one line of refusal", async () => {
    const many = Object.fromEntries(Array.from({ length: 60_000 }, (_, i) => [`k${i}`, 1]));
    const { code, err } = await run(["product", "add", file("many.json", JSON.stringify(many)), "--data", folder()]);
    expect(code).toBe(65);
    expect(err.length).toBeLessThan(400);
  });
});
