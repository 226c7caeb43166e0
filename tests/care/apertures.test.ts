import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { certifiedMeanUm, evidenceOf, meanApertureOf } from "../../src/care/apertureChosen.ts";
import { blindedPct } from "../../src/care/blinded.ts";
import type { ReferenceMaterial } from "../../src/record/care.ts";
import type { LogEntry } from "../../src/record/logEntry.ts";
import type { Sieve } from "../../src/record/sieve.ts";
import { numberOf, reasonOf } from "../grading/stack.ts";
import { careEntry, knownOf } from "./knownWorld.ts";

const TODAY = "2026-11-24";

const bare: Sieve = { schema: "sievewright.sieve/1", serial: "S-0710-2", apertureUm: 710 };
const certificate = {
  day: "2026-03-02",
  laboratory: "Invented Metrology",
  warp: { meanUm: 714 },
  weft: { meanUm: 708 },
};

const oneWay = { day: certificate.day, laboratory: certificate.laboratory, warp: certificate.warp };

/** An even material: it passes 20 % at 500 um and 80 % at 1000 um, each to 1 %. */
const MATERIAL: ReferenceMaterial = {
  schema: "sievewright.referenceMaterial/1",
  code: "TH-RM1",
  name: "invented beads",
  certificate: { day: "2026-01-08", laboratory: "Invented Metrology", due: "2026-10-31" },
  points: [
    { apertureUm: 1000, passingPct: 80, expandedPct: 1 },
    { apertureUm: 500, passingPct: 20, expandedPct: 1 },
  ],
};

const ranOn = (serial: string, passingPct: number, number = 40): LogEntry =>
  careEntry(number, "2026-10-05T08:00:00+02:00", {
    did: "reference check",
    material: MATERIAL,
    found: [{ serial, apertureUm: 710, passingPct, expandedPct: 0 }],
  });
const repaired = (number: number, at: string): LogEntry =>
  careEntry(number, at, { did: "repair", serials: [bare.serial], what: "resoldered" });

function meanOf(choice: "certified" | "effective", sieve: Sieve, entries: readonly LogEntry[] = [], today = TODAY) {
  return meanApertureOf(sieve, choice, evidenceOf(knownOf([sieve], entries), sieve.serial), today);
}

