import { MODEL_IDS, type ModelId } from "../../../src/grading/models/model.ts";
import type { Fit } from "../../../src/record/product.ts";
import written from "./fixtures/fits.json" with { type: "json" };

type ScipyFit = Readonly<Record<string, number>> & { readonly standardErrors: Readonly<Record<string, number>> };

interface ScipyCase {
  readonly name: string;
  readonly apertureUm: readonly number[];
  readonly passingPct: readonly number[];
  readonly fits: Readonly<Record<Fit, Readonly<Record<ModelId, ScipyFit | null>>>>;
}

export const scipyCases = written.cases as unknown as readonly ScipyCase[];
export const scipyMade = written.made;

/** One line per data set, rule and model for which scipy had enough points. */
export const scipyFits = scipyCases.flatMap((each) =>
  (["least-squares", "line"] as const).flatMap((rule) =>
    MODEL_IDS.flatMap((id) => {
      const fit = each.fits[rule][id];
      return fit ? [{ name: `${each.name}: ${id}, ${rule}`, rule, id, each, fit }] : [];
    }),
  ),
);
