import { describe, expect, test } from "vitest";
import { normalCdf } from "../../../src/grading/normal.ts";
import { expectNear } from "../near.ts";
import { assumptionsOf, fraction, graded, gradedOf } from "../stack.ts";
import { number, reason, resultOf } from "./valuesOf.ts";

const grain = { particleDensityKgM3: 1320 };

/** A log-normal of 600 um and ratio 2, cut so finely that classes are points: twelve deviations on 2000 sieves. */
const fine = (() => {
  const edges = Array.from({ length: 2001 }, (_, i) => 6 - i * 0.006);
  const sieves = edges.map((z, i) =>
    fraction(600 * 2 ** z, 1e4 * Math.max(0, normalCdf(edges[i - 1] ?? z) - normalCdf(z))),
  );
  return gradedOf([...sieves, fraction(0, 0)]);
})();

describe("worked by hand: half on 1 mm (up to 4 mm), half on 250 um (up to 1 mm)", () => {
  const twoHeaps = graded("4000:0 1000:50 250:50 pan:0");

  test("the class sizes are 2 mm and 500 um, their geometric mean 1 mm, their ratio to it 2", () => {
    expectNear(number("geometricMeanDiameterUm", twoHeaps), 1000, 1e-14);
    expectNear(number("geometricStandardDeviation", twoHeaps), 2, 1e-14);
    expectNear(number("geometricStandardDeviationUm", twoHeaps), (1000 / 2) * (2 - 1 / 2), 1e-14);
  });

  test("surface and number per gram of cubes, sizes in cm", () => {
    const s = Math.LN2;
    const material = { material: grain };
    expectNear(
      number("surfaceAreaCm2PerG", twoHeaps, material),
      (6 / 1.32) * Math.exp(s * s * 0.5 - Math.log(0.1)),
      1e-13,
    );
    expectNear(number("particlesPerG", twoHeaps, material), Math.exp(4.5 * s * s - 3 * Math.log(0.1)) / 1.32, 1e-13);
  });

  test("the product's shape factors beat the cube", () => {
    const material = { ...grain, surfaceShapeFactor: Math.PI, volumeShapeFactor: Math.PI / 6 };
    const cubes = { material: grain };
    const spheres = { material };
    expectNear(number("surfaceAreaCm2PerG", twoHeaps, spheres), number("surfaceAreaCm2PerG", twoHeaps, cubes), 1e-14);
    const ratio = number("particlesPerG", twoHeaps, spheres) / number("particlesPerG", twoHeaps, cubes);
    expectNear(ratio, 6 / Math.PI, 1e-14);
    expect(assumptionsOf(resultOf("particlesPerG", twoHeaps, spheres))).toEqual([]);
    expect(assumptionsOf(resultOf("particlesPerG", twoHeaps, cubes))).toEqual(["shape: cubes (shape factors 6 and 1)"]);
  });
});

describe("a finely cut log-normal gives back what it was made of", () => {
  test("its median and its spread", () => {
    expectNear(number("geometricMeanDiameterUm", fine), 600, 1e-4);
    expectNear(number("geometricStandardDeviation", fine), 2, 1e-4);
  });

  test("the surface of its cubes, summed size by size", () => {
    const perG = number("surfaceAreaCm2PerG", fine, { material: grain });
    const summed = number("specificSurfaceM2PerKg", fine, { material: grain, classMean: "geometric" });
    expectNear(perG, summed * 10, 1e-3);
  });
});

test("all in one class: its size, ratio 1, no spread in um", () => {
  const one = graded("2000:0 500:80 250:0 pan:0");
  expectNear(number("geometricMeanDiameterUm", one), 1000, 1e-15);
  expect(number("geometricStandardDeviation", one)).toBe(1);
  expect(number("geometricStandardDeviationUm", one)).toBe(0);
});

test("density is never assumed", () => {
  for (const id of ["surfaceAreaCm2PerG", "particlesPerG", "specificSurfaceM2PerKg"] as const) {
    expect(reason(id, graded("1000:10 pan:3"))).toBe("needs the particle density of the product");
  }
});

test("the ends' reasons and assumptions reach the value", () => {
  const open = graded("1000:90 pan:10");
  expect(assumptionsOf(resultOf("geometricMeanDiameterUm", open))).toEqual([
    "the 90 % on the 1.00 mm sieve taken to pass 1.40 mm, the next size of R20/3",
    "the pan's 10 % taken to lie between 500 um (half the finest aperture) and 1.00 mm",
  ]);
  expect(reason("geometricMeanDiameterUm", open, { topUm: 900 })).toMatch(/^the product's top size of 900 um/);
  expect(reason("particlesPerG", open, { material: grain, pan: { sizeUm: 2000 } })).toMatch(
    /^the pan's size of 2.00 mm/,
  );
});
