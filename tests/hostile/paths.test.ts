import { existsSync, lstatSync, readdirSync } from "node:fs";
import { mkdir, readFile, rename, symlink, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { isCopiedPath } from "../../src/record/backup.ts";
import { makeBackup } from "../../src/store/backup.ts";
import { keepFaultReport } from "../../src/store/faultFile.ts";
import { openStore } from "../../src/store/openStore.ts";
import { file, folder, run } from "../commands/inProcess.ts";
import { entryOf } from "../record/everyKind.ts";
import { FILTER_SAND, TEN_MINUTES } from "../run/hands.ts";
import { must, mustNot, opened } from "../store/opened.ts";
import { CHEAP, staffedAt } from "../store/peopleAt.ts";
import { draft, indexRowOf, note, now, product, station } from "../store/records.ts";

const posix = process.platform !== "win32";
const loading = { fromPath: "x", bytesSha256: "a".repeat(64), by: "KO", at: "2026-11-24T08:00:00+01:00" };

const ESCAPING = [
  "../x",
  "..",
  ".",
  "a/b",
  "a\\b",
  "/etc/x",
  "C:\\x",
  "C:x",
  "x:stream",
  "\\\\host\\share",
  "",
  " ",
  "a\0b",
  "~",
  "%2e%2e",
];
const DEVICES = ["CON", "con", "nul", "NUL.json", "prn.x", "aux", "COM1", "lpt9.rev", "Com1.txt"];

const treeOf = (at: string): string[] => (readdirSync(at, { recursive: true, encoding: "utf8" }) as string[]).sort();

describe("names that would lead out of the station's folder, or that Windows keeps for devices", () => {
  test.each([...ESCAPING, ...DEVICES])(
    "%j names no product, no program, no test: refused, and no file is made",
    async (name) => {
      const place = folder();
      const at = join(place, "station");
      const store = await opened(at);
      const before = treeOf(place);
      mustNot(await store.addProduct({ ...FILTER_SAND, code: name }, loading));
      mustNot(await store.addProgram({ ...TEN_MINUTES, code: name }, { ...loading, by: "ML" }));
      mustNot(
        await store.addStack(
          { schema: "sievewright.stack/1", code: name, name: "x", serials: ["S-1"] },
          { ...loading, by: "ML" },
        ),
      );
      mustNot(await store.saveDraft(draft(name)));
      expect(treeOf(place).filter((path) => !before.includes(path))).toEqual([]);
    },
  );

  test.each(ESCAPING.filter((name) => !name.includes("\0")))("%j in a file that is handed in", async (name) => {
    const at = folder();
    const path = file("product.json", { ...FILTER_SAND, code: name });
    const { code, out } = await run(["product", "add", path, "--data", at]);
    expect([code, out]).toEqual([65, ""]);
    expect(existsSync(join(at, "library"))).toBe(false);
  });

  test.each([...ESCAPING, ...DEVICES])("%j is no path of a file in a backup", (name) => {
    for (const path of [name, `drafts/${name}`, `drafts/${name}.json`, `${name}/x.json`])
      if (path !== "drafts/~.json" || !path.includes("~")) expect([path, isCopiedPath(path)]).toEqual([path, false]);
  });
});

describe.skipIf(!posix)("links, which would let a save land elsewhere", () => {
  const FILES = ["station.json", "log/head.json", "log/2026/11/2026-11-24.json", "index/2026-11.json"];
  const more = ["drafts/T-2.json", "library/products/TH-0510.rev3.json", "operators.json"];

  async function used(): Promise<string> {
    const at = folder();
    const { store } = await staffedAt(at);
    must(await store.signOn({ initials: "ML", pin: "830517" }));
    must(await store.addProduct(product, { ...loading, by: "ML" }));
    must(await store.record(entryOf("test", "ML", "T-1")));
    must(await store.saveDraft(draft("T-2", 2)));
    await store.close();
    return at;
  }

  test.each([...FILES, ...more])("%s as a link is never written through, and what it points to stays", async (name) => {
    const at = await used();
    const outside = join(folder(), "outside.json");
    await rename(join(at, name), outside);
    await symlink(outside, join(at, name));
    const before = await readFile(outside);
    const store = await openStore(at, { now, indexRowOf, create: station, pinCost: CHEAP });
    if (store.ok) {
      await store.value.products();
      await store.value.signOn({ initials: "ML", pin: "830517" });
      await store.value.record(note("after"));
      await store.value.saveDraft(draft("T-2", 3));
      await store.value.close();
    }
    expect(await readFile(outside)).toEqual(before);
    if (store.ok) expect(store.value.problems.join("\n")).toContain("it is a link");
    else expect(store.reason).toContain("it is a link");
  });

  test.each(["pages", "faults", "library/products"])(
    "%s as a link to a folder elsewhere takes no file",
    async (name) => {
      const at = await used();
      const outside = folder();
      if (existsSync(join(at, name))) await rename(join(at, name), join(outside, "was"));
      const before = treeOf(outside);
      await symlink(outside, join(at, name));
      const store = await opened(at, { pinCost: CHEAP });
      must(await store.signOn({ initials: "ML", pin: "830517" }));
      expect((await store.keepPage("handover", "page")).ok).toBe(name !== "pages");
      await store.addProduct({ ...FILTER_SAND, revision: 9 }, { ...loading, by: "ML" });
      keepFaultReport(at, "x.txt", "report");
      await store.close();
      expect(treeOf(outside)).toEqual(before);
    },
  );

  test("a product in the shared folder that is a link to somewhere else is read as what it holds, never as a place to write", async () => {
    const [from, outside] = [folder(), folder()];
    await mkdir(join(from, "products"));
    await writeFile(join(outside, "secret.txt"), "root:x:0:0");
    await symlink(join(outside, "secret.txt"), join(from, "products", "TH-9.json"));
    const { out, err } = await run(["product", "import", from, "--data", folder()]);
    expect(out + err).not.toContain("root:x");
    expect(readdirSync(outside)).toEqual(["secret.txt"]);
  });
});

describe.skipIf(!posix)("who may read the station's files", () => {
  test("is its owner alone: 0600 and 0700 for all that store, backup, pages and reports write, whatever the umask", async () => {
    const umask = process.umask(0);
    try {
      const place = folder();
      const at = join(place, "station");
      const { store } = await staffedAt(at);
      must(await store.signOn({ initials: "ML", pin: "830517" }));
      must(await store.addProduct(product, { ...loading, by: "ML" }));
      must(await store.addProgram(TEN_MINUTES, { ...loading, by: "ML" }));
      must(await store.record(entryOf("test", "ML", "T-1")));
      must(await store.saveDraft(draft("T-2", 2)));
      must(await store.keepPage("handover", "page"));
      must(await store.reindex());
      expect(lstatSync(join(at, "station.lock")).mode & 0o777).toBe(0o600);
      keepFaultReport(at, "x.txt", "report");
      const about = { station: "TH-DRY1", at: "2026-11-24T14:00:00+01:00", program: "test" };
      must(await makeBackup(at, join(place, "copy"), about));
      must(await makeBackup(at, join(place, "copy.tgz"), about));
      await store.close();
      const found = treeOf(place).map((path) => {
        const stat = lstatSync(join(place, path));
        return [path, (stat.mode & 0o777).toString(8), stat.isDirectory() ? "700" : "600"] as const;
      });
      expect(found.filter(([, mode, wanted]) => mode !== wanted)).toEqual([]);
      expect(found.length).toBeGreaterThan(25);
    } finally {
      process.umask(umask);
    }
  });
});
