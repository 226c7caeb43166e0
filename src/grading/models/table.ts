import { gatesGaudinSchuhmann } from "./gatesGaudinSchuhmann.ts";
import { logNormal } from "./logNormal.ts";
import type { ModelId, SizeModel } from "./model.ts";
import { rosinRammler } from "./rosinRammler.ts";

/** Every model by its id; fits, readings and straight-line grids all work from this table. */
export const MODELS: Readonly<Record<ModelId, SizeModel>> = { rosinRammler, gatesGaudinSchuhmann, logNormal };
