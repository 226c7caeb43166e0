import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { apertureChosen, certifiedMeanUm } from "../../src/care/apertureChosen.ts";
import { blindedPct } from "../../src/care/blinded.ts";
import { determined, undetermined } from "../../src/record/determination.ts";
import type { Sieve } from "../../src/record/sieve.ts";
import { assumptionsOf, numberOf, reasonOf } from "../grading/stack.ts";

const bare: Sieve = { schema: "sievewright.sieve/1", serial: "S-0710-2", apertureUm: 710 };
const certificate = {
  day: "2026-03-02",
  laboratory: "Invented Metrology",
  warp: { meanUm: 714 },
  weft: { meanUm: 708 },
};

const oneWay = { day: certificate.day, laboratory: certificate.laboratory, warp: certificate.warp };

describe("the aperture that a sieve stands for on the curve", () => {
  test("is the nominal one, the certified mean of both directions, or the effective one, as chosen", () => {
    expect(numberOf(apertureChosen({ ...bare, certificate }, "nominal"))).toBe(710);
    expect(numberOf(apertureChosen({ ...bare, certificate }, "certified"))).toBe(711);
    expect(numberOf(apertureChosen(bare, "effective", determined(723.4, "um")))).toBe(723.4);
  });

  test("says what it rests on", () => {
    expect(assumptionsOf(apertureChosen(bare, "nominal"))).toEqual(["nominal aperture"]);
    expect(assumptionsOf(certifiedMeanUm({ ...bare, certificate }))[0]).toMatch(/certificate of 2026-03-02/);
    expect(assumptionsOf(apertureChosen(bare, "effective", determined(1, "um")))[0]).toMatch(/reference material/);
  });

  test("of one direction is that direction's", () =>
    expect(numberOf(certifiedMeanUm({ ...bare, certificate: oneWay }))).toBe(714));

  test("that is chosen but not known is not replaced by another", () => {
    expect(reasonOf(apertureChosen(bare, "certified"))).toMatch(/S-0710-2 has no certificate/);
    expect(reasonOf(apertureChosen(bare, "effective"))).toMatch(/not run with a reference material/);
    expect(reasonOf(apertureChosen(bare, "effective", undetermined("outside")))).toBe("outside");
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
