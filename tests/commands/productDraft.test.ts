import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { file, folder, run, shared } from "./inProcess.ts";

const source = (code = "TH-0510") => JSON.parse(readFileSync(shared(`products/${code}.json`), "utf8"));
const FINER = { ...source(), envelope: [{ apertureUm: 500, passingPct: { max: 10 } }] };

async function stationWithSand(): Promise<string> {
  const data = folder();
  await run(["product", "add", shared("products/TH-0510.json"), "--data", data, "--by", "SB"]);
  return data;
}
const product = (data: string, ...args: string[]) => run(["product", ...args, "--data", data]);
const drafted = async () => {
  const data = await stationWithSand();
  await product(data, "draft", "TH-0510", "--by", "KO", "--from", file("finer.json", FINER));
  return data;
};
const PUBLISH = ["publish", "TH-0510", "--by", "SB", "--reason", "less fines asked for"];
const entriesIn = async (data: string) =>
  (await run(["log", "--json", "--data", data])).out
    .trimEnd()
    .split("\n")
    .map((line) => JSON.parse(line));

describe("product draft", () => {
  test("begins the next revision and says what to do with it", async () => {
    const data = await stationWithSand();
    const ran = await product(data, "draft", "TH-0510", "--by", "KO");
    expect(ran).toMatchObject({ code: 0, err: "" });
    expect(ran.out).toMatch(
      /^TH-0510: draft of revision 4 by KO, since 2026-11-2\d \d{2}:\d{2}\n {2}nothing is changed yet\n/,
    );
    expect(readdirSync(join(data, "library/product-drafts"))).toEqual(["TH-0510.json"]);
  });

  test("shows the draft there is, who wrote it and what it changes", async () => {
    const data = await drafted();
    const { out } = await product(data, "draft", "TH-0510", "--by", "ML");
    expect(out).toContain("draft of revision 4 by KO");
    expect(out).toContain("passing at 500 um: at least 3 % removed; at most 20 % -> 10 %");
  });

  test("is filled from a product file, whatever revision and approval that states", async () => {
    const data = await drafted();
    const draft = JSON.parse((await product(data, "draft", "TH-0510", "--json")).out);
    expect(draft).toMatchObject({ schema: "sievewright.productDraft/1", revision: 4, author: "KO", basedOn: 3 });
    expect(draft.envelope).toEqual(FINER.envelope);
    expect(draft).not.toHaveProperty("approvedBy");
  });

  test("of a product that is new begins with a file", async () => {
    const data = await stationWithSand();
    expect(await product(data, "draft", "TH-NEW")).toMatchObject({ code: 66, out: "" });
    const path = file("new.json", { ...source(), code: "TH-NEW", revision: 1 });
    expect(await product(data, "draft", "TH-NEW", "--from", path)).toMatchObject({ code: 0 });
    expect((await product(data, "list")).out).toMatch(/TH-NEW +not in force yet, draft of rev 1/);
  });

  test("of another product's file is refused, as is a faulty file", async () => {
    const data = await stationWithSand();
    expect(await product(data, "draft", "TH-0510", "--from", shared("products/TH-MAS.json"))).toMatchObject({
      code: 65,
      err: expect.stringContaining("is of product TH-MAS, not of TH-0510"),
    });
    const bad = file("bad.json", { ...FINER, stackUm: [] });
    expect(await product(data, "draft", "TH-0510", "--from", bad)).toMatchObject({ code: 65, out: "" });
  });

  test("where there is no station is 66 and makes none", async () => {
    const data = join(folder(), "new");
    expect(await product(data, "draft", "TH-0510")).toMatchObject({ code: 66, out: "" });
  });
});

