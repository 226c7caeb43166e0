import { readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { correctionOf, refTo } from "../../src/assess/correctionOf.ts";
import { shortSeal } from "../../src/record/seal.ts";
import type { TestHistory } from "../../src/record/versions.ts";
import { indexRowOf } from "../../src/store/indexRowOf.ts";
import { openStore } from "../../src/store/openStore.ts";
import { must } from "../store/opened.ts";
import { folder, run } from "./inProcess.ts";

const data = folder();
const record = (...more: string[]) => run(["record", "--data", data, ...more]);
/** The text, wherever its lines break. */
const flat = (text: string): string => text.replace(/\s+/g, " ");
let at: { number: number; later: number };
let history: TestHistory;

beforeAll(async () => {
  expect(await run(["demo", "--data", data, "--fill", "30", "--seed", "7"])).toMatchObject({ code: 0, err: "" });
  const now = () => "2026-12-03T08:00:00+01:00";
  const store = must(await openStore(data, { now, indexRowOf }));
  const rows = await store.recentRows(30);
  const row = rows.find((one) => one.test === "valid" && one.verdict === "pass");
  if (row === undefined) throw new Error("no test passed");
  const { entry } = must(await store.history(row));
  const [coarsest] = entry.test.weighings;
  const change = { field: "fullG" as const, apertureUm: coarsest?.apertureUm ?? 0, from: coarsest?.fullG ?? 0 };
  const to = Math.round(((coarsest?.fullG ?? 0) + 9) * 100) / 100;
  const said = must(correctionOf({ entry, later: [] }, [{ ...change, to }], "read the wrong display", "0.2.0"));
  const correction = must(await store.record({ ...said, at: now(), by: "ML" }));
  must(
    await store.record({ kind: "voided", of: refTo(entry), reason: "the wrong heap was sampled", at: now(), by: "ML" }),
  );
  history = must(await store.history(row));
  at = { number: row.number, later: correction.number };
  await store.close();
});

describe("record", () => {
  test("prints the version that is to be read today and says so, with both verdicts and all weighings", async () => {
    const { code, out, err } = await record(`${at.number}`);
    expect({ code, err }).toEqual({ code: 0, err: "" });
    expect(out).toContain(`RECORD OF TEST no. ${at.number}   station TH-DRY1   VOID × corrected`);
    expect(flat(out)).toContain(
      `corrected once: what follows is the version of no. ${at.later}, which is to be read today`,
    );
    const [version] = history.later;
    expect(version?.kind === "correction" ? version.signed.test : "").toBe("invalid");
    expect(out).toContain("signed as TEST INVALID !");
    expect(out).toContain(`revision ${history.entry.test.product.revision}`);
  });

  test("has original and correction side by side, who, when and why, and what differs with a sign", async () => {
    const { out } = await record(`${at.number}`);
    expect(out).toMatch(
      new RegExp(`\\* differs from before +original, no\\. ${at.number} +version 2, no\\. ${at.later}`),
    );
    expect(out).toMatch(/full g +\d+\.\d\d +\* \d+\.\d\d/);
    expect(out).toMatch(/test +TEST VALID ✓ +\* TEST INVALID !/);
    expect(out).toContain("2026-12-03 08:00 · ML: read the wrong display");
    expect(out).toContain("2026-12-03 08:00 · ML: the wrong heap was sampled");
  });

  test("has the seals, the end of the log, and what the names are worth", async () => {
    const [{ out }, told] = [await record(`${at.number}`), JSON.parse((await record(`${at.number}`, "--json")).out)];
    const verified = JSON.parse((await run(["verify", "--data", data, "--json"])).out);
    expect(out).toContain(`end of the log: entry ${verified.head.number}, ${shortSeal(verified.head.seal)}`);
    for (const { number, seal } of told.seals) expect(flat(out)).toContain(`no. ${number}: ${shortSeal(seal)}`);
    expect(out).toContain("nothing proves whose they are");
  });

  test("--original prints the result as it was recorded, and says that it is not what is to be read today", async () => {
    const { out } = await record(`${at.number}`, "--original");
    expect(out).toContain("what follows is the ORIGINAL, not what is to be read today");
    expect(out).toContain("signed as TEST VALID ✓");
    expect(out).toContain("read the wrong display");
  });

  test("--json has the entries as recorded, the versions, how the test stands, the seals", async () => {
    const told = JSON.parse((await record(`${at.number}`, "--json")).out);
    expect(told).toMatchObject({ ...history, unfit: [], standing: { corrections: 1, voided: true, waived: false } });
    expect(told.versions.map(({ number }: { number: number }) => number)).toEqual([at.number, at.later]);
  });

  test("of a later entry's number prints the test that it is about", async () =>
    expect((await record(`${at.later}`)).out).toBe((await record(`${at.number}`)).out));

  test("of a test that nothing was said of has neither versions nor marks", async () => {
    const other = at.number - 1;
    const { out } = await record(`${other}`);
    expect(out).toContain(`RECORD OF TEST no. ${other}   station TH-DRY1\n`);
    expect(out).not.toMatch(/differs from before|later entries|ORIGINAL/);
  });

  test.each([
    ["0", 64],
    ["x", 64],
    ["1e3", 64],
    ["-3", 64],
    ["99999", 66],
    ["1", 66],
  ])("%j is refused in one line with code %i", async (number, code) => {
    const refused = await record(...(number.startsWith("-") ? ["--", number] : [number]));
    expect(refused).toMatchObject({ code, out: "" });
    expect(refused.err.trim().split("\n")).toHaveLength(1);
  });

  test("only reads: no file of the station changes and none appears", async () => {
    const files = () =>
      (readdirSync(data, { recursive: true }) as string[])
        .map((name) => join(data, name))
        .filter((path) => statSync(path).isFile())
        .map((path) => [path, readFileSync(path, "utf8")]);
    const before = files();
    await record(`${at.number}`);
    expect(files()).toEqual(before);
  });
});
