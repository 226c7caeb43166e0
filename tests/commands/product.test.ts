import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { newStation } from "../../src/commands/newStation.ts";
import { readProduct } from "../../src/record/readExchanged.ts";
import { StationSchema } from "../../src/record/station.ts";
import { indexRowOf } from "../../src/store/indexRowOf.ts";
import { openStore } from "../../src/store/openStore.ts";
import { file, folder, run, shared } from "./inProcess.ts";

const source = (code = "TH-0510") => JSON.parse(readFileSync(shared(`products/${code}.json`), "utf8"));
const changed = (change: object) => file("product.json", { ...source(), ...change });
const add = (path: string, data: string, ...more: string[]) =>
  run(["product", "add", path, "--data", data, "--by", "KO", ...more]);
/** Behind the first entry, which declares that nobody signs on here. */
const entriesIn = async (data: string) => {
  const [declared, ...entries] = (await run(["log", "--json", "--data", data])).out
    .trimEnd()
    .split("\n")
    .map((line) => JSON.parse(line));
  expect(declared).toMatchObject({ kind: "station declared", signOn: "none" });
  return entries;
};

describe("product add", () => {
  test("puts a revision into the library and tells the log who, from where and which bytes", async () => {
    const data = folder();
    const path = shared("products/TH-0510.json");
    expect(await add(path, data)).toEqual({
      code: 0,
      out: `TH-0510 revision 3 added to the library of ${data}\n`,
      err: "",
    });
    expect(readdirSync(join(data, "library", "products"))).toEqual(["TH-0510.rev3.json"]);
    expect(await entriesIn(data)).toMatchObject([
      {
        kind: "product loaded",
        code: "TH-0510",
        revision: 3,
        by: "KO",
        from: path,
        sha256: expect.stringMatching(/^[0-9a-f]{64}$/),
      },
    ]);
  });

  test("of the same file again changes nothing", async () => {
    const data = folder();
    await add(shared("products/TH-MAS.json"), data);
    expect(await add(shared("products/TH-MAS.json"), data)).toEqual({
      code: 0,
      out: `TH-MAS revision 2 is in the library of ${data} already, unchanged\n`,
      err: "",
    });
    expect(await entriesIn(data)).toHaveLength(1);
  });

  test("keeps older revisions beside the new one", async () => {
    const data = folder();
    await add(changed({ revision: 3 }), data);
    await add(changed({ revision: 4, name: "later" }), data);
    const listed = JSON.parse((await run(["product", "list", "--json", "--data", data])).out);
    expect(listed).toEqual([
      { code: "TH-0510", name: "later", revision: 4, revisions: [3, 4], coming: [], draft: null },
    ]);
  });

  test.each([
    [
      { revision: 3, name: "other" },
      "product TH-0510 revision 3 is loaded already, with other content. Give the change a new revision",
    ],
    [{ revision: 2 }, "product TH-0510 is at revision 3 already; revision 2 is older. Raise its revision"],
    [{ code: "th-0510" }, "th-0510.rev3 differs from TH-0510.rev3 only by letter case; use TH-0510.rev3"],
  ])("of %j is refused, 65, and the log stays as it was", async (change, reason) => {
    const data = folder();
    await add(shared("products/TH-0510.json"), data);
    expect(await add(changed(change), data)).toEqual({ code: 65, out: "", err: `sievewright: ${reason}\n` });
    expect(await entriesIn(data)).toHaveLength(1);
  });

  test("of a faulty file says what is wrong with line and field, and makes no station", async () => {
    const data = join(folder(), "new");
    const bad = changed({ envelope: [{ apertureUm: 500, passingPct: { min: 60, max: 50 } }] });
    const line =
      readFileSync(bad, "utf8")
        .split("\n")
        .findIndex((text) => text.includes('"passingPct": {')) + 1;
    expect(await add(bad, data)).toEqual({
      code: 65,
      out: "",
      err: `sievewright: ${bad}: line ${line}, column 21: envelope[0].passingPct has its min above its max\n`,
    });
    expect(readdirSync(join(data, ".."))).toEqual([]);
  });

  test("of a file that is not there is 66", async () =>
    expect(await add("no.json", folder())).toEqual({
      code: 66,
      out: "",
      err: "sievewright: no.json: there is no such file: check the name\n",
    }));

  test("from standard input", async () => {
    const data = folder();
    const ran = await run(["product", "add", "-", "--data", data, "--by", "KO"], {
      stdin: JSON.stringify(source("TH-PG3")),
    });
    expect(ran.code).toBe(0);
    expect(await entriesIn(data)).toMatchObject([{ from: "standard input" }]);
  });

  test("signs with the login name where no initials are given, at most 8 characters", async () => {
    const data = folder();
    const path = shared("products/TH-0510.json");
    await run(["product", "add", path, "--data", data], { env: { USER: "katharina.orr" } });
    expect(await entriesIn(data)).toMatchObject([{ by: "katharin" }]);
    expect(await run(["product", "add", path, "--data", data, "--by", "katharina"])).toMatchObject({
      code: 64,
      out: "",
    });
  });

  test("beside somebody who has the station open is refused, 74, and says who", async () => {
    const data = folder();
    const store = await openStore(data, { now: () => "2026-11-24T03:00:00+01:00", indexRowOf, create: newStation() });
    if (!store.ok) throw new Error(store.reason);
    const ran = await add(shared("products/TH-0510.json"), data);
    await store.value.close();
    expect(ran).toMatchObject({ code: 74, out: "" });
    expect(ran.err).toContain(String(process.pid));
    expect(await add(shared("products/TH-0510.json"), data)).toMatchObject({ code: 0 });
  });
});

