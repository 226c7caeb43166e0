import type { Store } from "../store/store.ts";
import type { App } from "./place.ts";

/** Enough to fill the bench and its trend. */
const RECENT_TESTS = 60;

/** The screens before the log and the library have been read: enough for a first frame. */
export const startingApp = (store: Store, now: string, programVersion: string): App => ({
  place: { name: "bench", at: 0 },
  behind: [],
  station: store.station,
  programVersion,
  now,
  readOnly: store.readOnly,
  problems: [...store.problems],
  drafts: store.drafts(),
  recent: null,
  months: store.indexMonths(),
  revisions: [],
  products: [],
  programs: [],
  operator: "",
  saved: new Map(store.drafts().map((d) => [d.testId, d.trail.length])),
  rung: new Set(),
  message: null,
});

/** The screens with the library and the latest tests. */
export async function withLibraryAndLog(app: App, store: Store): Promise<App> {
  const [shelf, programs, recent] = await Promise.all([
    store.products(),
    store.programs(),
    store.recentRows(RECENT_TESTS),
  ]);
  const day = app.now.slice(0, 10);
  const products = shelf.codes.flatMap((code) => shelf.inForce(code, day) ?? []);
  const revisions = shelf.codes.flatMap((code) => shelf.revisions(code));
  return {
    ...app,
    products,
    revisions,
    programs,
    recent,
    operator: recent[0]?.by ?? "",
    problems: [...store.problems],
  };
}
