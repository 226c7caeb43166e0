import { describe, expect, test } from "vitest";
import {
  CareSchema,
  ReferenceMaterialSchema,
  RegisteredBalanceSchema,
  RegisteredWeightSchema,
} from "../../src/record/care.ts";
import { SieveSchema } from "../../src/record/sieve.ts";

const reads = (schema: { safeParse: (x: unknown) => { success: boolean } }, written: unknown) =>
  schema.safeParse(written).success;

describe("a sieve of the register", () => {
  const bare = { schema: "sievewright.sieve/1", serial: "S-0710-2", apertureUm: 710 };
  const certificate = {
    day: "2026-03-02",
    laboratory: "Invented Metrology",
    warp: { meanUm: 712.4, deviationUm: 11.2, measured: 50 },
    weft: { meanUm: 709.8, factorK: 2.6 },
    expandedUm: 2.4,
  };
  const full = {
    ...bare,
    frameMm: 200,
    frameHeightMm: 50,
    cloth: "woven wire",
    standard: "ISO 3310-1:2016",
    certificate,
    firstUse: "2026-03-10",
    state: "quarantine",
    stateReason: "dent near the rim",
    stateSince: "2026-11-02",
    location: "rack 2",
    stack: "TH-DRY1-0510",
  };

  test("reads as it was written before the register knew more", () => {
    expect(SieveSchema.parse(bare)).toEqual(bare);
    expect(SieveSchema.parse({ ...bare, frameMm: 200, standard: "ISO 3310-1" })).toMatchObject({ frameMm: 200 });
  });

  test("carries certificate, cloth, height, state with reason, place and first use", () =>
    expect(SieveSchema.parse(full)).toEqual(full));

  test.each([
    ["an unknown cloth", { cloth: "felt" }],
    ["an unknown state", { state: "lost" }],
    ["an empty reason", { stateReason: "" }],
    ["a day that is none", { firstUse: "2026-02-30" }],
    ["a certificate without its laboratory", { certificate: { ...certificate, laboratory: undefined } }],
    ["a certificate without a mean", { certificate: { ...certificate, warp: { deviationUm: 2 } } }],
    ["a scatter below zero", { certificate: { ...certificate, warp: { meanUm: 712, deviationUm: -1 } } }],
    ["an unknown field", { colour: "brass" }],
  ])("is refused with %s", (_, wrong) => expect(reads(SieveSchema, { ...full, ...wrong })).toBe(false));
});

describe("balances and check weights", () => {
  const balance = {
    schema: "sievewright.balance/1",
    id: "B1",
    capacityG: 3100,
    readabilityG: 0.01,
    repeatabilityG: 0.008,
    balanceClass: "II",
    calibration: { day: "2026-05-01", laboratory: "Invented Metrology", due: "2027-05-01" },
  };
  const weight = {
    schema: "sievewright.checkWeight/1",
    weight: "W500",
    nominalG: 500,
    weightClass: "F1",
    certificate: { day: "2026-05-01", laboratory: "Invented Metrology", massG: 500.0008, expandedG: 0.0008 },
  };

  test("are read with calibration due, class and certificate", () => {
    expect(RegisteredBalanceSchema.parse(balance)).toEqual(balance);
    expect(RegisteredWeightSchema.parse(weight)).toEqual(weight);
  });

  test.each([
    [RegisteredBalanceSchema, { ...balance, capacityG: 0 }],
    [RegisteredBalanceSchema, { ...balance, balanceClass: "V" }],
    [RegisteredBalanceSchema, { ...balance, calibration: { day: "2026-05-01" } }],
    [RegisteredWeightSchema, { ...weight, weightClass: "E9" }],
    [RegisteredWeightSchema, { ...weight, nominalG: 0 }],
  ])("are refused where a figure cannot be (%#)", (schema, wrong) => expect(reads(schema, wrong)).toBe(false));
});

describe("a reference material", () => {
  const point = (apertureUm: number, passingPct: number) => ({ apertureUm, passingPct, expandedPct: 1 });
  const material = (points: unknown[]) => ({
    schema: "sievewright.referenceMaterial/1",
    code: "INV-BEADS",
    name: "invented glass beads",
    certificate: { day: "2026-01-08", laboratory: "Invented Metrology" },
    points,
  });

  test("runs from coarse to fine, never rising", () => {
    expect(reads(ReferenceMaterialSchema, material([point(710, 96), point(500, 40), point(355, 3)]))).toBe(true);
    expect(reads(ReferenceMaterialSchema, material([point(500, 40), point(710, 96)]))).toBe(false);
    expect(reads(ReferenceMaterialSchema, material([point(710, 40), point(500, 41)]))).toBe(false);
    expect(reads(ReferenceMaterialSchema, material([point(710, 40), point(710, 40)]))).toBe(false);
  });

  test("needs two points, for one makes no curve", () =>
    expect(reads(ReferenceMaterialSchema, material([point(500, 40)]))).toBe(false));
});

describe("the care log", () => {
  const one = { serials: ["S-0710-2"] };
  test.each([
    { did: "cleaning", ...one, how: "ultrasonic", after: [{ serial: "S-0710-2", emptyG: 412.31 }] },
    { did: "repair", ...one, what: "solder at the rim" },
    { did: "quarantine", ...one, reason: "torn" },
    { did: "return to service", ...one, reason: "inspected" },
    { did: "retirement", ...one, reason: "beyond X" },
    { did: "inspection", serial: "S-0710-2", looks: { light: "good", tears: "faulty" } },
    { did: "inspection", serial: "S-0710-2", looks: {}, measured: { warpUm: [711, 709.5], weftUm: [712] } },
  ])("takes $did (%#)", (care) => expect(CareSchema.parse(care)).toEqual(care));

  test.each([
    { did: "cleaning", serials: [], how: "brush" },
    { did: "cleaning", ...one, how: "hammer" },
    { did: "quarantine", ...one },
    { did: "retirement", ...one, reason: "" },
    { did: "inspection", serial: "S-0710-2", looks: { smell: "good" } },
    { did: "inspection", serial: "S-0710-2", looks: {}, measured: { warpUm: [] } },
    { did: "inspection", serial: "S-0710-2", looks: {}, measured: { warpUm: [-1] } },
    { did: "burning", ...one },
  ])("refuses $did without what it needs (%#)", (care) => expect(reads(CareSchema, care)).toBe(false));
});
