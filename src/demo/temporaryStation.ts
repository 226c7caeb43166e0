import { accepted, type Outcome } from "../entry/outcome.ts";
import { indexRowOf } from "../store/indexRowOf.ts";
import { openStore } from "../store/openStore.ts";
import type { Store } from "../store/store.ts";
import { withTemporaryFolder } from "../store/temporaryFolder.ts";
import { type Filling, fillStation } from "./fillStation.ts";
import { DEMO_STATION } from "./station.ts";

/** Work on a fresh demo station, filled with its invented season, in a folder that goes afterwards. */
export function withDemoStation<T>(
  filling: Filling,
  now: () => string,
  work: (store: Store) => Promise<T>,
): Promise<Outcome<T>> {
  return withTemporaryFolder(async (folder) => {
    const store = await openStore(folder, { now, indexRowOf, create: DEMO_STATION, declares: true });
    if (!store.ok) return store;
    const filled = await fillStation(store.value, filling);
    const done = filled.ok ? accepted(await work(store.value)) : filled;
    await store.value.close();
    return done;
  });
}
