import { figure } from "../words/figures.ts";
import type { Axis, Tick } from "./plotArea.ts";

/** What a lone sieve stands in the middle of, as a ratio. */
const LONE_SPAN = Math.log10(2);
const MARGIN = 0.02;

const shortest = (size: number): string => figure(String(Number(size.toPrecision(3))));

/** A sieve under its aperture at its place on an axis: um below 1 mm, mm from 1 mm, without idle zeros. */
export function sizeTick(apertureUm: number, at: number = Math.log10(apertureUm)): Tick {
  return apertureUm < 1000
    ? { at, label: shortest(apertureUm), unit: "um" }
    : { at, label: shortest(apertureUm / 1000), unit: "mm" };
}

/** Whether a number has a place on a logarithmic axis of size. */
export const isSize = (sizeUm: number): boolean => sizeUm > 0 && Number.isFinite(sizeUm);

/** A size on the axis, and back. */
export const sizeAt = (sizeUm: number): number => Math.log10(sizeUm);
export const sizeOf = (at: number): number => 10 ** at;

/**
 * A logarithmic axis of size, fine to the left, that holds all of `sizesUm` (those above 0), with a tick for each of
 * `aperturesUm`. One aperture alone stands in the middle; without any there is nothing to draw on, and it is null.
 */
export function sizeAxis(aperturesUm: readonly number[], sizesUm: readonly number[] = []): Axis | null {
  const apertures = [...new Set(aperturesUm.filter(isSize))].toSorted((a, b) => a - b);
  const logs = [...apertures, ...sizesUm.filter(isSize)].map(sizeAt);
  if (logs.length === 0) return null;
  const finest = Math.min(...logs);
  const coarsest = Math.max(...logs);
  const margin = finest === coarsest ? LONE_SPAN : MARGIN * (coarsest - finest);
  return { from: finest - margin, to: coarsest + margin, ticks: apertures.map((um) => sizeTick(um)) };
}
