import { describe, expect, test } from "vitest";
import { type Condition, conditionOf, type SieveHistory } from "../../src/care/conditionOf.ts";
import { rightSince } from "../../src/care/effective/rightSince.ts";
import type { TareHistory } from "../../src/care/tare/history.ts";
import { tareWatch } from "../../src/care/tare/tareWatch.ts";
import type { CareNote } from "../../src/care/use/life.ts";
import { comparableTares } from "../../src/care/use/tares.ts";
import type { Sieve } from "../../src/record/sieve.ts";
import { chanceFrom } from "./simulation/chance.ts";
import { STACK_UM, weighedEmpty } from "./simulation/tares.ts";

const sieve: Sieve = { schema: "sievewright.sieve/1", serial: "S-710-2", apertureUm: 710, firstUse: "2026-01-01" };
const GOOD = { light: "good", wrinkles: "good", tears: "good", solder: "good", seat: "good" } as const;
const UNUSED = { tests: 0, sievedMin: 0, passedKg: 0, untimed: 0 };
const nothing: SieveHistory = { used: UNUSED, care: [], watch: null };
const used = (tests: number) => ({ tests, sievedMin: 10 * tests, passedKg: tests / 10, untimed: 0 });
const watched = (tares: readonly TareHistory[], care: readonly CareNote[] = []) => ({
  care,
  watch: tareWatch(
    tares.map((one) => comparableTares(one, care)),
    { readabilityG: 0.01 },
  ),
});
const note = (at: string, care: CareNote["care"]): CareNote => ({ at: `${at}T08:00:00+01:00`, care });
const inspected = (at: string, looks: object = GOOD) => note(at, { did: "inspection", serial: "S-710-2", looks });
const on = (today: string, more: Partial<SieveHistory> = {}, of: Sieve = sieve): Condition =>
  conditionOf(of, { ...nothing, ...more }, today);

describe("the condition of a sieve", () => {
  test("is fit while its inspection is not due, by six months where the plant sets nothing else", () => {
    expect(on("2026-03-01")).toMatchObject({ state: "fit", registered: "in service", advice: [], tare: null });
    expect(on("2026-06-25").state).toBe("due");
    expect(on("2026-07-10")).toMatchObject({
      state: "overdue",
      text: "inspection overdue: 190 of 183 days since 2026-01-01",
    });
    expect(on("2026-07-10").advice).toEqual(["inspect it: 190 of 183 days since 2026-01-01"]);
  });

  test("by a certificate that ran out asks for a new one, from the day after on, while it may be used", () => {
    const certificate = {
      day: "2025-01-02",
      laboratory: "Invented Metrology",
      due: "2026-02-01",
      warp: { meanUm: 711 },
    };
    const certified = { ...sieve, certificate };
    expect(on("2026-02-01", {}, certified).advice).toEqual([]);
    expect(on("2026-02-02", {}, certified)).toMatchObject({
      state: "fit",
      advice: ["its certificate was to be relied on until 2026-02-01: have it certified again"],
    });
    expect(on("2026-02-02", {}, { ...certified, state: "retired" }).advice).toEqual([]);
  });

  test("is fit again once inspected, and counts from there", () => {
    const condition = on("2026-07-10", { care: [inspected("2026-07-02")], used: used(2) });
    expect(condition.state).toBe("fit");
    expect(condition.counts).toMatchObject({ tests: 2, sievedMin: 20, since: "2026-07-02" });
    expect(condition.due.onDay).toBe("2027-01-01");
  });

  test("is overdue by count before it is by date, where the plant counts", () => {
    expect(on("2026-02-02", { used: used(101), schedule: { days: 183, tests: 100 } })).toMatchObject({
      state: "overdue",
      text: "inspection overdue: 101 of 100 tests since 2026-01-01",
    });
  });

  test.each<[CareNote["care"], string]>([
    [
      { did: "quarantine", serials: ["S-710-2"], reason: "dent at the rim" },
      "quarantine since 2026-02-01: dent at the rim",
    ],
    [{ did: "retirement", serials: ["S-710-2"], reason: "beyond X" }, "retired since 2026-02-01: beyond X"],
  ])("is out of service after %j", (care, text) => {
    expect(on("2026-02-02", { care: [note("2026-02-01", care)] })).toMatchObject({ state: "out of service", text });
  });

  test("as the register has it holds where the care log says nothing", () => {
    const cleaning = { ...sieve, state: "cleaning", stateReason: "ultrasonic bath" } as const;
    expect(on("2026-02-02", {}, cleaning)).toMatchObject({
      state: "out of service",
      registered: "cleaning",
      text: "cleaning: ultrasonic bath",
    });
  });

  test("is out of service after a failed inspection until it is returned with a reason or inspected anew", () => {
    const torn = inspected("2026-02-01", { ...GOOD, tears: "faulty" });
    expect(on("2026-02-02", { care: [torn] })).toMatchObject({ state: "out of service", registered: "in service" });
    expect(on("2026-02-02", { care: [torn] }).text).toMatch(/failed its inspection: .*torn/);
    const returned = note("2026-02-03", { did: "return to service", serials: ["S-710-2"], reason: "new cloth" });
    expect(on("2026-02-04", { care: [torn, returned] }).state).toBe("fit");
    expect(on("2026-02-04", { care: [torn, inspected("2026-02-03")] }).state).toBe("fit");
  });

  test("a look at a part of it neither begins the interval anew nor clears what it did not look at", () => {
    const [whole, seat] = [inspected("2026-01-10"), inspected("2026-07-09", { seat: "good" })];
    expect(on("2026-07-20", { care: [whole, seat] })).toMatchObject({
      state: "overdue",
      text: "inspection overdue: 191 of 183 days since 2026-01-10",
    });
    const torn = inspected("2026-02-01", { ...GOOD, tears: "faulty" });
    expect(on("2026-02-04", { care: [torn, inspected("2026-02-03", { seat: "good" })] }).text).toMatch(/torn/);
    expect(on("2026-02-04", { care: [torn, inspected("2026-02-03", { tears: "good" })] }).state).toBe("fit");
  });

  test("whose apertures were measured and found wrong is not put right by a look, only by measuring or returning it", () => {
    const measured = (at: string, warpUm: number) =>
      note(at, { did: "inspection", serial: "S-710-2", looks: GOOD, measured: { warpUm: [warpUm, warpUm] } });
    const wide = measured("2026-02-01", 800);
    expect(on("2026-02-02", { care: [wide] }).text).toMatch(/failed its inspection: .*mean along the warp/);
    const looked = on("2026-02-04", { care: [wide, inspected("2026-02-03")] });
    expect(looked.state).toBe("out of service");
    expect(looked.text).toMatch(/mean along the warp/);
    expect(on("2026-02-04", { care: [wide, measured("2026-02-03", 711)] }).state).toBe("fit");
    const returned = note("2026-02-02", { did: "return to service", serials: ["S-710-2"], reason: "new cloth" });
    expect(on("2026-02-04", { care: [wide, returned, inspected("2026-02-03")] }).state).toBe("fit");
    expect(rightSince([sieve], [wide, inspected("2026-02-03")])).toBeNull();
  });

  test("counts from the certificate where no first use is known; with neither it is overdue", () => {
    const bare: Sieve = { schema: "sievewright.sieve/1", serial: "S-710-2", apertureUm: 710 };
    const certificate = { day: "2026-02-01", laboratory: "Invented Metrology", warp: { meanUm: 711 } };
    expect(on("2026-03-01", {}, { ...bare, certificate }).counts.since).toBe("2026-02-01");
    expect(on("2026-03-01", {}, bare)).toMatchObject({ state: "overdue" });
  });
});

