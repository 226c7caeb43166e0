import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import type { NewEntry } from "../../src/record/logEntry.ts";
import { shortSeal } from "../../src/record/seal.ts";
import { NO_HEAD } from "../../src/store/chainEnd.ts";
import { chained } from "../../src/store/chained.ts";
import { dayPath } from "../../src/store/layout.ts";
import { station } from "../store/records.ts";
import { folder, run } from "./inProcess.ts";

let data = "";
let head = { number: 0, seal: "" };
beforeAll(async () => {
  data = folder();
  await run(["demo", "--data", data, "--fill", "12"]);
  head = JSON.parse((await run(["verify", "--data", data, "--json"])).out).head;
});

const verify = (...more: string[]) => run(["verify", "--data", data, ...more]);

describe("verify against a head on paper", () => {
  test("the short form as it is printed bears the log out, with its number or without", async () => {
    const words = `AS ON PAPER ✓  entry ${head.number} has that seal, so nothing up to it was changed or cut off`;
    for (const paper of [shortSeal(head.seal), `${head.number}:${shortSeal(head.seal)}`, head.seal]) {
      const { code, out } = await verify("--against", paper);
      expect([code, out.split("\n")[1]]).toEqual([0, words]);
    }
  });

  test("a head of a later time shows that the end was cut off; the log itself is unbroken", async () => {
    const { code, out } = await verify("--against", `${head.number + 3}:${shortSeal(head.seal)}`, "--json");
    expect(code).toBe(1);
    expect(JSON.parse(out)).toMatchObject({
      ok: true,
      against: {
        fails: `entry ${head.number + 3} is not in the log, and the log ends with entry ${head.number}: it was cut short since`,
      },
    });
  });

  test("another seal of the same entry is told beside the right one", async () => {
    const { code, out } = await verify("--against", `${head.number}:0000 1111 2222`);
    expect(code).toBe(1);
    expect(out).toContain(
      `NOT AS ON PAPER ✗  entry ${head.number} has the seal ${shortSeal(head.seal)}, not 0000 1111 2222`,
    );
  });

  test("what is no head is wrong use", async () =>
    expect(await verify("--against", "yesterday")).toMatchObject({
      code: 64,
      out: "",
      err: expect.stringMatching(/^sievewright: --against "yesterday": give the head as printed/),
    }));
});

test("an index that is amiss is told only where it is asked for, with what to do; reindex puts it right", async () => {
  const month = JSON.parse(
    (await run(["log", "--json", "--data", data])).out.trimEnd().split("\n").at(-1) ?? "",
  ).day.slice(0, 7);
  const path = join(data, "index", `${month}.json`);
  const index = JSON.parse(readFileSync(path, "utf8"));
  writeFileSync(path, JSON.stringify({ ...index, rows: index.rows.slice(1) }));
  expect((await verify()).code).toBe(0);
  expect(await verify("--index")).toMatchObject({
    code: 1,
    out: expect.stringMatching(/^UNBROKEN/),
    err: `sievewright: the index of ${month} doesn't say what the log says: run sievewright reindex\n`,
  });
  expect((await run(["reindex", "--data", data])).code).toBe(0);
  expect(await verify("--index")).toMatchObject({ code: 0, err: "" });
});

test("a head that was deleted is named, and so is what it could have told", async () => {
  const copy = folder();
  await run(["demo", "--data", copy, "--fill", "4"]);
  rmSync(join(copy, "log", "head.json"));
  const { code, out } = await run(["verify", "--data", copy]);
  expect(code).toBe(1);
  expect(out.split("\n")[1]).toMatch(
    /^log\/head\.json {2}missing: the file is gone, so nothing tells whether entries from \d+ on were cut off$/,
  );
});

