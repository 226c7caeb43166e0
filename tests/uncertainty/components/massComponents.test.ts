import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { budgetOf } from "../../../src/uncertainty/budget.ts";
import { type Component, causesOf } from "../../../src/uncertainty/components/component.ts";
import { componentsOf } from "../../../src/uncertainty/components/components.ts";
import { endPoint } from "../../../src/uncertainty/components/endPoint.ts";
import { closureU, loss } from "../../../src/uncertainty/components/loss.ts";
import type { Conditions } from "../../../src/uncertainty/conditions.ts";
import { grainsOf } from "../../../src/uncertainty/grainCount.ts";
import { expectNear } from "../../grading/near.ts";
import { ALL_KNOWN, askedSure, partOf, passingSure, sand, testOf, uPart } from "../situations.ts";

const reasonOf = (component: Component | undefined): string => {
  if (!component || component.included) throw new Error("it is included");
  return component.reason;
};

const find = (conditions: Conditions, id: string, graded = sand({ chargeG: 300.6 })): Component | undefined =>
  componentsOf(graded, conditions).find((component) => component.id === id);

describe("loss", () => {
  const lossy = testOf("2000:20 1000:50 pan:30", { chargeG: 101 });

  test("a spill by share of the mass: u(Q) = L/M sqrt(Q (1 - Q))", () => {
    const { passing } = budgetOf(lossy, { loss: { dustShare: 0 } }, []);
    const u = passing.map((sure) => (sure.determinable ? sure.u : -1));
    expectNear(u[0]!, 100 * (1 / 100) * Math.sqrt(0.8 * 0.2), 1e-12);
    expectNear(u[1]!, 100 * (1 / 100) * Math.sqrt(0.3 * 0.7), 1e-12);
  });

  test("dust: everything lost belongs to what passes, u(Q) = L/M (1 - Q)", () => {
    const budget = budgetOf(lossy, { loss: { dustShare: 1 } }, []);
    expectNear(passingSure(budget, 1000).u, 100 * (1 / 100) * 0.7, 1e-12);
  });

  test("half and half if nothing is said", () => {
    const u = passingSure(budgetOf(lossy, {}, []), 1000).u;
    expectNear(u, Math.sqrt((0.3 * 0.7 + 0.7 ** 2) / 2), 1e-12);
  });

  test("a gain counts like a loss", () => {
    const gained = testOf("2000:20 1000:50 pan:30", { chargeG: 99 });
    expectNear(passingSure(budgetOf(gained, {}, []), 1000).u, passingSure(budgetOf(lossy, {}, []), 1000).u, 1e-12);
  });

  test("of the charge: a spill back on a sieve makes all above it coarser, L/B sqrt(q)", () => {
    const ofCharge = testOf("2000:20 1000:50 pan:30", { chargeG: 101, basis: "charge" });
    const u = passingSure(budgetOf(ofCharge, { loss: { dustShare: 0 } }, []), 1000).u;
    expectNear(u, (100 / 101) * Math.sqrt(0.7), 1e-12);
  });

  test("a gap of nothing proves nothing where the balance cannot resolve it: E[L^2] = gap^2 + u^2", () => {
    const closed = testOf("2000:20 1000:50 pan:30", { chargeG: 100 });
    const component = find({ balance: { repeatabilityG: 0.2 }, loss: { dustShare: 1 } }, "loss", closed);
    expectNear(component?.included ? component.causes[2]!.byMassG[2]! : 0, Math.sqrt(8) * 0.2, 1e-12);
    const exact = find({}, "loss", closed);
    expect(exact?.included && exact.causes).toEqual([]);
  });

  test("a gap that the balance sees and what it leaves open add in squares", () => {
    const ofBalance = componentsOf(lossy, { balance: { repeatabilityG: 0.2 } }).slice(0, 4);
    const u = closureU(lossy, causesOf(ofBalance));
    expectNear(u, Math.sqrt(8) * 0.2, 1e-12);
    const component = loss(lossy, causesOf(ofBalance), 1);
    const pan = component.included ? component.causes[2]!.byMassG[2]! : 0;
    expectNear(pan, Math.hypot(1, u), 1e-12);
  });

  test("the drift of all sieves is in the closure's own uncertainty", () => {
    const ofDrift = componentsOf(lossy, { balance: { driftG: 0.3 } }).slice(0, 4);
    expectNear(closureU(lossy, causesOf(ofDrift)), (3 * 0.3) / Math.sqrt(3), 1e-12);
  });

  test("is not known without charge or without a weighed pan", () => {
    expect(reasonOf(find({}, "loss", sand()))).toMatch(/charge was not weighed/);
    expect(reasonOf(find({}, "loss", { ...lossy, panAssumed: true }))).toMatch(/pan was not weighed/);
  });
});

