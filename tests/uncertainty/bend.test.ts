import { describe, expect, test } from "vitest";
import { normalCdf } from "../../src/grading/normal.ts";
import { INTERPOLATIONS, type Interpolation } from "../../src/record/product.ts";
import { bendU } from "../../src/uncertainty/bend.ts";
import { type Budget, budgetOf } from "../../src/uncertainty/budget.ts";
import type { Conditions } from "../../src/uncertainty/conditions.ts";
import type { Graded } from "../../src/uncertainty/graded.ts";
import type { Measurand } from "../../src/uncertainty/measurand.ts";
import { monteCarloOf } from "../../src/uncertainty/monteCarlo/monteCarlo.ts";
import { choices, fraction, gradedOf } from "../grading/stack.ts";
import { normalFrom, seeded } from "./simulation/chance.ts";
import { partOf, passingSure, uPart } from "./situations.ts";

/** A sieve of a nominal aperture, how wide its mesh really is, and what its certificate says of that. */
interface Mesh {
  readonly apertureUm: number;
  readonly trueUm: number;
  readonly certifiedUm: number;
}

type Curve = (um: number) => number;
const sandOf =
  (sigma: number, medianUm = 500): Curve =>
  (um) =>
    100 * normalCdf(Math.log(um / medianUm) / sigma);

const THREE_UM = [1000, 500, 250];
const off = (part: number, nominalUm = THREE_UM): Mesh[] =>
  nominalUm.map((apertureUm) => {
    const trueUm = apertureUm * (1 + part);
    return { apertureUm, trueUm, certifiedUm: trueUm };
  });

function sieved(passes: Curve, meshes: readonly Mesh[], interpolation: Interpolation = "log-linear"): Graded {
  const held = meshes.map(({ apertureUm, trueUm, certifiedUm }, i) => {
    const above = meshes[i - 1];
    const netG = (above ? passes(above.trueUm) : 100) - passes(trueUm);
    return { ...fraction(apertureUm, netG), meanUm: certifiedUm };
  });
  const panG = passes(meshes.at(-1)?.trueUm ?? 0);
  return { grading: gradedOf([...held, fraction(0, panG)]), choices: choices({ interpolation }) };
}

/** Every mean certified with U = 2 % and k = 2. */
const certified = (meshes: readonly Mesh[]): Conditions => ({
  apertures: {
    known: meshes.map(({ apertureUm, certifiedUm }) => ({
      apertureUm,
      meanUm: certifiedUm,
      expandedUm: certifiedUm / 50,
    })),
  },
});

const budget = (passes: Curve, meshes: readonly Mesh[], interpolation?: Interpolation): Budget =>
  budgetOf(sieved(passes, meshes, interpolation), certified(meshes), []);

describe("how a curve over mean apertures may bend where it is read at nominal ones", () => {
  const AT_500: Measurand = { kind: "passingPct", apertureUm: 500 };

  test("counts by as much as another interpolation reads otherwise: here the true error of the reading", () => {
    const found = passingSure(budget(sandOf(0.4), off(-0.05)), 500);
    const error = found.value - 50;
    // By hand: 44.90 % pass 475 um and 94.57 % pass 950 um; at 500 um a straight line over the logarithm says 48.57 %.
    expect(error).toBeCloseTo(-1.43, 2);
    const own = uPart(found, "apertures");
    expect(own).toBeGreaterThan(Math.abs(error));
    expect(found.interval.high).toBeGreaterThan(50);
    expect(own ** 2 - bendU(AT_500, sieved(sandOf(0.4), off(-0.05))) ** 2).toBeGreaterThan(0.5);
  });

  test("of a share between two nominal apertures by the difference of that very share, of percentiles not at all", () => {
    const graded = sieved(sandOf(0.4), off(0.05));
    expect(bendU({ kind: "coarserPct", apertureUm: 500 }, graded)).toBeCloseTo(bendU(AT_500, graded), 9);
    expect(bendU({ kind: "retainedPct", apertureUm: 500 }, graded)).toBeGreaterThan(0);
    expect(bendU({ kind: "percentileUm", passingPct: 50 }, graded)).toBe(0);
    expect(bendU({ kind: "value", id: "finenessModulus" }, graded)).toBe(0); // three sieves have no modulus
  });

  test("of a value over a series of sieves by the difference of that value, of others not at all", () => {
    const screened: Curve = (um) => (um > 6000 ? 100 : sandOf(0.6)(um));
    const series = sieved(screened, off(-0.05, [9500, 4750, 2360, 1180, 600, 300, 150]));
    expect(bendU({ kind: "value", id: "finenessModulus" }, series)).toBeGreaterThan(0.001);
    expect(bendU({ kind: "value", id: "uniformityCoefficient" }, series)).toBe(0);
  });

  test("is nothing where the mean is the nominal aperture, and over nominal apertures", () => {
    expect(bendU(AT_500, sieved(sandOf(0.4), off(0)))).toBe(0);
    const { grading, choices: chosen } = sieved(sandOf(0.4), off(-0.05));
    const nominal = gradedOf(grading.rows.map(({ apertureUm, netG }) => fraction(apertureUm, netG)));
    expect(bendU(AT_500, { grading: nominal, choices: chosen })).toBe(0);
  });

  test("counts also where all sieves are taken as exact, and is switched off with the apertures", () => {
    const graded = sieved(sandOf(0.4), off(-0.05));
    const exact = passingSure(budgetOf(graded, { apertures: { others: "exact" } }, []), 500);
    expect(uPart(exact, "apertures")).toBeCloseTo(bendU(AT_500, graded), 12);
    const without = budgetOf(graded, { ...certified(off(-0.05)), off: ["apertures"] }, []);
    expect(partOf(passingSure(without, 500), "apertures").included).toBe(false);
    expect(passingSure(without, 500).u).toBe(0);
  });

  test("is drawn too, as wide as first order has it", () => {
    const graded = sieved(sandOf(0.4), off(-0.05));
    const [drawn] = monteCarloOf(graded, certified(off(-0.05)), [AT_500], seeded(3)).results;
    const { u } = passingSure(budgetOf(graded, certified(off(-0.05)), []), 500);
    if (!drawn?.determinable) throw new Error("not drawn");
    expect(drawn.u / u).toBeGreaterThan(0.95);
    expect(drawn.u / u).toBeLessThan(1.05);
  });
});

test.each(INTERPOLATIONS)(
  "simulated log-normal sands on sieves up to six in a hundred off, %s: U holds the true passing at least 19 times in 20",
  (interpolation) => {
    const random = seeded(20261201);
    let [held, all] = [0, 0];
    for (let run = 0; run < 400; run++) {
      const truth = sandOf(0.4 + 0.4 * random(), 500 * Math.exp(0.7 * (random() - 0.5)));
      const meshes = THREE_UM.map((apertureUm): Mesh => {
        const trueUm = apertureUm * (1 + 0.12 * (random() - 0.5));
        return { apertureUm, trueUm, certifiedUm: trueUm * (1 + 0.01 * normalFrom(random)) };
      });
      for (const found of budget(truth, meshes, interpolation).passing) {
        if (!found.determinable || !("apertureUm" in found.on)) continue;
        all += 1;
        if (Math.abs(truth(found.on.apertureUm) - found.value) <= found.U) held += 1;
      }
    }
    expect(all).toBeGreaterThan(600);
    expect(held / all).toBeGreaterThan(0.95);
  },
);
