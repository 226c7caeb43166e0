import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Evaluation, EvaluationSchema } from "../../src/record/evaluation.ts";
import { run } from "./inProcess.ts";

/** Masses of a sheet in hundredths of a gram: sieves by aperture in um, and the pan. */
interface Masses {
  readonly sieves: readonly (readonly [um: number, cg: number])[];
  readonly panCg: number;
}

const anyMasses: fc.Arbitrary<Masses> = fc
  .record({
    sieves: fc.uniqueArray(fc.tuple(fc.integer({ min: 20, max: 30_000 }), fc.integer({ min: 0, max: 20_000 })), {
      minLength: 2,
      maxLength: 9,
      selector: ([um]) => um,
    }),
    panCg: fc.integer({ min: 0, max: 5_000 }),
  })
  .filter(({ sieves, panCg }) => sieves.reduce((sum, [, cg]) => sum + cg, panCg) > 0);

const csv = ({ sieves, panCg }: Masses, keys = "") =>
  `${keys}aperture_um,net_g\n${sieves.map(([um, cg]) => `${um},${cg / 100}\n`).join("")}pan,${panCg / 100}\n`;
const totalG = ({ sieves, panCg }: Masses) => sieves.reduce((sum, [, cg]) => sum + cg, panCg) / 100;

async function evaluated(sheet: string, ...options: string[]): Promise<Evaluation> {
  const { code, out, err } = await run(["evaluate", "-", "--json", ...options], { stdin: sheet });
  expect({ code, err }).toEqual({ code: 0, err: "" });
  return EvaluationSchema.parse(JSON.parse(out));
}

const lawful = (law: (masses: Masses) => Promise<void>) => fc.assert(fc.asyncProperty(anyMasses, law), { numRuns: 25 });

describe("the same weighings give the same result, however they are written", () => {
  test("rows in any order", () =>
    lawful(async (masses) => {
      const turned = { ...masses, sieves: masses.sieves.toReversed() };
      expect(await evaluated(csv(turned))).toEqual(await evaluated(csv(masses)));
    }));

  test("apertures in mm", () =>
    lawful(async (masses) => {
      const inMm = `aperture_mm,net_g\n${masses.sieves.map(([um, cg]) => `${um / 1000},${cg / 100}\n`).join("")}pan,${masses.panCg / 100}\n`;
      expect(await evaluated(inMm)).toEqual(await evaluated(csv(masses)));
    }));

  test("semicolons and decimal commas", () =>
    lawful(async (masses) => {
      const comma = (n: number) => n.toFixed(2).replace(".", ",");
      const rows = masses.sieves.map(([um, cg]) => `${um};${comma(cg / 100)}\r\n`).join("");
      expect(await evaluated(`\uFEFFaperture_um;net_g\r\n${rows}pan;${comma(masses.panCg / 100)}\r\n`)).toEqual(
        await evaluated(csv(masses)),
      );
    }));

  test("JSON", () =>
    lawful(async (masses) => {
      const weighings = [
        ...masses.sieves.map(([apertureUm, cg]) => ({ apertureUm, netG: cg / 100 })),
        { pan: true, netG: masses.panCg / 100 },
      ];
      expect(await evaluated(JSON.stringify({ schema: "sievewright.sheet/1", weighings }))).toEqual(
        await evaluated(csv(masses)),
      );
    }));

  test("each sieve weighed empty and full instead of net", () =>
    lawful(async (masses) => {
      const row = (name: string | number, cg: number) => `${name},400.07,${(40_007 + cg) / 100}\n`;
      const weighed = `aperture_um,empty_g,full_g\n${masses.sieves.map(([um, cg]) => row(um, cg)).join("")}${row("pan", masses.panCg)}`;
      const net = (result: Evaluation) => ({
        ...result,
        fractions: result.fractions.map((f) => ({ ...f, emptyG: null, fullG: null })),
      });
      expect(net(await evaluated(weighed))).toEqual(await evaluated(csv(masses)));
    }));
});