describe("apertures", () => {
  const certificate = (expandedUm: number, meanUm = 1000, coverageFactor?: number): Conditions => ({
    apertures: {
      known: [
        { apertureUm: 2000, meanUm: 2000, expandedUm: 0 },
        { apertureUm: 1000, meanUm, expandedUm, ...(coverageFactor ? { coverageFactor } : {}) },
        { apertureUm: 500, meanUm: 500, expandedUm: 0 },
      ],
    },
  });
  const bell = testOf("2000:16 1000:34 500:34 pan:16");

  test("a certificate's U of 20 um at 1 mm moves passing % by 1 % of ln aperture times the slope", () => {
    const slope = (100 * 0.3989422804014327 * 2 * 0.994457883209753) / Math.log(4);
    const u = passingSure(budgetOf(bell, certificate(20), []), 1000).u;
    expectNear(u, slope * 0.01, 1e-9);
  });

  test("a coverage factor of the certificate is divided out", () => {
    const u = (conditions: Conditions) => passingSure(budgetOf(bell, conditions, []), 1000).u;
    expectNear(u(certificate(30, 1000, 3)), u(certificate(20)), 1e-12);
  });

  test("a certified deviation that nobody corrected for counts in full", () => {
    const u = (conditions: Conditions) => passingSure(budgetOf(bell, conditions, []), 1000).u;
    expectNear(u(certificate(20, 1020)), u(certificate(20)) * Math.sqrt(1 + 4), 1e-12);
  });

  test("an aperture moves mass between its own row and the next finer one, and changes no other passing %", () => {
    const budget = budgetOf(bell, certificate(20), [
      { kind: "retainedPct", apertureUm: 1000 },
      { kind: "retainedPct", apertureUm: 500 },
      { kind: "retainedPct", apertureUm: 2000 },
    ]);
    const own = passingSure(budget, 1000).u;
    expectNear(passingSure(budget, 500).u, 0, 0, 1e-12);
    expectNear(askedSure(budget, "retainedPct@1000").u, own, 1e-12);
    expectNear(askedSure(budget, "retainedPct@500").u, own, 1e-12);
    expectNear(askedSure(budget, "retainedPct@2000").u, 0, 0, 1e-12);
  });

  test("without certificate the tolerance Y of the series, evenly: Y / sqrt 3", () => {
    const budget = budgetOf(bell, { apertures: {} }, []);
    const yUm = 1000 ** 0.98 / 27 + 1.6;
    const ratio = passingSure(budget, 1000).u / passingSure(budgetOf(bell, certificate(20), []), 1000).u;
    expectNear(ratio, yUm / Math.sqrt(3) / 10, 1e-9);
  });

  test("a sieve outside the series without a certificate is not counted, with its name, and the others are", () => {
    const fine = testOf("1000:20 500:20 10:30 pan:30");
    const found = find({ apertures: {} }, "apertures", fine);
    if (!found?.included) throw new Error("left out");
    expect(found.told).toMatch(/all 2 sieves within the tolerance Y; not counted: 10 um: neither a certificate/);
    expect(uPart(passingSure(budgetOf(fine, { apertures: {} }, []), 500), "apertures")).toBeGreaterThan(0);
    const alone = testOf("15:20 10:50 pan:30");
    expect(reasonOf(find({ apertures: {} }, "apertures", alone))).toMatch(/15 um, 10 um: neither a certificate/);
    expect(reasonOf(find({}, "apertures"))).toMatch(/nothing is said/);
  });
});

