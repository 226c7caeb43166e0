import { figure } from "../words/figures.ts";
import type { Axis, Tick } from "./plotArea.ts";

const TICK_EVERY_ROWS = 4;
/** Below this nothing of ours differs, and binary fractions would make steps of their own. */
const LEAST = 1e-9;

/** 1, 2 or 5 times a power of ten, at least `rough`. */
function roundStep(rough: number): number {
  const power = 10 ** Math.floor(Math.log10(rough));
  return ([1, 2, 5, 10].find((m) => m * power >= rough * (1 - 1e-9)) ?? 10) * power;
}

const decimalsOf = (step: number): number => Math.min(6, Math.max(0, -Math.floor(Math.log10(step) + 1e-9)));

/** Round numbers between two values, as many as `rows` have room for, the ends first; none if they are all but equal. */
export function valueTicks(from: number, to: number, rows: number): Tick[] {
  const wanted = Math.max(1, Math.floor(rows / TICK_EVERY_ROWS));
  if (!(to - from > LEAST)) return [];
  const step = roundStep((to - from) / wanted);
  const first = Math.ceil(from / step - 1e-9);
  const last = Math.floor(to / step + 1e-9);
  const ticks = Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => {
    const at = (first + i) * step;
    return { at, label: figure(at.toFixed(decimalsOf(step)).replace(/^-(0(?:\.0*)?)$/, "$1")) };
  });
  return [...ticks.slice(-1), ...ticks.slice(0, -1)];
}

/** An axis from 0 to a round number at or above `greatest`, in two or four round steps, as the rows allow. */
export function axisFromZero(greatest: number, rows: number): Axis {
  if (!(greatest > LEAST)) return { from: 0, to: 1, ticks: [{ at: 0, label: "0" }] };
  const step = roundStep(greatest / (rows >= 8 ? 4 : 2));
  const steps = Math.ceil(greatest / step - 1e-9);
  const ticks = Array.from({ length: steps + 1 }, (_, i) => ({
    at: i * step,
    label: figure((i * step).toFixed(decimalsOf(step))),
  }));
  return { from: 0, to: steps * step, ticks };
}