test("entries without sign-on, after the station declared that it asks for it, are named; the log is unbroken all the same", async () => {
  const data = folder();
  const at = "2026-11-24T10:00:00+01:00";
  const entries: NewEntry[] = [
    { kind: "note", at, by: "KO", text: "before" },
    { kind: "station declared", at, by: "SB", signOn: "required", reason: "the auditor asks" },
    { kind: "note", at, by: "KO", text: "slipped in" },
    { kind: "clock set", at, by: "program", from: at, byS: 90 },
  ];
  const links = chained(NO_HEAD, "2026-11-24", "TH-DRY1", entries);
  if (!links.ok) throw new Error(links.reason);
  const day = { schema: "sievewright.day/1", day: "2026-11-24", entries: links.value.sealed };
  mkdirSync(dirname(dayPath(data, "2026-11-24")), { recursive: true });
  writeFileSync(join(data, "station.json"), JSON.stringify(station));
  writeFileSync(dayPath(data, "2026-11-24"), JSON.stringify(day));
  writeFileSync(join(data, "log", "head.json"), JSON.stringify(links.value.end));
  const { code, out } = await run(["verify", "--data", data]);
  expect(code).toBe(1);
  expect(out.split("\n").slice(0, 5)).toEqual([
    "UNBROKEN ✓  4 entries",
    "NOT AS THE LOG SAYS ✗",
    "  operators.json  it can't be read or is gone, but the log says that people sign on here",
    "made without sign-on although the station asks for it: 1",
    "  entry 3 of 2026-11-24, note, by KO",
  ]);
  expect(JSON.parse((await run(["verify", "--data", data, "--json"])).out)).toMatchObject({
    ok: true,
    unsigned: { count: 1, named: [{ number: 3, kind: "note", by: "KO" }] },
  });
});

test("a product that was edited, slipped in or removed behind the log's back is named; the log is unbroken all the same", async () => {
  const copy = folder();
  await run(["demo", "--data", copy, "--fill", "4"]);
  const shelf = join(copy, "library", "products");
  const [edited = "", gone = ""] = readdirSync(shelf).toSorted();
  const product = JSON.parse(readFileSync(join(shelf, edited), "utf8"));
  writeFileSync(join(shelf, edited), JSON.stringify({ ...product, name: "easier" }));
  rmSync(join(shelf, gone));
  writeFileSync(join(shelf, "TH-X.rev1.json"), JSON.stringify({ ...product, code: "TH-X", revision: 1 }));
  const { code, out } = await run(["verify", "--data", copy]);
  expect([code, out.split("\n").slice(1, 5)]).toEqual([
    1,
    [
      "NOT AS THE LOG SAYS ✗",
      expect.stringMatching(`^  library/products/${edited}  changed: it is not what entry \\d+ put there$`),
      expect.stringMatching(`^  library/products/${gone}  gone: entry \\d+ put it there. Load it again$`),
      "  library/products/TH-X.rev1.json  no entry of the log tells of it: it did not come in by Sievewright",
    ],
  ]);
  expect(JSON.parse((await run(["verify", "--data", copy, "--json"])).out)).toMatchObject({
    ok: true,
    filesAmiss: [{ file: `library/products/${edited}` }, {}, {}],
  });
});

test("a product that is gone alone is named and breaks nothing: a power cut may have come between its entry and its file", async () => {
  const copy = folder();
  await run(["demo", "--data", copy, "--fill", "4"]);
  rmSync(join(copy, "library", "products", "TH-0510.rev3.json"));
  const { code, out } = await run(["verify", "--data", copy]);
  expect([code, out]).toEqual([0, expect.stringContaining("TH-0510.rev3.json  gone: entry")]);
});

test("written otherwise, with the same content, a product is as the log says", async () => {
  const copy = folder();
  await run(["demo", "--data", copy, "--fill", "4"]);
  const shelf = join(copy, "library", "products");
  for (const name of readdirSync(shelf)) {
    const product = JSON.parse(readFileSync(join(shelf, name), "utf8"));
    writeFileSync(join(shelf, name), JSON.stringify(Object.fromEntries(Object.entries(product).toReversed()), null, 7));
  }
  expect((await run(["verify", "--data", copy])).code).toBe(0);
});
