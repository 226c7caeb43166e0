import { createHash } from "node:crypto";
import { accepted, type Outcome } from "../entry/outcome.ts";
import { momentsIn } from "../record/moment.ts";
import type { Loading, Store } from "../store/store.ts";
import { demoChecks, inTurn } from "./checks.ts";
import { inWork } from "./inWork.ts";
import { demoProducts, demoPrograms } from "./library.ts";
import { inventSeason, seasonBegins } from "./season.ts";
import { CERTIFIED, demoCare, demoSieves } from "./sieves.ts";
import { DEMO_STATION } from "./station.ts";

export interface Filling {
  readonly tests: number;
  readonly seed: number;
  /** When the last test was signed, in ms since 1970 UTC. */
  readonly untilMs: number;
  readonly programVersion: string;
}

const HOUR_MS = 3_600_000;
const ROWS_DONE = 3;

function loadingOf(shelf: "programs" | "products", record: { readonly code: string }, at: string): Loading {
  const bytesSha256 = createHash("sha256").update(JSON.stringify(record)).digest("hex");
  return { fromPath: `shared/${shelf}/${record.code}.json`, bytesSha256, by: "SB", at };
}

async function fillLibrary(store: Store, at: string, untilMs: number): Promise<Outcome<void>> {
  for (const program of demoPrograms()) {
    const added = await store.addProgram(program, loadingOf("programs", program, at));
    if (!added.ok) return added;
  }
  for (const product of demoProducts()) {
    const added = await store.addProduct(product, loadingOf("products", product, at));
    if (!added.ok) return added;
  }
  const cared = await store.recordAll(demoCare(demoProducts(), at, untilMs));
  return cared.ok ? accepted(undefined) : cared;
}

/**
 * Fills an empty station with the invented plant: its products, its programs, a season of tests with runs of a reference
 * material between them, and one test in work, three of whose rows are weighed full. The same filling gives the same files.
 */
export async function fillStation(store: Store, filling: Filling): Promise<Outcome<number>> {
  const moment = momentsIn(store.station.timeZone);
  const begins = seasonBegins(filling.tests, filling.untilMs) - HOUR_MS;
  const library = await fillLibrary(store, moment(begins), filling.untilMs);
  if (!library.ok) return library;
  const season = { station: DEMO_STATION, products: demoProducts(), programs: demoPrograms(), ...filling };
  const checked = season.products.find(({ code }) => code === CERTIFIED);
  const sieves = checked ? demoSieves(checked, season.products, filling.untilMs) : [];
  const checks = demoChecks(sieves, begins, filling.untilMs, moment);
  const recorded = await store.recordAll(inTurn(inventSeason(season), checks));
  if (!recorded.ok) return recorded;
  const [entry] = inventSeason({ ...season, tests: 1, seed: filling.seed + 1 });
  if (entry?.kind === "test") await store.saveDraft(inWork(entry.test, ROWS_DONE));
  return accepted(filling.tests);
}
