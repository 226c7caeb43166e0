import type { Interpolation } from "../../record/product.ts";
import { linear } from "./linear.ts";
import { logLinear } from "./logLinear.ts";
import { logProbability } from "./logProbability.ts";
import { monotone } from "./monotone.ts";
import type { Reading } from "./reading.ts";

/** The rules by which passing % may be read between sieves (CP-4). */
export const READINGS: Readonly<Record<Interpolation, Reading>> = {
  "log-linear": logLinear,
  linear,
  "log-probability": logProbability,
  monotone,
};
