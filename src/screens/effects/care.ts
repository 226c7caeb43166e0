import type { CareKnown } from "../../care/known.ts";
import { reduceRun } from "../../run/reduce.ts";
import type { App } from "../place.ts";
import type { Desk } from "./desk.ts";

/** What is known of sieves and balance has been read: the screens have it, and so has the test in hand. */
function careRead(app: App, care: CareKnown): App {
  const { place } = app;
  if (place.name !== "run") return { ...app, care };
  return { ...app, care, place: { ...place, run: reduceRun(place.run, { type: "careLearnt", care }) } };
}

export async function readCare(desk: Desk): Promise<void> {
  const care = await desk.store.care.known(desk.now().slice(0, 10));
  desk.show(careRead(desk.app(), care));
}