describe("what the weighings of its stack say", () => {
  const fates = (blinds: boolean) =>
    STACK_UM.map((apertureUm) =>
      blinds && apertureUm === 710 ? { apertureUm, blinds: { from: 30, gPerTest: 0.03 } } : { apertureUm },
    );

  test("becomes advice: grains caught, so many g, clean it", () => {
    const condition = on("2026-01-20", watched(weighedEmpty(fates(true), 45, chanceFrom(4))));
    expect(condition.state).toBe("fit");
    expect(condition.tare?.state).toBe("caught");
    expect(condition.advice).toHaveLength(1);
    expect(condition.advice[0]).toMatch(/710 um sieve \(S-710-2\) weighs 0.\d+ g more.*clean it/);
  });

  test("is the balance where all moved", () => {
    const tares = weighedEmpty(fates(false), 45, chanceFrom(4), { from: 35, addsG: 0.3 });
    const condition = on("2026-01-20", watched(tares));
    expect(condition.together?.cause).toBe("balance");
    expect(condition.advice[0]).toMatch(/the balance, not the sieves: check the balance/);
  });

  test("begins anew after a repair", () => {
    const tares = weighedEmpty(fates(true), 45, chanceFrom(4));
    const repair = note("2026-01-06", { did: "repair", serials: ["S-710-2"], what: "solder" });
    expect(on("2026-01-20", watched(tares, [repair])).tare?.state).toBe("learning");
  });
});

test("a reference material by which it is off becomes advice; one by which it agrees does not", () => {
  const point = (apertureUm: number, passingPct: number) => ({ apertureUm, passingPct, expandedPct: 1 });
  const material = {
    schema: "sievewright.referenceMaterial/1",
    code: "INV",
    name: "invented beads",
    certificate: { day: "2026-01-08", laboratory: "Invented Metrology" },
    points: [point(850, 90), point(710, 50), point(600, 12)],
  } as const;
  const ran = (passingPct: number) =>
    note("2026-02-01", {
      did: "reference check",
      material: { ...material, points: [...material.points] },
      found: [{ serial: "S-710-2", apertureUm: 710, passingPct, expandedPct: 1 }],
    });
  expect(on("2026-02-02", { care: [ran(58)] }).advice[0]).toMatch(
    /by the reference material .* disagrees .*: inspect it/,
  );
  expect(on("2026-02-02", { care: [ran(50.3)] }).advice).toEqual([]);
});
