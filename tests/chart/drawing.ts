import fc from "fast-check";
import { expect } from "vitest";
import type { EnvelopeBound, PassingPoint } from "../../src/chart/passingChart.ts";

/** The passing curve of sieves given as "1400:98.1 1000:79.3", coarsest first; log-linear between them, nothing beyond. */
export function sand(grading: string): { points: PassingPoint[]; passingAt: (sizeUm: number) => number | null } {
  const points = grading
    .split(" ")
    .filter((part) => part !== "")
    .map((part) => part.split(":").map(Number))
    .map(([apertureUm = 0, passingPct = 0]) => ({ apertureUm, passingPct }));
  return { points, passingAt: logLinear(points) };
}

export function logLinear(points: readonly PassingPoint[]): (sizeUm: number) => number | null {
  return (sizeUm) => {
    const exact = points.find((p) => p.apertureUm === sizeUm);
    if (exact) return exact.passingPct;
    const below = points.findIndex((p) => p.apertureUm < sizeUm);
    const [coarser, finer] = [points[below - 1], points[below]];
    if (!coarser || !finer) return null;
    const share = Math.log(sizeUm / finer.apertureUm) / Math.log(coarser.apertureUm / finer.apertureUm);
    return finer.passingPct + share * (coarser.passingPct - finer.passingPct);
  };
}

/** An envelope given as "1000:75-95 500:-30 355:8-", coarsest first. */
export const envelope = (limits: string): EnvelopeBound[] =>
  limits.split(" ").map((limit) => {
    const [, aperture, min, max] = /^([\d.]+):([\d.]*)-([\d.]*)$/.exec(limit)!;
    return { apertureUm: Number(aperture), minPct: min ? Number(min) : null, maxPct: max ? Number(max) : null };
  });

/** A drawing without the spaces at the ends of its rows, to be compared with one written in a test. */
export const picture = (rows: readonly string[]): string => `\n${rows.map((row) => row.trimEnd()).join("\n")}\n`;

/** `height` rows of exactly `width` columns, each character one column wide. */
export function expectToFill(rows: readonly string[], width: number, height: number): void {
  expect(rows.length).toBe(Math.max(0, height));
  for (const row of rows) {
    expect([...row].length).toBe(Math.max(0, width));
    expect(row).toMatch(/^[\x20-\x7e\u2500-\u25ff]*$/);
    expect(row).not.toMatch(/NaN|undefined|null|Infinity/);
  }
}

export const anyWidth = fc.integer({ min: 0, max: 140 });
export const anyHeight = fc.integer({ min: 0, max: 60 });

/** Any stack, from one sieve to 64, over up to six powers of ten, with passing % that never rises towards the finer. */
export const anyPoints: fc.Arbitrary<PassingPoint[]> = fc
  .uniqueArray(fc.integer({ min: 1, max: 125_000_000 }), { maxLength: 64 })
  .chain((sizes) =>
    fc
      .array(fc.double({ min: 0, max: 100, noNaN: true }), { minLength: sizes.length, maxLength: sizes.length })
      .map((pcts) => {
        const apertures = sizes.toSorted((a, b) => b - a);
        const passing = pcts.toSorted((a, b) => b - a);
        return apertures.map((apertureUm, i) => ({ apertureUm: apertureUm / 1000, passingPct: passing[i]! }));
      }),
  );
