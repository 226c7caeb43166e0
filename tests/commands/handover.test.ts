import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { folder, run } from "./inProcess.ts";

const data = folder();
const handover = async (...more: string[]) => run(["handover", "--data", data, ...more]);
/** A shift of the season with tests, long over; and when it was. */
const LATE = "2026-11-23T15:00:00+01:00";

beforeAll(async () => {
  expect(await run(["demo", "--data", data, "--fill", "40", "--seed", "7"])).toMatchObject({ code: 0, err: "" });
}, 60_000);

describe("handover", () => {
  test("prints the page of the shift that a moment lies in, with the end of the chain", async () => {
    const { code, out } = await handover("--shift", LATE);
    expect(code).toBe(0);
    expect(out).toMatch(/^HANDOVER {2}TH-DRY1 /);
    expect(out).toContain("2026-11-23 14:00 to 2026-11-23 22:00");
    expect(out).toMatch(/the log ends with entry \d+, seal [0-9a-f]{4} [0-9a-f]{4} [0-9a-f]{4}/);
    expect(out).toContain("handed over by ____");
    for (const line of out.split("\n")) expect([...line].length).toBeLessThanOrEqual(80);
  });

  test("leaves tests in work out of a shift that was over before they were set out", async () => {
    expect((await handover("--shift", "2026-11-10T15:00:00+01:00")).out).toContain("TESTS IN WORK\n  none");
    expect((await handover("--shift", LATE)).out).toMatch(/TESTS IN WORK\n {2}(TH-\w+ lot|none)/);
  });

  test("--json has the facts of the page under the names of the page", async () => {
    const { out } = await handover("--shift", LATE, "--json");
    const facts = JSON.parse(out);
    expect(facts).toMatchObject({ schema: "sievewright.handover/1", shift: { began: "2026-11-23T14:00:00+01:00" } });
    for (const name of ["tests", "open", "closed", "late", "inWork", "notes", "lineEvents", "corrections"])
      expect(Array.isArray(facts[name]), name).toBe(true);
    expect(facts).toMatchObject({ handed: null, taken: null, head: { number: expect.any(Number) } });
  });

  test("--out writes a new file, and none over another", async () => {
    const file = join(folder(), "page.txt");
    expect(await handover("--shift", LATE, "--out", file)).toMatchObject({ code: 0, out: `written to ${file}\n` });
    expect(readFileSync(file, "utf8")).toMatch(/^HANDOVER/);
    expect(await handover("--shift", LATE, "--out", file)).toMatchObject({ code: 64 });
  });

  test.each([["tomorrow"], ["2026-11-23"], ["2026-13-99T03:00"]])(
    "--shift %s ends with 64 and says what to give",
    async (shift) => {
      const { code, out, err } = await handover("--shift", shift);
      expect({ code, out }).toEqual({ code: 64, out: "" });
      expect(err).toMatch(/--shift .*: give now, last, or a moment/);
    },
  );

  test("without a station ends with 66", async () => {
    const nowhere = join(folder(), "nowhere");
    expect(await run(["handover", "--data", nowhere])).toMatchObject({ code: 66, out: "" });
    expect(existsSync(nowhere)).toBe(false);
  });
});