describe("the mean aperture that a sieve stands for on the curve", () => {
  test("is the certified mean of both directions, with its uncertainty and the certificate it rests on", () => {
    const sieve = { ...bare, certificate: { ...certificate, number: "C-7", expandedUm: 2 } };
    expect(meanOf("certified", sieve)).toEqual({
      serial: "S-0710-2",
      apertureUm: 710,
      meanUm: 711,
      expandedUm: 2,
      restsOn: { certificate: { number: "C-7", day: "2026-03-02", laboratory: "Invented Metrology" } },
    });
    expect(meanOf("certified", { ...bare, certificate })).not.toHaveProperty("expandedUm");
  });

  test("of one direction is that direction's", () =>
    expect(numberOf(certifiedMeanUm({ ...bare, certificate: oneWay }))).toBe(714));

  test("is the effective one of the latest run with a reference material, with the entry it rests on", () => {
    // Between two certified points PCHIP is straight over ln size: half of the way up is at the geometric mean.
    const found = meanOf("effective", bare, [ranOn("S-0710-2", 35, 30), ranOn("S-0710-2", 50)]);
    expect(found).toMatchObject({
      meanUm: expect.closeTo(Math.sqrt(500 * 1000), 6),
      restsOn: { check: { number: 40, day: "2026-10-05", material: "TH-RM1" } },
    });
    // What is certified to 1 % of 60 % over a factor of two: 2^(1/60) on the wider side.
    const wider = Math.sqrt(500 * 1000) * (2 ** (1 / 60) - 1);
    expect("expandedUm" in found && found.expandedUm).toBeCloseTo(wider, 6);
  });

  test("has no uncertainty where what was found has none, or an end of its range lies beyond the certified curve", () => {
    const ran = (passingPct: number, told: object, material = MATERIAL): LogEntry =>
      careEntry(40, "2026-10-05T08:00:00+02:00", {
        did: "reference check",
        material,
        found: [{ serial: bare.serial, apertureUm: 710, passingPct, ...told }],
      });
    const narrow = {
      ...MATERIAL,
      points: MATERIAL.points.map((p) => ({ ...p, apertureUm: p.apertureUm === 500 ? 715 : 1000 })),
    };
    const unsure = [
      ran(50, {}),
      ran(21, { expandedPct: 2 }),
      ran(79, { expandedPct: 2 }),
      ran(50, { expandedPct: 2 }, narrow),
    ];
    for (const entry of unsure) {
      const found = meanOf("effective", bare, [entry]);
      expect(found).toHaveProperty("meanUm");
      expect(found).not.toHaveProperty("expandedUm");
    }
    expect(meanOf("effective", bare, [ran(50, { expandedPct: 2 })])).toHaveProperty("expandedUm");
  });

  test("rests on no run whose test is void by now or was corrected after it was noted", () => {
    const run = careEntry(40, "2026-10-05T08:00:00+02:00", {
      did: "reference check",
      material: MATERIAL,
      testId: "t-39",
      found: [{ serial: bare.serial, apertureUm: 710, passingPct: 50, expandedPct: 1 }],
    });
    const meanAfter = (...kinds: readonly (readonly [number, "voided" | "reinstated" | "correction"])[]) => {
      const of = { testId: "t-39", day: "2026-10-05", number: 39 };
      const amendments = kinds.map(([number, kind]) => ({ day: "2026-10-06", number, kind, of }));
      const known = { ...knownOf([bare], [run]), amendments };
      return meanApertureOf(bare, "effective", evidenceOf(known, bare.serial), TODAY);
    };
    expect(meanAfter([41, "voided"])).toMatchObject({ lacks: expect.stringMatching(/reference material is void/) });
    expect(meanAfter([41, "correction"])).toMatchObject({
      lacks: expect.stringMatching(/was corrected: take it in again/),
    });
    expect(meanAfter([41, "voided"], [42, "reinstated"])).toHaveProperty("meanUm");
    expect(meanAfter()).toHaveProperty("meanUm");
  });

  test("that is chosen but not known is not replaced by another: it says what is lacking", () => {
    const known = { ...bare, certificate };
    expect(meanOf("certified", bare, [ranOn("S-0710-2", 50)])).toMatchObject({
      lacks: expect.stringMatching(/no certificate/),
    });
    expect(meanOf("effective", known)).toMatchObject({
      lacks: expect.stringMatching(/never run with a reference material/),
    });
    expect(meanOf("effective", known, [ranOn("S-0500-1", 50)])).toMatchObject({
      lacks: expect.stringMatching(/never run/),
    });
    expect(meanOf("effective", known, [ranOn("S-0710-2", 95)])).toMatchObject({
      lacks: expect.stringMatching(/outside the certified curve/),
    });
  });

  test("ends with a repair, and begins anew with what came after it", () => {
    const known = { ...bare, certificate };
    const after = repaired(50, "2026-10-06T08:00:00+02:00");
    expect(meanOf("certified", known, [after])).toMatchObject({
      lacks: expect.stringMatching(/repaired on 2026-10-06, after its certificate/),
    });
    expect(meanOf("effective", known, [ranOn("S-0710-2", 50), after])).toMatchObject({
      lacks: expect.stringMatching(/repaired on 2026-10-06/),
    });
    const before = repaired(10, "2026-02-06T08:00:00+02:00");
    expect(meanOf("certified", known, [before])).toHaveProperty("meanUm", 711);
    expect(meanOf("effective", known, [before, ranOn("S-0710-2", 50)])).toHaveProperty("meanUm");
  });

  test("is not known by a certificate of the day of the repair, and is by one of the day after", () => {
    const sameDay = repaired(50, "2026-03-02T06:00:00+01:00");
    expect(meanOf("certified", { ...bare, certificate }, [sameDay])).toMatchObject({
      lacks: "it was repaired on 2026-03-02, the day of its certificate, which may be from before that",
    });
    const later = { ...bare, certificate: { ...certificate, day: "2026-03-03" } };
    expect(meanOf("certified", later, [sameDay])).toHaveProperty("meanUm", 711);
  });

  test("by a certificate that ran out counts all the same and says so", () => {
    const due = { ...bare, certificate: { ...certificate, due: "2026-11-23" } };
    expect(meanOf("certified", due)).toMatchObject({
      meanUm: 711,
      doubt: expect.stringMatching(/its certificate .* until 2026-11-23/),
    });
    expect(meanOf("certified", due, [], "2026-11-23")).not.toHaveProperty("doubt");
    expect(meanOf("effective", bare, [ranOn("S-0710-2", 50)])).toMatchObject({
      doubt: expect.stringMatching(/certificate of TH-RM1 .* 2026-10-31/),
    });
    expect(meanOf("effective", bare, [ranOn("S-0710-2", 50)], "2026-10-31")).not.toHaveProperty("doubt");
  });
});

describe("the share of blinded apertures", () => {
  test("is one grain an aperture: every aperture of a 200 mm sieve of 250 um holds 4.05 g of quartz together", () => {
    // pitch 250 + 160 um: 186 890 apertures; a round quartz grain of 250 um weighs 21.68 ug.
    const full = (Math.PI / 4) * (200_000 / 410) ** 2 * 2650e-15 * (Math.PI / 6) * 250 ** 3;
    expect(full).toBeCloseTo(4.05, 2);
    expect(numberOf(blindedPct(full / 4, 250, 200, 2650))).toBeCloseTo(25, 9);
  });

  test("lies in 0 to 100 and grows with the mass", () =>
    fc.assert(
      fc.property(fc.double({ min: -1, max: 50, noNaN: true }), (g) => {
        const pct = numberOf(blindedPct(g, 250, 200, 2650));
        expect(pct).toBeGreaterThanOrEqual(0);
        expect(pct).toBeLessThanOrEqual(100);
        expect(numberOf(blindedPct(g + 1, 250, 200, 2650))).toBeGreaterThanOrEqual(pct);
      }),
    ));

  test("is not told where the wire is not known", () =>
    expect(reasonOf(blindedPct(1, 333, 200, 2650))).toMatch(/no wire is known/));
});