describe("grains", () => {
  /** Classes so narrow that all grains of one weigh the same. */
  const narrow = (coarseG: number, fineG: number) => testOf(`1001:0 1000:${coarseG} 501:0 500:${fineG} pan:0`);
  const density: Conditions = { material: { particleDensityKgM3: 2000, volumeShapeFactor: 1 } };
  const [coarseGrainG, fineGrainG] = [2e-3 * 1.0005 ** 3, 2e-3 * 0.5005 ** 3];

  test("a class of cubes holds its mass over the mass of a cube", () => {
    const rows = grainsOf(narrow(10, 10), density.material)!;
    expectNear(rows[1]!.grains, 10 / coarseGrainG, 1e-5);
    expectNear(rows[1]!.grainG, coarseGrainG, 1e-5);
    expectNear(rows[3]!.grains, 10 / fineGrainG, 1e-5);
  });

  test("spheres if no shape is given: pi/6 of the cube, so more grains", () => {
    const spheres = grainsOf(narrow(10, 10), { particleDensityKgM3: 2000 })!;
    expectNear(spheres[1]!.grains, (6 / Math.PI) * (10 / coarseGrainG), 1e-5);
  });

  test("two kinds of grains: u^2(Q) = [(1 - Q)^2 sum of finer w m + Q^2 sum of coarser w m] / M^2", () => {
    const [coarse, fine] = [40, 60];
    const u = passingSure(budgetOf(narrow(coarse, fine), density, []), 1000).u / 100;
    const spare = 1 / 2;
    const square =
      (0.4 ** 2 * (fine * fineGrainG + spare * fineGrainG ** 2) +
        0.6 ** 2 * (coarse * coarseGrainG + spare * coarseGrainG ** 2)) /
      100 ** 2;
    // The empty rows just above each class may hold half a grain as well.
    const empty = (spare * (0.6 ** 2 * coarseGrainG ** 2 + 0.6 ** 2 * fineGrainG ** 2)) / 100 ** 2;
    expectNear(u, Math.sqrt(square + empty), 0.002);
  });

  test("of many equal grains it is the binomial sqrt(Q (1 - Q) / n)", () => {
    const alike = testOf("1001:0 1000:3000 999:7000 pan:0");
    const grains = 10_000 / (2e-3 * 1);
    const u = passingSure(budgetOf(alike, density, []), 1000).u / 100;
    expectNear(u, Math.sqrt((0.3 * 0.7) / grains), 0.003);
  });

  test("basis recovered or charge makes no difference: the charge keeps its mass", () => {
    const text = "2000:10 1000:20 500:40 pan:30";
    const recovered = budgetOf(testOf(text, { chargeG: 100 }), density, []);
    const charge = budgetOf(testOf(text, { chargeG: 100, basis: "charge" }), density, []);
    for (const um of [2000, 1000, 500]) {
      expectNear(uPart(passingSure(charge, um), "grains"), uPart(passingSure(recovered, um), "grains"), 1e-9);
    }
  });

  test("four times the charge halves it where the counts are large", () => {
    const u = (times: number) =>
      passingSure(budgetOf(testOf(`500:${100 * times} 250:${200 * times} pan:${30 * times}`), density, []), 500).u;
    expectNear(u(1) / u(4), 2, 0.001);
  });

  test("nothing above the coarsest grain is not certainty: half a grain may have been missed", () => {
    const sure = passingSure(budgetOf(testOf("4000:0 2000:0 1000:50 pan:50"), density, []), 2000);
    expect(sure.value).toBe(100);
    expect(sure.u).toBeGreaterThan(0);
    expect(sure.interval.high).toBe(100);
    const further = passingSure(budgetOf(testOf("4000:0 2000:0 1000:50 pan:50"), density, []), 4000);
    expect(uPart(further, "grains")).toBe(0);
  });

  test("needs a particle density, and is nothing where the whole sample was sieved", () => {
    expect(reasonOf(find({}, "grains"))).toMatch(/particle density/);
    const whole: Conditions = { ...density, sampling: { kind: "fundamental", sampleG: 300 } };
    expect(reasonOf(find(whole, "grains"))).toMatch(/whole sample/);
  });
});

