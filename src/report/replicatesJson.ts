import type { RepeatedTests } from "../assess/repeatedTests.ts";
import type { StationsFigure } from "../assess/stationsTogether.ts";
import { REPEATABILITY_LIMIT } from "../uncertainty/replicates/replicates.ts";
import { repeatedWords } from "./replicatesWords.ts";

/** Repeated tests as other programs read them; numbers in full. `at` of an outlier is its place among the tests. */
export function replicatesJson(told: RepeatedTests) {
  const { tests, leftOut, figures, stated, sharingEmpties } = told;
  const nameOf = (at: number) => `no. ${tests[at]?.number ?? "?"}`;
  return {
    schema: "sievewright.replicates/1",
    product: tests[0]?.product.code ?? null,
    tests: tests.map(({ number, at, lot, line }) => ({ number, at, lot, line })),
    leftOut,
    limitFactor: REPEATABILITY_LIMIT,
    stated,
    sharingEmpties,
    figures: figures.map((figure) => {
      const words = repeatedWords(figure, nameOf);
      if (!figure.determinable) return { on: figure.on, determinable: false, reason: figure.reason, words };
      const { on, unit, values, found } = figure;
      return { on, determinable: true, unit, values, ...found, words };
    }),
  };
}

/** The same material at several stations, as other programs read it. */
export const stationsJson = (figures: readonly StationsFigure[], notes: readonly string[]) => ({
  schema: "sievewright.reproducibility/1",
  limitFactor: REPEATABILITY_LIMIT,
  figures: figures.map((figure) => {
    const { on, unit } = figure;
    if (!figure.determinable) return { on, unit, determinable: false, reason: figure.reason };
    const { stations, ...found } = figure.found;
    const results = (i: number) => figure.groups[i]?.results ?? [];
    return {
      on,
      unit,
      determinable: true,
      ...found,
      stations: stations.map((one, i) => ({ ...one, results: results(i) })),
    };
  }),
  notes,
});
