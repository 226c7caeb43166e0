import { mkdir, readdir, readFile, symlink, writeFile } from "node:fs/promises";
import { dirname, join } from "node:path";
import { describe, expect, test } from "vitest";
import { openStore } from "../../src/store/openStore.ts";
import type { Store } from "../../src/store/store.ts";
import { must, mustNot, opened } from "../store/opened.ts";
import { draft, indexRowOf, note, now, product, station, testEntry } from "../store/records.ts";
import { temporaryFolder } from "../store/temporaryFolder.ts";

const DAY = "log/2026/11/2026-11-24.json";
const loading = { fromPath: "x.json", bytesSha256: "a".repeat(64), by: "KO", at: "2026-11-24T10:00:00+01:00" };

/** A station with a recorded test, a test in progress and a product, closed. */
async function usedStation(): Promise<string> {
  const folder = await temporaryFolder();
  const store = await opened(folder);
  must(await store.record(testEntry("T-1")));
  must(await store.addProduct(product, loading));
  must(await store.saveDraft(draft("T-2", 2)));
  await store.close();
  return folder;
}

/** What the log says was found amiss. */
const foundIn = async (store: Store): Promise<readonly string[]> =>
  (await store.entriesOfDay("2026-11-24")).flatMap((entry) => (entry.kind === "finding" ? [entry.found] : []));

const put = async (folder: string, name: string, content: string | Uint8Array): Promise<void> => {
  await mkdir(dirname(join(folder, name)), { recursive: true });
  await writeFile(join(folder, name), content);
};
const bytesOf = (folder: string, name: string) => readFile(join(folder, name));

const GARBAGE: readonly (readonly [string, string | Uint8Array, string])[] = [
  ["nothing", "", "the file is empty"],
  ["spaces", "  \n", "the file is empty"],
  ["zeros, as after a power cut", new Uint8Array(4096), "the file is not JSON"],
  ["half a file", '{"schema":"sievewright.dr', "the file is not JSON"],
  ["null", "null", "found no schema"],
  ["a number", "0", "found no schema"],
  ["an empty object", "{}", "found no schema"],
  ["bytes that are no UTF-8", new Uint8Array([0x7b, 0xff, 0xfe, 0x7d]), "the file is not UTF-8 text"],
  ["UTF-16", new Uint8Array([0xff, 0xfe, 0x7b, 0x00, 0x7d, 0x00]), "the file is not UTF-8 text"],
  ["another kind", '{"schema":"sievewright.sheet/1"}', 'found "sievewright.sheet/1"'],
];

describe.each(GARBAGE)("a file that holds %s", (_, content, why) => {
  test("instead of a draft is set aside, reported and kept byte for byte; the rest goes on", async () => {
    const folder = await usedStation();
    await put(folder, "drafts/T-3.json", content);
    const store = await opened(folder);
    expect(store.problems).toHaveLength(1);
    expect(store.problems[0]).toMatch(
      /^drafts\/T-3\.json can't be read: .+ It was kept as drafts\/T-3\.json\.unreadable; /,
    );
    expect(store.problems[0]).toContain(why);
    expect(store.drafts().map(({ testId }) => testId)).toEqual(["T-2"]);
    expect(store.readOnly).toBe(null);
    expect(await bytesOf(folder, "drafts/T-3.json.unreadable")).toEqual(Buffer.from(content));
    must(await store.saveDraft(draft("T-3", 1)));
    expect(await bytesOf(folder, "drafts/T-3.json.unreadable")).toEqual(Buffer.from(content));
  });

  test("instead of the day is set aside; the next entry has the next number and the gap is told", async () => {
    const folder = await usedStation();
    await put(folder, DAY, content);
    const store = await opened(folder);
    expect(store.problems).toEqual([
      expect.stringContaining(`${DAY} can't be read`),
      expect.stringMatching(/^entry 2, with which the log ended, is missing\. Run `sievewright verify`/),
    ]);
    expect(must(await store.record(note("after")))).toMatchObject({ number: 5 });
    expect(await foundIn(store)).toEqual(store.problems);
    expect(await bytesOf(folder, `${DAY}.unreadable`)).toEqual(Buffer.from(content));
  });

  test("instead of the head is set aside; the chain goes on where the days end", async () => {
    const folder = await usedStation();
    await put(folder, "log/head.json", content);
    const store = await opened(folder);
    expect(store.problems).toEqual([
      expect.stringContaining("log/head.json can't be read"),
      expect.stringMatching(/^log\/head\.json was missing/),
    ]);
    expect(must(await store.record(note("after")))).toMatchObject({ number: 5 });
    expect(await foundIn(store)).toEqual(store.problems);
  });

  test("instead of the index is set aside and the index drawn again", async () => {
    const folder = await usedStation();
    await put(folder, "index/2026-11.json", content);
    const store = await opened(folder);
    expect((await store.indexRows("2026-11")).map(({ testId }) => testId)).toEqual(["T-1"]);
    expect(store.problems).toEqual([expect.stringContaining("index/2026-11.json can't be read")]);
    await store.close();
    expect(JSON.parse((await bytesOf(folder, "index/2026-11.json")).toString())).toMatchObject({ month: "2026-11" });
  });

  test("instead of a product is set aside; the other products stay", async () => {
    const folder = await usedStation();
    await put(folder, "library/products/TH-MAS.rev1.json", content);
    const store = await opened(folder);
    expect((await store.products()).codes).toEqual(["TH-0510"]);
    expect(store.problems).toEqual([expect.stringContaining("library/products/TH-MAS.rev1.json can't be read")]);
    expect(await readdir(join(folder, "library/products"))).toContain("TH-MAS.rev1.json.unreadable");
  });

  test("instead of the station stops the opening, names the path and changes nothing", async () => {
    const folder = await usedStation();
    await put(folder, "station.json", content);
    const reason = mustNot(await openStore(folder, { now, indexRowOf, create: station }));
    expect(reason).toContain(join(folder, "station.json"));
    expect(reason).toContain(why);
    expect(await bytesOf(folder, "station.json")).toEqual(Buffer.from(content));
    expect(await readdir(folder)).not.toContain("station.lock");
  });
});

