import { beforeAll, describe, expect, test } from "vitest";
import { sealOf, shortSeal } from "../../src/record/seal.ts";
import { openStore } from "../../src/store/openStore.ts";
import { must } from "../store/opened.ts";
import { draft, indexRowOf, station } from "../store/records.ts";
import { folder, run } from "./inProcess.ts";

const data = folder();
const NOW = "2026-11-24T04:14:00+00:00";
const record = (...more: string[]) => run(["record", "--data", data, ...more], { now: NOW });
const { schema: _, stage, ...begun } = draft("T-SPILLED", 1);
const entered = {
  ...begun,
  lot: "L-77",
  trail: [{ at: "2026-11-24T08:13:07+01:00", field: "lot" as const, from: "", to: "L-77" }],
};
let entry: Awaited<ReturnType<typeof end>>;

async function end() {
  const store = must(await openStore(data, { now: () => NOW, indexRowOf, create: station }));
  const by = { at: "2026-11-24T08:31:00+01:00", by: "KO" };
  const reason = "the 500 um sieve was dropped";
  const ended = must(await store.record({ kind: "test ended", ...by, stage, test: entered, reason }));
  must(await store.record({ kind: "note", ...by, text: "swept up" }));
  await store.close();
  return ended;
}

beforeAll(async () => {
  entry = await end();
});

describe("record of a test that was ended without a result", () => {
  test("has why, when and by whom, what had been entered, each weighing, the trail and the seal", async () => {
    const { code, out, err } = await record(`${entry.number}`);
    expect({ code, err }).toEqual({ code: 0, err: "" });
    expect(out).toContain(`TEST ENDED WITHOUT A RESULT no. ${entry.number}   station TH-DRY1`);
    expect(out).toContain("ended 2026-11-24 08:31");
    expect(out).toContain("signed KO, initials not checked by PIN");
    expect(out).toContain("reason: the 500 um sieve was dropped");
    expect(out).toContain(`product ${begun.product.code} revision ${begun.product.revision}`);
    expect(out).toContain("lot L-77");
    expect(out).toContain("08:13:07  lot  L-77");
    expect(out).toMatch(/1\.40 mm +400\.00 +460\.00/);
    expect(out).toMatch(/pan +404\.00 +\D/);
    expect(out).toContain(`no. ${entry.number}: ${shortSeal(sealOf(entry))}`);
    expect(out).toMatch(new RegExp(`end of the log: entry ${entry.number + 1}, `));
  });

  test("is printed in the time of the station, whatever zone the computer keeps", async () =>
    expect((await record(`${entry.number}`)).out).toContain("printed 2026-11-24 05:14 by Sievewright"));

  test("--json has the entry as recorded, its seal and the end of the log", async () =>
    expect(JSON.parse((await record(`${entry.number}`, "--json")).out)).toMatchObject({
      entry,
      seals: [{ number: entry.number, seal: sealOf(entry) }],
      head: { number: entry.number + 1 },
    }));

  test("a number of anything else is still 66", async () => {
    expect((await record(`${entry.number + 1}`)).code).toBe(66);
    expect((await record(`${entry.number + 2}`)).code).toBe(66);
  });
});
