import { assessTest } from "../assess/assessTest.ts";
import type { Assessment } from "../assess.ts";
import type { Determination } from "../record/determination.ts";
import type { IndexRow } from "../record/indexRow.ts";
import type { TestEntry } from "../record/logEntry.ts";

/** To be raised whenever `indexRowOf` gives another row for the same test: what was drawn before is then drawn again. */
export const ROWS_DRAWN = 1;

/** Lists and trends need no more; the log keeps the weighings themselves. */
const rounded = (figure: number): number => Number(figure.toPrecision(8));

const determinedOnly = (found: Readonly<Record<string, Determination>>, name: (key: string) => string) =>
  Object.entries(found).flatMap(([key, d]) => (d.determinable ? [[name(key), rounded(d.value)] as const] : []));

/** What passes at each nominal aperture, coarsest first; not where a curve over other apertures does not reach it. */
function passingOf({ fractions, apertures }: Assessment): [string, number][] {
  if (apertures === undefined) {
    return fractions.filter((f) => f.apertureUm > 0).map((f) => [`${f.apertureUm}`, rounded(f.passingPct)]);
  }
  return apertures.of.flatMap(({ apertureUm, passing }) =>
    passing.determinable ? [[`${apertureUm}`, rounded(passing.value)]] : [],
  );
}

/**
 * The row that stands for a recorded test in lists and trends: who and what, the verdicts as signed, and every figure
 * that could be determined. A test that can't be assessed has no figures.
 */
export function indexRowOf({ number, at, day, by, test }: TestEntry): IndexRow {
  const assessed = assessTest(test);
  const figures = assessed.ok
    ? [
        ...determinedOnly(assessed.value.values, (id) => id),
        ...determinedOnly(assessed.value.percentilesUm, (q) => `percentileUm@${q}`),
      ]
    : [];
  return {
    number,
    testId: test.testId,
    at,
    day,
    product: test.product.code,
    revision: test.product.revision,
    lot: test.lot,
    line: test.line,
    samplingPoint: test.samplingPoint,
    by,
    test: test.signed.test,
    verdict: test.signed.product,
    disposition: test.disposition,
    lossPct: test.signed.lossPct,
    ...(assessed.ok && assessed.value.apertures ? { apertures: assessed.value.apertures.choice } : {}),
    ...(test.retest === undefined ? {} : { retest: { way: test.retest.way, number: test.retest.of.number } }),
    values: Object.fromEntries(figures),
    passingPct: Object.fromEntries(assessed.ok ? passingOf(assessed.value) : []),
  };
}