describe("what is set aside", () => {
  test("never replaces what was set aside before", async () => {
    const folder = await usedStation();
    for (const content of ["one", "two", "three"]) {
      await put(folder, "drafts/T-3.json", content);
      await (await opened(folder)).close();
    }
    expect((await bytesOf(folder, "drafts/T-3.json.unreadable")).toString()).toBe("one");
    expect((await bytesOf(folder, "drafts/T-3.json.unreadable-2")).toString()).toBe("two");
    expect((await bytesOf(folder, "drafts/T-3.json.unreadable-3")).toString()).toBe("three");
  });

  test("is left where it is by one who may only read", async () => {
    const folder = await usedStation();
    await opened(folder);
    await put(folder, "drafts/T-3.json", "null");
    const reader = await opened(folder);
    expect(reader.problems).toEqual([
      expect.stringMatching(/^drafts\/T-3\.json can't be read: .+ It was left as it is$/),
    ]);
    expect(await readdir(join(folder, "drafts"))).toContain("T-3.json");
  });

  test("a draft that lies under another test's name", async () => {
    const folder = await usedStation();
    await put(folder, "drafts/T-3.json", JSON.stringify(draft("T-9")));
    expect((await opened(folder)).problems[0]).toContain("it holds test T-9");
  });

  test("a day that lies under another day's name", async () => {
    const folder = await usedStation();
    await put(folder, "log/2026/11/2026-11-25.json", await bytesOf(folder, DAY));
    const store = await opened(folder);
    expect(store.problems[0]).toContain("it holds the day 2026-11-24");
    expect(must(await store.record(note("after")))).toMatchObject({ number: 4 });
    expect(await foundIn(store)).toEqual(store.problems);
  });

  test("a product that lies under another revision's name", async () => {
    const folder = await usedStation();
    await put(folder, "library/products/TH-0510.rev4.json", JSON.stringify(product));
    const store = await opened(folder);
    expect((await store.products()).revisions("TH-0510")).toEqual([product]);
    expect(store.problems[0]).toContain("it holds TH-0510.rev3");
  });

  test("says where the damage is", async () => {
    const folder = await usedStation();
    await put(folder, "drafts/T-3.json", JSON.stringify({ ...draft("T-3"), chargeG: "three hundred" }));
    expect((await opened(folder)).problems[0]).toContain("damaged at chargeG: expected number, received string");
  });
});

describe("a file of a newer program", () => {
  const newer: readonly (readonly [string, string])[] = [
    ["drafts/T-3.json", '{"schema":"sievewright.draft/2","what":"ever"}'],
    [DAY, '{"schema":"sievewright.day/2"}'],
    ["log/head.json", '{"schema":"sievewright.head/2"}'],
  ];
  test.each(newer)("%s makes the whole station read-only and stays as it is", async (name, content) => {
    const folder = await usedStation();
    await put(folder, name, content);
    const store = await opened(folder);
    expect(store.readOnly).toMatch(
      / was written by a newer Sievewright \(.+\/2; this one knows .+\/1\)\. Nothing is changed/,
    );
    expect(store.readOnly).toContain(name);
    expect(mustNot(await store.saveDraft(draft("T-2", 3)))).toBe(store.readOnly);
    expect(mustNot(await store.record(note("x")))).toBe(store.readOnly);
    expect((await bytesOf(folder, name)).toString()).toBe(content);
  });

  test("found later, in the library, makes it read-only from then on", async () => {
    const folder = await usedStation();
    await put(folder, "library/products/TH-MAS.rev1.json", '{"schema":"sievewright.product/2"}');
    const store = await opened(folder);
    expect(store.readOnly).toBe(null);
    await store.products();
    expect(store.readOnly).toContain("library/products/TH-MAS.rev1.json was written by a newer Sievewright");
    expect(mustNot(await store.saveDraft(draft("T-2", 3)))).toBe(store.readOnly);
  });

  test("gives the station free for the newer program", async () => {
    const folder = await usedStation();
    await put(folder, "log/head.json", '{"schema":"sievewright.head/2"}');
    await opened(folder);
    await expect.poll(() => readdir(folder)).not.toContain("station.lock");
  });
});

describe("files of a careful editor", () => {
  test("a byte-order mark and Windows line ends do no harm", async () => {
    const folder = await usedStation();
    const text = (await bytesOf(folder, "drafts/T-2.json")).toString();
    await put(folder, "drafts/T-2.json", `\uFEFF${text.replaceAll("\n", "\r\n")}`);
    const store = await opened(folder);
    expect(store.problems).toEqual([]);
    expect(store.drafts()).toEqual([draft("T-2", 2)]);
  });

  test("strangers' files are left alone and not mentioned", async () => {
    const folder = await usedStation();
    for (const name of [
      "notes.txt",
      "drafts/.DS_Store",
      "drafts/T-2.json~",
      "log/2026/11/summary.xlsx",
      "log/old/x.json",
    ])
      await put(folder, name, "a stranger's");
    const store = await opened(folder);
    expect(store.problems).toEqual([]);
    must(await store.record(note("x")));
    expect((await bytesOf(folder, "drafts/T-2.json~")).toString()).toBe("a stranger's");
  });

  test("temporary files that a crash left are cleared, a stranger's .tmp is not", async () => {
    const folder = await usedStation();
    const left = "drafts/T-2.json.0b4f6c1e-7f0e-4a3b-9c55-2b8a1f6c7d10.tmp";
    await put(folder, left, "half");
    await put(folder, "drafts/mine.tmp", "a stranger's");
    await opened(folder);
    expect(await readdir(join(folder, "drafts"))).toEqual(["T-2.json", "mine.tmp"]);
  });
});

describe.skipIf(process.platform === "win32")("links, which Windows lets only administrators make", () => {
  test("a draft that is a link is set aside unread, and what it points to stays", async () => {
    const folder = await usedStation();
    const outside = await temporaryFolder();
    await put(outside, "T-3.json", JSON.stringify(draft("T-3")));
    await symlink(join(outside, "T-3.json"), join(folder, "drafts/T-3.json"));
    const store = await opened(folder);
    expect(store.problems[0]).toContain("it is a link");
    must(await store.saveDraft(draft("T-3", 5)));
    expect(JSON.parse((await bytesOf(outside, "T-3.json")).toString())).toEqual(draft("T-3"));
  });

  test.each(["drafts", "log", "index"])("a %s folder that is a link stops the opening", async (name) => {
    const folder = await temporaryFolder();
    const outside = await temporaryFolder();
    await symlink(outside, join(folder, name));
    expect(mustNot(await openStore(folder, { now, indexRowOf, create: station }))).toMatch(/it is a link$/);
    expect(await readdir(outside)).toEqual([]);
  });

  test("the station's folder itself may be one", async () => {
    const folder = await usedStation();
    const elsewhere = join(await temporaryFolder(), "station");
    await symlink(folder, elsewhere);
    const store = await opened(elsewhere);
    expect(store.drafts()).toHaveLength(1);
    expect((await opened(folder)).readOnly).toContain("has this station open");
  });

  test("a folder that lies where a file should is set aside", async () => {
    const folder = await usedStation();
    await mkdir(join(folder, "drafts/T-3.json"));
    const store = await opened(folder);
    expect(store.problems[0]).toContain("it is no plain file");
    must(await store.saveDraft(draft("T-3", 1)));
  });
});