describe("product publish", () => {
  test("makes a revision: in force from its day, told to the log, the draft gone", async () => {
    const data = await drafted();
    expect(await product(data, ...PUBLISH)).toEqual({
      code: 0,
      out: "TH-0510 revision 4 is published: in force from 2026-11-23, written by KO, approved by SB\n",
      err: "",
    });
    expect((await product(data, "show", "TH-0510")).out).toMatch(
      /revision 4, in force from 2026-11-23, written by KO, approved by SB\nbecause: less fines asked for\n/,
    );
    expect((await entriesIn(data)).at(-1)).toMatchObject({ kind: "product published", by: "SB", author: "KO" });
    expect((await run(["log", "--product", "TH-0510", "--data", data])).out).toContain(
      "product published: TH-0510 revision 4, in force from 2026-11-23, written by KO (less fines asked for)  by SB",
    );
    expect(await run(["verify", "--data", data])).toMatchObject({ code: 0 });
    expect(await product(data, ...PUBLISH)).toMatchObject({
      code: 66,
      err: expect.stringContaining("there is no draft"),
    });
  });

  test("for a later day leaves today's revision in force; the list tells both", async () => {
    const data = await drafted();
    await product(data, ...PUBLISH, "--effective", "2026-12-01");
    expect((await product(data, "list")).out).toMatch(/^TH-0510 {2}rev 3, rev 4 from 2026-12-01 {2}/);
    const listed = JSON.parse((await product(data, "list", "--json")).out);
    expect(listed[0]).toMatchObject({ revision: 3, coming: [{ revision: 4, effective: "2026-12-01" }], draft: null });
    const then = await run(["product", "list", "--data", data], { now: "2026-12-01T06:00:00+01:00" });
    expect(then.out).toMatch(/^TH-0510 {2}rev 4 {2}/);
    const night = await run(["product", "list", "--data", data], { now: "2026-12-01T02:00:00+01:00" });
    expect(night.out).toMatch(/^TH-0510 {2}rev 3, /);
  });

  test("by its own writer is done, and said", async () => {
    const data = await drafted();
    const ran = await product(data, "publish", "TH-0510", "--by", "KO", "--reason", "less fines");
    expect(ran.out).toContain("written and approved by the same person, KO");
    expect((await product(data, "show", "TH-0510")).out).toContain("! written and approved by the same person");
    expect((await run(["log", "--data", data])).out).toContain("written and approved by the same person (less fines)");
  });

  test.each([
    [["--effective", "2026-11-01"], 65, /2026-11-01 is past/],
    [["--effective", "soon"], 65, /damaged at effective/],
    [["--reason", "x"], 65, /needs a reason in words/],
    [["--by", "katharina"], 64, /give your initials/],
  ])("with %j ends with %d and leaves the draft", async (args, code, err) => {
    const data = await drafted();
    const ran = await product(data, ...PUBLISH, ...args);
    expect(ran).toMatchObject({ code, out: "" });
    expect(ran.err).toMatch(err);
    expect((await product(data, "list")).out).toContain("draft of rev 4 by KO");
  });

  test("without a reason is wrong use", async () =>
    expect(await product(await drafted(), "publish", "TH-0510")).toMatchObject({ code: 64, out: "" }));
});

describe("product discard", () => {
  test("takes the draft away; its file can fill another one", async () => {
    const data = await drafted();
    const ran = await product(data, "discard", "TH-0510", "--by", "KO");
    expect(ran.out).toMatch(/its file is kept as library\/product-drafts\/TH-0510\.json\.discarded\n$/);
    expect((await product(data, "list")).out).not.toContain("draft");
    const kept = join(data, "library/product-drafts/TH-0510.json.discarded");
    const again = await product(data, "draft", "TH-0510", "--by", "ML", "--from", kept);
    expect(again.out).toContain("draft of revision 4 by ML");
    expect(again.out).toContain("at most 20 % -> 10 %");
    expect(await product(await stationWithSand(), "discard", "TH-0510")).toMatchObject({ code: 66 });
  });
});