describe("laws of every result", () => {
  test("passing and coarser make 100 %, retained sums to 100 %, and the curve never falls with the aperture", () =>
    lawful(async (masses) => {
      const { fractions } = await evaluated(csv(masses));
      for (const { coarserPct, passingPct } of fractions) expect(coarserPct + passingPct).toBeCloseTo(100, 9);
      expect(fractions.reduce((sum, f) => sum + f.retainedPct, 0)).toBeCloseTo(100, 9);
      const passing = fractions.map((f) => f.passingPct);
      expect(passing).toEqual(passing.toSorted((a, b) => b - a));
      expect(fractions.map((f) => f.apertureUm)).toEqual(fractions.map((f) => f.apertureUm).toSorted((a, b) => b - a));
    }));

  test("ten times the mass changes no percentage and no percentile", () =>
    lawful(async (masses) => {
      const tenfold = { sieves: masses.sieves.map(([um, cg]) => [um, 10 * cg] as const), panCg: 10 * masses.panCg };
      const [one, ten] = [await evaluated(csv(masses)), await evaluated(csv(tenfold))];
      for (const [i, fraction] of one.fractions.entries())
        expect(ten.fractions[i]?.passingPct).toBeCloseTo(fraction.passingPct, 9);
      for (const [passing, found] of Object.entries(one.percentilesUm)) {
        const other = ten.percentilesUm[passing as keyof Evaluation["percentilesUm"]];
        expect(other.determinable).toBe(found.determinable);
        if (found.determinable && other.determinable) expect(other.value).toBeCloseTo(found.value, 6);
      }
    }));

  test("percentiles rise with their number and lie between the sieves", () =>
    lawful(async (masses) => {
      const { percentilesUm, fractions } = await evaluated(csv(masses));
      const sizes = Object.values(percentilesUm).flatMap((found) => (found.determinable ? [found.value] : []));
      expect(sizes).toEqual(sizes.toSorted((a, b) => a - b));
      const [coarsest, finest] = [fractions[0]?.apertureUm ?? 0, fractions.at(-2)?.apertureUm ?? 0];
      for (const size of sizes) expect(size >= finest * (1 - 1e-12) && size <= coarsest * (1 + 1e-12)).toBe(true);
    }));

  test("what was lost is the charge less what was recovered; of the charge, it counts as passing", () =>
    lawful(async (masses) => {
      const chargeG = Number((totalG(masses) + 1.25).toFixed(2));
      const keys = `# charge_g: ${chargeG}\n`;
      const [recovered, charge] = [
        await evaluated(csv(masses, keys)),
        await evaluated(csv(masses, keys), "--basis", "charge"),
      ];
      expect(recovered.lossG).toBe(1.25);
      expect(recovered.lossPct).toBeCloseTo(125 / chargeG, 9);
      const finest = charge.fractions.at(-2);
      expect(finest?.passingPct).toBeCloseTo((100 * (masses.panCg / 100 + 1.25)) / chargeG, 9);
    }));

  test("a pan that was not weighed is what the charge leaves over", () =>
    lawful(async (masses) => {
      fc.pre(masses.sieves.some(([, cg]) => cg > 0));
      const keys = `# charge_g: ${totalG(masses)}\n`;
      const withoutPan = csv(masses, keys).replace(/pan,.*\n$/, "");
      const [assumed, weighed] = [await evaluated(withoutPan), await evaluated(csv(masses, keys))];
      expect(assumed.fractions).toEqual(weighed.fractions);
      expect(assumed.notices.map(({ id }) => id)).toContain("pan-assumed");
      expect([assumed.lossG, weighed.lossG]).toEqual([null, 0]);
    }));
});

test("page, CSV and JSON show the same figures", () =>
  lawful(async (masses) => {
    const sheet = csv(masses);
    const { fractions } = await evaluated(sheet);
    const table = (await run(["evaluate", "-", "--csv"], { stdin: sheet })).out.trimEnd().split("\r\n").slice(1);
    const page = (await run(["evaluate", "-"], { stdin: sheet })).out;
    for (const [i, fraction] of fractions.entries()) {
      const cells = table[i]?.split(",") ?? [];
      expect(cells.slice(3, 7).map(Number)).toEqual([
        fraction.netG,
        fraction.retainedPct,
        fraction.coarserPct,
        fraction.passingPct,
      ]);
      expect(page).toContain(fraction.netG.toFixed(2));
    }
  }));
