import type { Axis, Tick } from "./plotArea.ts";

const tick = (pct: number): Tick => ({ at: pct, label: String(pct) });

/** 0 to 100 %, labelled as finely as the rows allow: the ends first, then the half, quarters or tenths. */
export function percentAxis(rows: number): Axis {
  const between = rows >= 21 ? [50, 10, 20, 30, 40, 60, 70, 80, 90] : rows >= 9 ? [50, 25, 75] : rows >= 5 ? [50] : [];
  return { from: 0, to: 100, ticks: [100, 0, ...between].map(tick) };
}
