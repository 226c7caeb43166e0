import { type Cause, type Component, type CountedRow, causesOf } from "../components/component.ts";
import { SPARE } from "../components/grains.ts";
import { type Graded, type Masses, massesOf, panAt } from "../graded.ts";
import type { Chance, Random } from "./chance.ts";

/** Adds one draw of something to a list of masses. */
export type Disturb = (masses: Masses) => void;

const ROOT3 = Math.sqrt(3);

/** Many causes in flat lists, without the masses that they leave alone: fast to run through. */
interface Bundle {
  readonly count: number;
  /** Where each cause begins in the two lists below; one more than there are causes. */
  readonly starts: Int32Array;
  readonly at: Int32Array;
  readonly byG: Float64Array;
}

function bundled(causes: readonly Cause[]): Bundle {
  const entries = causes.map(({ byMassG }) => [...byMassG.entries()].filter(([, g]) => g !== 0));
  const starts = new Int32Array(causes.length + 1);
  for (const [c, entry] of entries.entries()) starts[c + 1] = (starts[c] ?? 0) + entry.length;
  const all = entries.flat();
  const at = Int32Array.from(all, ([j]) => j);
  return { count: causes.length, starts, at, byG: Float64Array.from(all, ([, g]) => g) };
}

/** Adds so many standard uncertainties of one cause. */
function add({ starts, at, byG }: Bundle, cause: number, times: number, masses: Masses): void {
  const end = starts[cause + 1] ?? 0;
  for (let n = starts[cause] ?? 0; n < end; n++) {
    const j = at[n] ?? 0;
    masses[j] = (masses[j] ?? 0) + times * (byG[n] ?? 0);
  }
}

/** Normal causes that change one and the same mass only are one normal cause: variances add. */
function merged(causes: readonly Cause[], count: number): Cause[] {
  const squares = new Float64Array(count);
  const others: Cause[] = [];
  for (const cause of causes) {
    const touched = [...cause.byMassG.keys()].filter((j) => cause.byMassG[j] !== 0);
    const [only] = touched;
    if (touched.length !== 1 || only === undefined) others.push(cause);
    else squares[only] = (squares[only] ?? 0) + (cause.byMassG[only] ?? 0) ** 2;
  }
  const own = [...squares.keys()].filter((j) => (squares[j] ?? 0) > 0);
  const single = own.map((only) => new Float64Array(count).fill(Math.sqrt(squares[only] ?? 0), only, only + 1));
  return [...others, ...single.map((byMassG) => ({ shape: "normal" as const, byMassG }))];
}

function normally(causes: readonly Cause[], count: number, { normal }: Chance): Disturb {
  const bundle = bundled(merged(causes, count));
  return (masses) => {
    for (let c = 0; c < bundle.count; c++) add(bundle, c, normal(), masses);
  };
}

/** Evenly from `least` standard half-widths to one: -1 for both sides of what was found, 0 for one side. */
function evenly(causes: readonly Cause[], least: -1 | 0, even: Random): Disturb {
  const bundle = bundled(causes);
  return (masses) => {
    for (let c = 0; c < bundle.count; c++) add(bundle, c, ROOT3 * (least + (1 - least) * even()), masses);
  };
}

/** One cause at a time: it holds its effect times the root of its chance. */
function oneOf(causes: readonly Cause[], chances: readonly number[], { even }: Chance): Disturb {
  const bundle = bundled(causes);
  return (masses) => {
    let left = even();
    let at = 0;
    while (at < chances.length - 1 && left >= (chances[at] ?? 0)) {
      left -= chances[at] ?? 0;
      at += 1;
    }
    const chance = chances[at] ?? 0;
    if (chance > 0) add(bundle, at, 1 / Math.sqrt(chance), masses);
  };
}

/**
 * What a row's mean count can have been, given the count that was found: a gamma distribution of count + 1/2. What all
 * rows gain together is taken back in proportion to what was found, as in `atConstantTotal`.
 */
function counted(rows: readonly CountedRow[], found: Masses, pan: number, { gamma }: Chance): Disturb {
  const at = Int32Array.from(rows, ({ row }) => row);
  const grains = Float64Array.from(rows, (row) => row.grains);
  const grainG = Float64Array.from(rows, (row) => row.grainG * Math.sqrt(row.part));
  const held = found.subarray(0, pan + 1);
  const sumG = held.reduce((sum, g) => sum + g, 0);
  const share = held.map((g) => g / sumG);
  return (masses) => {
    let gainedG = 0;
    for (let c = 0; c < at.length; c++) {
      const count = grains[c] ?? 0;
      const moreG = (gamma(count + SPARE) - count) * (grainG[c] ?? 0);
      const row = at[c] ?? 0;
      masses[row] = (masses[row] ?? 0) + moreG;
      gainedG += moreG;
    }
    for (let row = 0; row < share.length; row++) masses[row] = (masses[row] ?? 0) - gainedG * (share[row] ?? 0);
  };
}

/** The components that are drawn in their own way; apertures act on the curve instead. */
function inTheirOwnWay(component: Component, found: Masses, pan: number, chance: Chance): Disturb[] {
  if (!component.included) return [];
  const { causes, drawing } = component;
  if (drawing.kind === "one of") return [oneOf(causes, drawing.chances, chance)];
  return drawing.kind === "counted" ? [counted(drawing.rows, found, pan, chance)] : [];
}

/**
 * Draws of the true masses of a test: what was found, disturbed by every cause once, each by its own distribution. No
 * mass is below 0.
 *
 * @returns a function that fills the list it is given
 * @source JCGM 101:2008 clause 6 (memory)
 */
export function drawMasses(graded: Graded, components: readonly Component[], chance: Chance): Disturb {
  const found = massesOf(graded);
  const plain = components.filter((component) => component.included && component.drawing.kind === "independent");
  const shaped = (shape: Cause["shape"]) => causesOf(plain).filter((cause) => cause.shape === shape);
  const disturbances = [
    normally(shaped("normal"), found.length, chance),
    evenly(shaped("rectangular"), -1, chance.even),
    evenly(shaped("one-sided"), 0, chance.even),
    ...components.flatMap((component) => inTheirOwnWay(component, found, panAt(graded), chance)),
  ];
  return (masses) => {
    masses.set(found);
    for (const disturb of disturbances) disturb(masses);
    for (let j = 0; j < masses.length; j++) if ((masses[j] ?? 0) < 0) masses[j] = 0;
  };
}
