import { stackTest } from "../assess/sieveTests.ts";
import { certifiedMeanUm } from "../care/apertureChosen.ts";
import { type EffectiveApertures, effectiveFromTests } from "../care/effective/effectiveFromTests.ts";
import { rightSince, stretchesOf } from "../care/effective/rightSince.ts";
import { FEWEST_TESTS, type StackTest } from "../care/effective/tests.ts";
import { seededRandom } from "../care/random.ts";
import { sieveOf } from "../care/register/register.ts";
import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { type IndexRow, isCounted } from "../record/indexRow.ts";
import type { Sieve } from "../record/sieve.ts";
import { currentTest } from "../record/versions.ts";
import type { Store } from "./store.ts";
import { MOST_MONTHS } from "./trendReading.ts";

/** So many tests make a stretch, and no more than this are opened to find them. */
const STRETCH = 40;
const MOST_OPENED = 3 * STRETCH;
/** The same log gives the same answer. */
const SEED = 3310;

/** What routine tests of one product say of the sieves that it was tested with last. */
export interface SuspectReading {
  readonly product: string;
  readonly serials: readonly string[];
  /** From when on the stack was known to be right; null where that is not known. */
  readonly rightSince: string | null;
  /** Tests from then that the latest are compared with; 0 where they are judged against their neighbours alone. */
  readonly testsBefore: number;
  readonly found: EffectiveApertures;
  /** Why some tests are missing, if so. */
  readonly problem: string | null;
}

interface Opened {
  readonly tests: readonly StackTest[];
  readonly problem: string | null;
}

const serialsIn = ({ sieves }: StackTest): string | null =>
  sieves.every(({ serial }) => serial !== undefined) ? sieves.map(({ serial }) => serial).join(" ") : null;

/** Rows of a product that count, oldest first, as far back as is looked. */
async function rowsOf(store: Store, product: string): Promise<readonly IndexRow[]> {
  const rows: IndexRow[] = [];
  for (const month of store.indexMonths().slice(0, MOST_MONTHS).toReversed())
    rows.push(...(await store.indexRows(month)).filter((row) => row.product === product && isCounted(row)));
  return rows;
}

/** The first tests of these rows on one stack: of these serials, else of the first that tells any. */
async function openedOn(store: Store, rows: readonly IndexRow[], serials: string | null): Promise<Opened> {
  const tests: StackTest[] = [];
  let [wanted, problem]: [string | null, string | null] = [serials, null];
  for (const row of rows.slice(0, MOST_OPENED)) {
    if (tests.length >= STRETCH) break;
    const history = await store.history(row);
    if (!history.ok) problem ??= history.reason;
    const test = history.ok ? stackTest(row.at, currentTest(history.value)) : null;
    const own = test === null ? null : serialsIn(test);
    if (test === null || own === null || own !== (wanted ?? own)) continue;
    wanted = own;
    tests.push(test);
  }
  return { tests, problem };
}

/** Certified mean apertures of the sieves that have a certificate, by nominal aperture. */
function certifiedUm(sieves: readonly Sieve[]): ReadonlyMap<number, number> {
  return new Map(
    sieves.flatMap((sieve) => {
      const mean = certifiedMeanUm(sieve);
      return mean.determinable ? [[sieve.apertureUm, mean.value] as const] : [];
    }),
  );
}

/**
 * Looks at the sieves with which a product was tested last: effective aperture of each from its latest 40 tests, against
 * 40 from right after the stack was known to be right, where there are any. Changes nothing.
 *
 * @returns or why nothing can be said
 */
export async function readSuspects(store: Store, product: string): Promise<Outcome<SuspectReading>> {
  const rows = await rowsOf(store, product);
  const latest = await openedOn(store, rows.toReversed(), null);
  const [newest] = latest.tests;
  if (newest === undefined)
    return refused(latest.problem ?? `no valid test of ${product} tells which sieves it was made with`);
  const serials = newest.sieves.flatMap(({ serial }) => serial ?? []);
  const register = await store.care.register();
  const sieves = serials.flatMap((serial) => sieveOf(register, serial) ?? []);
  const notes = (await Promise.all(serials.map((serial) => store.care.reading(serial)))).flatMap((r) => r?.notes ?? []);
  const since = sieves.length < serials.length ? null : rightSince(sieves, notes);
  const after = since === null ? [] : rows.filter(({ at }) => Date.parse(at) > Date.parse(since));
  const first = await openedOn(store, after, serialsIn(newest));
  const all = [...new Map([...first.tests, ...latest.tests.toReversed()].map((test) => [test.at, test])).values()];
  const { now, before } = stretchesOf(all, since, { most: STRETCH, fewest: FEWEST_TESTS });
  const knownUm = certifiedUm(sieves);
  const choice = { ...(before ? { before } : {}), ...(knownUm.size > 0 ? { knownUm } : {}) };
  return accepted({
    product,
    serials,
    rightSince: since,
    testsBefore: before?.length ?? 0,
    found: effectiveFromTests(now, choice, seededRandom(SEED)),
    problem: latest.problem ?? first.problem,
  });
}
