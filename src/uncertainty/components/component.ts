import type { ComponentId } from "../conditions.ts";

/** The shape of a standard draw (its square is 1 on average): normal, even to both sides of 0, or even from 0 upwards. */
export type Shape = "normal" | "rectangular" | "one-sided";

/** One independent cause and what one standard uncertainty of it does to each mass, in g (order of `Masses`). */
export interface Cause {
  readonly shape: Shape;
  readonly byMassG: Float64Array;
}

/** How the causes of a component are drawn. For first-order propagation they are all the same: independent causes. */
export type Drawing =
  | { readonly kind: "independent" }
  /** One cause at a time happens, each with its chance. */
  | { readonly kind: "one of"; readonly chances: readonly number[] }
  /** Each cause is a count of grains of one row: so many (with the spare half) of this mean mass. */
  | { readonly kind: "counted"; readonly rows: readonly CountedRow[] }
  /** Each cause is one sieve's mean aperture. */
  | { readonly kind: "apertures"; readonly sieves: readonly DrawnAperture[] };

export interface CountedRow {
  readonly row: number;
  readonly grainG: number;
  readonly grains: number;
  /** Part of the variance that is left after what the parent sample fixes, 0 to 1. */
  readonly part: number;
}

export interface DrawnAperture {
  readonly row: number;
  readonly uUm: number;
  readonly shape: Shape;
}

/** One source of uncertainty as causes; or, not included, the reason why. */
export type Component = { readonly id: ComponentId; readonly label: string } & (
  | {
      readonly included: true;
      /** In words: what was taken for it. */
      readonly told: string;
      readonly causes: readonly Cause[];
      readonly drawing: Drawing;
    }
  | { readonly included: false; readonly reason: string }
);

export const LABELS: Readonly<Record<ComponentId, string>> = {
  readability: "Readability",
  repeatability: "Repeatability",
  linearity: "Linearity",
  drift: "Drift of the zero",
  loss: "Loss",
  apertures: "Apertures",
  grains: "Count of grains",
  sampling: "Sampling",
  endPoint: "End point",
};

export const notIncluded = (id: ComponentId, reason: string): Component => ({
  id,
  label: LABELS[id],
  included: false,
  reason,
});

export const included = (
  id: ComponentId,
  told: string,
  causes: readonly Cause[],
  drawing: Drawing = { kind: "independent" },
): Component => ({ id, label: LABELS[id], included: true, told, causes, drawing });

/** Every cause of every component that is included. */
export const causesOf = (components: readonly Component[]): Cause[] =>
  components.flatMap((component) => (component.included ? component.causes : []));
