import type { Shape } from "../components/component.ts";
import type { Chance } from "./chance.ts";

const ROOT3 = Math.sqrt(3);

/** Draws of one shape whose square is 1 on average: normal; even within +-sqrt 3; even from 0 to sqrt 3. */
export function standardDraw(shape: Shape, { even, normal }: Chance): () => number {
  if (shape === "normal") return normal;
  return shape === "rectangular" ? () => ROOT3 * (2 * even() - 1) : () => ROOT3 * even();
}