describe("product diff", () => {
  const published = async () => {
    const data = await drafted();
    await product(data, ...PUBLISH);
    return data;
  };

  test("of two revisions tells in words what changed", async () => {
    const { code, out } = await product(await published(), "diff", "TH-0510", "3", "4");
    expect(code).toBe(0);
    expect(out.split("\n").slice(0, 6)).toEqual([
      "TH-0510 revision 3 -> TH-0510 revision 4",
      "  revision 3 -> 4",
      "  in force from 2020-03-02 -> 2026-11-23",
      expect.stringMatching(/^ {2}written by .* -> KO$|^ {2}reason/),
      expect.any(String),
      expect.any(String),
    ]);
    expect(out).toContain("  passing at 500 um: at least 3 % removed; at most 20 % -> 10 %\n");
    expect(out).toContain("  passing at 355 um: limit removed (at most 5 %)\n");
  });

  test("of a draft, of files and of one of each", async () => {
    const data = await drafted();
    const other = file("other.json", { ...source(), name: "Other (invented)" });
    const told = 'name "Filter sand 0.5-1.0 mm (invented)" -> "Other (invented)"';
    expect((await product(data, "diff", "TH-0510", "3", "draft")).out).toContain("TH-0510 draft of revision 4\n");
    expect((await product(data, "diff", shared("products/TH-0510.json"), other)).out).toContain(told);
    expect((await product(data, "diff", "TH-0510", "3", other)).out).toContain(told);
    expect((await product(data, "diff", other, "TH-0510", "3")).out).toContain("-> TH-0510 revision 3\n");
    expect((await product(data, "diff", "TH-0510", "3", "3")).out).toContain("  nothing is changed\n");
  });

  test("as JSON names the field of each change", async () => {
    const { out } = await product(await published(), "diff", "TH-0510", "3", "4", "--json");
    expect(JSON.parse(out)).toMatchObject({ before: "TH-0510 revision 3", after: "TH-0510 revision 4" });
    expect(JSON.parse(out).changes).toContainEqual({ field: "revision", words: "revision 3 -> 4" });
  });

  test.each([
    [["TH-0510"], 64, /which revision of TH-0510\?/],
    [["TH-0510", "3"], 64, /name two revisions/],
    [["TH-0510", "3", "4", "4"], 64, /name two revisions/],
    [["TH-0510", "3", "9"], 66, /TH-0510 revision 9 is not in the library: it has revisions 3/],
    [["TH-0510", "3", "draft"], 66, /there is no draft of TH-0510/],
    [["TH-0510", "3", "./no.json"], 66, /there is no such file/],
  ])("%j ends with %d", async (args, code, err) => {
    const ran = await product(await stationWithSand(), "diff", ...args);
    expect(ran).toMatchObject({ code, out: "" });
    expect(ran.err).toMatch(err);
  });
});

describe("product import", () => {
  const plant = (...bad: string[]) => {
    const path = folder();
    for (const kind of ["products", "programs"]) mkdirSync(join(path, kind));
    writeFileSync(join(path, "products/sand.json"), JSON.stringify(source()));
    for (const name of bad) writeFileSync(join(path, name), "{");
    return path;
  };

  test("loads the sample of a plant's shared folder into a new station, and says so file by file", async () => {
    const data = folder();
    const ran = await product(data, "import", shared(""), "--by", "SB");
    expect(ran).toMatchObject({ code: 0, err: "" });
    expect(ran.out).toContain("loaded        products/TH-0510.json  TH-0510 revision 3\n");
    expect(ran.out).toMatch(/9 loaded, 0 already there, 0 refused\n$/);
    expect((await product(data, "import", shared(""))).out).toMatch(/0 loaded, 9 already there, 0 refused\n$/);
    expect(await run(["verify", "--data", data])).toMatchObject({ code: 0 });
  });

  test("with a faulty file loads the rest, tells the fault with line and field, and ends with 1", async () => {
    const data = folder();
    const ran = await product(data, "import", plant("products/bad.json"), "--by", "SB");
    expect(ran.code).toBe(1);
    expect(ran.out).toMatch(/refused {7}products\/bad\.json\n {14}line 1, column 2: /);
    expect(ran.out).toMatch(/1 loaded, 0 already there, 1 refused\n$/);
    expect(ran.err).toBe("sievewright: 1 of 2 files is refused: the report says why\n");
    expect((await product(data, "list")).out).toContain("TH-0510");
  });

  test("on a dry run needs a station and changes nothing in it", async () => {
    const data = await stationWithSand();
    const before = await entriesIn(data);
    const ran = await product(data, "import", plant("programs/bad.json"), "--dry-run", "--json");
    expect(ran.code).toBe(1);
    expect(JSON.parse(ran.out)).toMatchObject({
      dryRun: true,
      files: [
        { file: "products/sand.json", is: "already there" },
        { file: "programs/bad.json", is: "refused" },
      ],
    });
    expect(await entriesIn(data)).toEqual(before);
    expect(await product(join(folder(), "new"), "import", plant(), "--dry-run")).toMatchObject({ code: 66 });
  });

  test("of a folder that is not there is 66", async () =>
    expect(await product(await stationWithSand(), "import", "./nowhere")).toMatchObject({ code: 66, out: "" }));
});
