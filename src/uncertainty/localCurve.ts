import { normalCdf, normalQuantile } from "../grading/normal.ts";
import { standsAtUm } from "../grading/standsAt.ts";
import { topBoundUm } from "./classBounds.ts";
import type { Graded } from "./graded.ts";

/**
 * The passing curve close to one sieve. On a probability scale, `z = Phi^-1(P)`, it is a parabola in t = ln(size /
 * aperture); where z has no place beside the sieve, P itself is a straight line in t.
 */
export interface LocalCurve {
  readonly passingPct: number;
  /** Slope at the sieve itself in % passing per unit of ln aperture; never negative. */
  readonly slopePctPerLn: number;
  /** Passing % at a size near the sieve. */
  readonly passingPctAt: (sizeUm: number) => number;
}

interface Point {
  readonly um: number;
  readonly pct: number;
}

const hasPlace = ({ pct }: Point): boolean => pct > 0 && pct < 100;
const probit = ({ pct }: Point): number => normalQuantile(pct / 100);

/** Slope and bend of the parabola through the origin and one or two neighbours, in units of y per x and per x^2. */
interface Parabola {
  readonly slope: number;
  readonly bend: number;
}

function parabola(neighbours: readonly { readonly x: number; readonly y: number }[]): Parabola {
  const [first, second] = neighbours;
  if (!first) return { slope: 0, bend: 0 };
  const one = first.y / first.x;
  if (!second) return { slope: one, bend: 0 };
  const two = second.y / second.x;
  const bend = (one - two) / (first.x - second.x);
  return { slope: one - bend * first.x, bend };
}

/** As far as the parabola rises; beyond its turn it stays where it turned. */
function risingAt({ slope, bend }: Parabola, t: number): number {
  const turn = bend === 0 ? Number.POSITIVE_INFINITY : -slope / (2 * bend);
  const held = bend < 0 ? Math.min(t, turn) : Math.max(t, -Math.abs(turn));
  return held * (slope + bend * held);
}

const density = (z: number): number => Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);

function onProbits(own: Point, neighbours: readonly Point[]): LocalCurve {
  const z = probit(own);
  const shape = parabola(neighbours.map((n) => ({ x: Math.log(n.um / own.um), y: probit(n) - z })));
  return {
    passingPct: own.pct,
    slopePctPerLn: 100 * density(z) * shape.slope,
    passingPctAt: (um) => 100 * normalCdf(z + risingAt(shape, Math.log(um / own.um))),
  };
}

/** The mean of the two chords, for a sieve with nothing but 0 and 100 % beside it. */
function onPercent(own: Point, neighbours: readonly Point[]): LocalCurve {
  const chords = neighbours.map((n) => (n.pct - own.pct) / Math.log(n.um / own.um));
  const slopePctPerLn = chords.reduce((sum, chord) => sum + chord, 0) / chords.length;
  const passingPctAt = (um: number) => Math.min(100, Math.max(0, own.pct + slopePctPerLn * Math.log(um / own.um)));
  return { passingPct: own.pct, slopePctPerLn, passingPctAt };
}

/**
 * The passing curve close to a sieve (0 the coarsest), from the sieve and its two neighbours. A log-linear curve has no
 * slope at a sieve, only one to either side of it, and in the tails these differ by a factor; on a probability scale
 * gradings bend little, and a log-normal one is met exactly. A neighbour that passes 0 or 100 % has no place on that
 * scale and is left out; if no neighbour has one, the mean of the chords counts, the open ends of CP-9 included. A
 * sieve that itself passes 0 or 100 % has slope 0.
 *
 * @source common practice, no source; checked against log-normal and log-logistic curves, whose slopes are known
 */
export function localCurve(graded: Graded, row: number): LocalCurve {
  const sieves = graded.grading.rows.filter((r) => r.apertureUm > 0);
  const points = sieves.map((r): Point => ({ um: standsAtUm(r), pct: r.passingPct }));
  const own = points[row] ?? { um: 1, pct: 0 };
  if (!hasPlace(own)) return { passingPct: own.pct, slopePctPerLn: 0, passingPctAt: () => own.pct };
  const above = points[row - 1] ?? { um: topBoundUm(graded), pct: 100 };
  const below = points[row + 1] ?? { um: own.um / 2, pct: 0 };
  const placed = [above, below].filter(hasPlace);
  return placed.length > 0 ? onProbits(own, placed) : onPercent(own, [above, below]);
}