describe("product list", () => {
  test("has a line for each product with the revision in force today", async () => {
    const data = folder();
    await add(shared("products/TH-PG3.json"), data);
    await add(changed({ code: "TH-NEXT", effective: "2027-01-01" }), data);
    const { out } = await run(["product", "list", "--data", data]);
    expect(out).toBe(
      "TH-NEXT  not in force yet, rev 3 from 2027-01-01  Filter sand 0.5-1.0 mm (invented)\n" +
        "TH-PG3                                     rev 1  Polymer granules 3 mm (invented)\n",
    );
  });

  test("of an empty library says how to fill it", async () => {
    const data = folder();
    expect((await run(["product", "list", "--data", data])).out).toBe(
      `no products in the library of ${data}: load one with "sievewright product add FILE"\n`,
    );
    expect((await run(["product", "list", "--json", "--data", data])).out).toBe("[]\n");
    expect(readdirSync(data)).toEqual([]);
  });

  test("prints what can be read and tells on standard error what can't, exit 1", async () => {
    const data = folder();
    await add(shared("products/TH-PG3.json"), data);
    writeFileSync(join(data, "library", "products", "TH-BAD.rev1.json"), "{");
    const ran = await run(["product", "list", "--data", data]);
    expect(ran.code).toBe(1);
    expect(ran.out).toContain("TH-PG3");
    expect(ran.err).toMatch(/^sievewright: library\/products\/TH-BAD\.rev1\.json can't be read[^\n]*\n$/);
  });
});

describe("product show", () => {
  const library = async () => {
    const data = folder();
    await add(changed({ revision: 3, name: "third", effective: "2026-01-01" }), data);
    await add(changed({ revision: 4, name: "fourth", effective: "2027-01-01" }), data);
    return data;
  };

  test("shows the revision in force today, or the one asked for", async () => {
    const data = await library();
    expect((await run(["product", "show", "TH-0510", "--data", data])).out).toMatch(
      /^TH-0510 {2}third\nrevision 3, in force from 2026-01-01/,
    );
    expect((await run(["product", "show", "TH-0510", "--revision", "4", "--data", data])).out).toMatch(
      /^TH-0510 {2}fourth\n/,
    );
  });

  test("prints it as a product file that can be loaded elsewhere", async () => {
    const data = await library();
    const { out } = await run(["product", "show", "TH-0510", "--json", "--data", data]);
    expect(readProduct(new TextEncoder().encode(out))).toMatchObject({
      ok: true,
      value: { revision: 3, name: "third" },
    });
  });

  test.each([
    [["TH-9999"], 66, /^sievewright: TH-9999 is not in the library of .*: see product list\n$/],
    [
      ["TH-0510", "--revision", "9"],
      66,
      /^sievewright: TH-0510 revision 9 is not in the library of .*: it has revisions 3, 4\n$/,
    ],
    [["TH-0510", "--revision", "x"], 64, /^sievewright: --revision x: give the number of a revision\n$/],
  ])("%j ends with %d", async (args, code, err) => {
    const ran = await run(["product", "show", ...args, "--data", await library()]);
    expect(ran).toMatchObject({ code, out: "" });
    expect(ran.err).toMatch(err);
  });
});

test("a new station is one by the schema, whatever this computer is called", () =>
  expect(StationSchema.safeParse(newStation()).error).toBeUndefined());
