import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { LogEntrySchema, type TestEntry } from "../../src/record/logEntry.ts";
import { folder, run, shared } from "./inProcess.ts";

const data = folder();
const log = async (...more: string[]) => run(["log", "--data", data, ...more]);
const entries = async (...more: string[]) => {
  const { out } = await log("--json", ...more);
  return out === ""
    ? []
    : out
        .trimEnd()
        .split("\n")
        .map((line) => LogEntrySchema.parse(JSON.parse(line)));
};
const tests = async (...more: string[]) =>
  (await entries(...more)).filter((entry): entry is TestEntry => entry.kind === "test");

beforeAll(async () => {
  expect(await run(["demo", "--data", data, "--fill", "40", "--seed", "7"])).toMatchObject({ code: 0, err: "" });
});

describe("log", () => {
  test("--json prints every entry as recorded, one JSON object a line, newest last", async () => {
    const all = await entries();
    expect(all.filter((entry) => entry.kind === "test")).toHaveLength(40);
    expect(all.map((entry) => entry.number)).toEqual(all.map((_, i) => i + 1));
  });

  test("without --json a line an entry, with number, time, product and verdict", async () => {
    const [all, { out }] = [await entries(), await log()];
    const lines = out.trimEnd().split("\n");
    expect(lines).toHaveLength(all.length);
    expect(lines.at(-1)).toMatch(/^#\d+ {2}2026-11-24 \d\d:\d\d {2}TH-\w+ rev \d+ {2}lot .* by \w+$/);
  });

  test("--product and --lot choose", async () => {
    const [all, ofOne] = [await tests(), await tests("--product", "TH-MAS")];
    expect(ofOne).toEqual(all.filter((entry) => entry.test.product.code === "TH-MAS"));
    expect(ofOne.length).toBeGreaterThan(0);
    const lot = ofOne[0]?.test.lot ?? "";
    expect(await entries("--lot", lot)).toEqual(all.filter((entry) => entry.test.lot === lot));
    expect(await entries("--product", "TH-MAS", "--lot", "no such lot")).toEqual([]);
  });

  test("--csv prints the same entries as rows for a spreadsheet; with --json it is refused", async () => {
    const [all, { out }] = [await entries(), await log("--csv")];
    const rows = out.trimEnd().split("\r\n");
    expect(rows[0]).toMatch(/^number,at,production_day,kind,by,product,lot,/);
    expect(rows.slice(1).map((row) => Number(row.split(",")[0]))).toEqual(all.map(({ number }) => number));
    expect(await log("--csv", "--json")).toMatchObject({ code: 64, out: "" });
  });

  test("--product finds when it was loaded, too", async () =>
    expect((await entries("--product", "TH-PG3")).some((entry) => entry.kind === "product loaded")).toBe(true));

  test("--since and --until choose by production day or by moment, both ends included", async () => {
    const all = await entries();
    const [third, tenth] = [all[2], all[9]];
    if (!third || !tenth) throw new Error("too few entries");
    expect(await entries("--since", third.at, "--until", tenth.at)).toEqual(
      all.filter(({ at }) => Date.parse(at) >= Date.parse(third.at) && Date.parse(at) <= Date.parse(tenth.at)),
    );
    expect(await entries("--since", tenth.day, "--until", tenth.day)).toEqual(
      all.filter(({ day }) => day === tenth.day),
    );
    expect(await log("--since", "2030-01-01")).toEqual({ code: 0, out: "", err: "" });
  });

  test("an end that can't be read is wrong use", async () =>
    expect(await log("--since", "last week")).toEqual({
      code: 64,
      out: "",
      err: 'sievewright: --since "last week" is neither a day like 2026-11-24 nor a time with its offset like 2026-11-24T03:12:05+01:00\n',
    }));

  test("of a folder without a station is 66, and nothing is made", async () => {
    const none = join(folder(), "none");
    expect(await run(["log", "--data", none])).toEqual({
      code: 66,
      out: "",
      err: `sievewright: there is no station in ${none}: check --data, or start sievewright there once\n`,
    });
  });
});

describe("verify", () => {
  test("an unbroken log: its length and its head, exit 0", async () => {
    const count = (await entries()).length;
    const { code, out } = await run(["verify", "--data", data, "--json"]);
    expect(code).toBe(0);
    expect(JSON.parse(out)).toEqual({
      entries: count,
      ok: true,
      head: { number: count, seal: expect.stringMatching(/^[0-9a-f]{64}$/) },
    });
    expect((await run(["verify", "--data", data])).out).toMatch(
      new RegExp(
        `^UNBROKEN ✓ {2}${count} entries\nhead: entry ${count}, seal( [0-9a-f]{4}){3}\nwhole seal [0-9a-f]{64}\n$`,
      ),
    );
  });

  test("one changed figure: where, exit 1; the log is left as it is", async () => {
    const copy = folder();
    await run(["demo", "--data", copy, "--fill", "6"]);
    const [first] = (await run(["log", "--json", "--data", copy])).out
      .split("\n")
      .map((line) => JSON.parse(line || "{}"))
      .filter((entry) => entry.kind === "test");
    const path = join(copy, "log", first.day.slice(0, 4), first.day.slice(5, 7), `${first.day}.json`);
    const tampered = readFileSync(path, "utf8").replace(`"lot": "${first.test.lot}"`, '"lot": "9999-Z"');
    writeFileSync(path, tampered);
    const { code, out } = await run(["verify", "--data", copy, "--json"]);
    expect(code).toBe(1);
    expect(JSON.parse(out)).toMatchObject({
      ok: false,
      firstBroken: {
        entry: first.number,
        file: `log/${first.day.slice(0, 4)}/${first.day.slice(5, 7)}/${first.day}.json`,
        how: expect.any(String),
      },
    });
    expect((await run(["verify", "--data", copy])).out).toMatch(
      /^BROKEN ✗ {2}\d+ entries\nlog\/\S+ {2}changed: entry \d+ is not as it was recorded/,
    );
    expect(readFileSync(path, "utf8")).toBe(tampered);
  });

  test("a folder without a station is 66", async () =>
    expect(await run(["verify", "--data", folder()])).toMatchObject({ code: 66, out: "" }));
});

describe("log with a day that can't be read", () => {
  test("prints the rest, tells which on standard error, exit 1", async () => {
    const copy = folder();
    await run(["demo", "--data", copy, "--fill", "60"]);
    const all = (await run(["log", "--json", "--data", copy])).out
      .trimEnd()
      .split("\n")
      .map((line) => JSON.parse(line));
    const { day } = all[Math.floor(all.length / 2)];
    writeFileSync(join(copy, "log", day.slice(0, 4), day.slice(5, 7), `${day}.json`), "{ torn");
    const ran = await run(["log", "--json", "--data", copy]);
    expect(ran.code).toBe(1);
    expect(
      ran.out
        .trimEnd()
        .split("\n")
        .map((line) => JSON.parse(line)),
    ).toEqual(all.filter((entry) => entry.day !== day));
    expect(ran.err).toMatch(new RegExp(`^sievewright: log/[^\n]*${day}\\.json can't be read[^\n]*\n$`));
  });
});

describe("reindex", () => {
  test("draws the index again, byte for byte as it was", async () => {
    const path = join(data, "index", "2026-11.json");
    const before = readFileSync(path, "utf8");
    writeFileSync(path, "{}");
    const { code, out } = await run(["reindex", "--data", data, "--json"]);
    expect(code).toBe(0);
    expect(JSON.parse(out)).toEqual({ months: expect.any(Number), entries: (await entries()).length });
    expect(readFileSync(path, "utf8")).toBe(before);
    expect((await run(["reindex", "--data", data])).out).toMatch(/^index drawn again, entries: \d+, months: \d+\n$/);
  });

  test("of a folder without a station is 66, and a sheet is no folder", async () => {
    expect(await run(["reindex", "--data", folder()])).toMatchObject({ code: 66, out: "" });
    expect((await run(["reindex", "--data", shared("sheets/TH-0510.csv")])).code).toBeGreaterThanOrEqual(65);
  });
});
