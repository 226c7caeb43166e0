import { describe, expect, test } from "vitest";
import { careMatters } from "../../src/care/matters.ts";
import type { RegisterItem } from "../../src/record/register.ts";
import { careEntry, knownOf, sieveOf } from "./knownWorld.ts";

const fresh = sieveOf("S-710-1", 710, { firstUse: "2026-11-01" });
const stale = sieveOf("S-500-1", 500, { firstUse: "2026-01-01" });
const soon = sieveOf("S-355-1", 355, { firstUse: "2026-06-05" });
const balance = (due: string): RegisterItem => ({
  schema: "sievewright.balance/1",
  id: "B1",
  capacityG: 3100,
  readabilityG: 0.01,
  calibration: { day: "2026-01-08", laboratory: "Invented Metrology", due },
});

const told = (items: readonly RegisterItem[], entries = [] as Parameters<typeof knownOf>[1]) =>
  careMatters(knownOf(items, entries)).map(({ of, grade, text }) => `${grade}: ${of}: ${text}`);

describe("what is to be told of sieves and balance", () => {
  test("is nothing while all is fit", () => expect(told([fresh, balance("2027-06-01")])).toEqual([]));

  test("is first what must not be used, then what is overdue, then what falls due", () => {
    const out = careEntry(1, "2026-11-20T08:00:00+01:00", {
      did: "quarantine",
      serials: ["S-710-1"],
      reason: "dented rim",
    });
    expect(told([fresh, stale, soon, balance("2026-12-10")], [out])).toEqual([
      "stop: S-710-1 (710 um): quarantine since 2026-11-20: dented rim",
      "act: S-500-1 (500 um): inspection overdue: 327 of 183 days since 2026-01-01",
      "soon: S-355-1 (355 um): inspection due: 172 of 183 days since 2026-06-05",
      "soon: balance B1: calibration due on 2026-12-10",
    ]);
    expect(told([balance("2026-11-01")])).toEqual(["act: balance B1: calibration overdue since 2026-11-01"]);
  });

  test("gathers sieves of which the same is to be told", () => {
    const others = [1, 2].map((k) => sieveOf(`S-250-${k}`, 250, { firstUse: "2026-01-01" }));
    expect(told([stale, ...others])).toEqual([
      "act: S-500-1 (500 um) and 2 more: inspection overdue: 327 of 183 days since 2026-01-01",
    ]);
  });

  test("leaves retired sieves in peace", () => {
    const retired = careEntry(1, "2026-11-20T08:00:00+01:00", {
      did: "retirement",
      serials: ["S-500-1"],
      reason: "worn",
    });
    expect(told([stale], [retired])).toEqual([]);
  });
});
