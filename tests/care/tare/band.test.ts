import { expect, test } from "vitest";
import { isOutside, tareBand } from "../../../src/care/tare/band.ts";

const BY_CENTIGRAM = { readabilityG: 0.01 };

test("the band lies as far either way as a change is told from about the cleaned level", () => {
  expect(tareBand({ levelG: 400, toldFromG: 0.5 })).toEqual({ levelG: 400, lowG: 399.5, highG: 400.5 });
  expect(tareBand({ levelG: null, toldFromG: null })).toBeNull();
  expect(tareBand(null)).toBeNull();
});

test("a mass on the edge lies within, one readability further without, whatever binary fractions say", () => {
  for (const levelG of [400.1, 426.9, 350.03, 512.77]) {
    const band = tareBand({ levelG, toldFromG: 0.05 });
    if (band === null) throw new Error("no band");
    const at = (steps: number) => Number((levelG + steps * 0.01).toFixed(2));
    expect([-5, 0, 5].map((steps) => isOutside(band, at(steps), BY_CENTIGRAM))).toEqual([false, false, false]);
    expect([-6, 6].map((steps) => isOutside(band, at(steps), BY_CENTIGRAM))).toEqual([true, true]);
  }
});