describe("sampling", () => {
  test("a stated 0.8 % at 50 % is 2 x 0.8 sqrt(Q (1 - Q)) anywhere", () => {
    const budget = budgetOf(sand(), { sampling: { kind: "stated", sdPctAt50: 0.8 } }, []);
    for (const sure of budget.passing) {
      const { value, u } = sure.determinable ? sure : { value: 0, u: -1 };
      expectNear(u, 2 * 0.8 * Math.sqrt((value / 100) * (1 - value / 100)), 1e-9);
    }
  });

  const density = { particleDensityKgM3: 2650 };
  const stages = (sampleG: number, lotG?: number, grouping?: number): Conditions => ({
    material: density,
    sampling: {
      kind: "fundamental",
      sampleG,
      ...(lotG === undefined ? {} : { lotG }),
      ...(grouping === undefined ? {} : { grouping }),
    },
  });
  const squareOf = (conditions: Conditions, id: "grains" | "sampling") => {
    const part = partOf(passingSure(budgetOf(sand(), conditions, []), 1000), id);
    return part.included ? part.u ** 2 : 0;
  };
  const endless = squareOf({ material: density }, "grains");

  test("Gy: stages add, 1/M_charge - 1/M_sample and 1/M_sample - 1/M_lot make 1/M_charge - 1/M_lot", () => {
    const conditions = stages(1200, 6000);
    const both = squareOf(conditions, "grains") + squareOf(conditions, "sampling");
    expectNear(both, endless * (1 - 300 / 6000), 0.002);
  });

  test("Gy: a charge that is the whole sample leaves everything to the sampling", () => {
    expect(squareOf(stages(300), "grains")).toBe(0);
    expectNear(squareOf(stages(300), "sampling"), endless, 0.02);
  });

  test("Gy: a sample that is the lot leaves nothing", () =>
    expect(reasonOf(find(stages(5000, 5000), "sampling", sand()))).toMatch(/sample is the lot/));

  test("Gy: grouping and segregation come on top as a multiple of all stages", () => {
    const plain = squareOf(stages(1200, 6000), "sampling");
    const grouped = squareOf(stages(1200, 6000, 1), "sampling");
    expectNear(grouped / plain, (300 / 1200 - 300 / 6000 + (1 - 300 / 6000)) / (300 / 1200 - 300 / 6000), 1e-9);
  });

  test("Gy's error needs the density; nothing said is nothing included", () => {
    expect(reasonOf(find({ sampling: { kind: "fundamental", sampleG: 900 } }, "sampling"))).toMatch(/density/);
    expect(reasonOf(find({}, "sampling"))).toMatch(/nothing is said/);
  });
});

describe("end point", () => {
  test("each sieve holds back up to r: u(P) = r / sqrt 3", () => {
    const budget = budgetOf(sand(), { endPoint: { remainderPct: 0.5 } }, []);
    for (const um of [2000, 1000, 125]) expectNear(passingSure(budget, um).u, 0.5 / Math.sqrt(3), 1e-9);
  });

  test("a sieve cannot hold back more than it holds", () => {
    const budget = budgetOf(testOf("2000:0 1000:0.3 500:60 pan:39.7"), { endPoint: { remainderPct: 1 } }, []);
    expect(passingSure(budget, 2000).u).toBe(0);
    expectNear(passingSure(budget, 1000).u, 0.3 / Math.sqrt(3), 1e-9);
  });

  test("a check minute says it sieve by sieve", () => {
    const movedG = [{ apertureUm: 1000, massG: 0.6 }];
    const budget = budgetOf(sand(), { endPoint: { movedG } }, []);
    expectNear(passingSure(budget, 1000).u, 0.2 / Math.sqrt(3), 1e-9);
    expect(passingSure(budget, 500).u).toBe(0);
  });

  test("it is one cause on all sieves: what one holds back, all hold back", () => {
    const component = endPoint(sand(), { remainderPct: 0.5 });
    expect(component.included && component.causes).toHaveLength(1);
    expect(reasonOf(endPoint(sand(), undefined))).toMatch(/how far sieving had come/);
  });
});

test("components come in their order, each included or with a reason, and can be switched off one by one", () => {
  const all = componentsOf(sand({ chargeG: 301 }), ALL_KNOWN);
  expect(all.every((component) => component.included)).toBe(true);
  fc.assert(
    fc.property(fc.constantFrom(...all.map((component) => component.id)), (id) => {
      const some = componentsOf(sand({ chargeG: 301 }), { ...ALL_KNOWN, off: [id] });
      expect(some.map((component) => component.id)).toEqual(all.map((component) => component.id));
      expect(some.filter((component) => !component.included).map((component) => component.id)).toEqual([id]);
      expect(reasonOf(some.find((component) => component.id === id))).toBe("switched off by the product");
    }),
  );
});
