import { linesOf, readTrend } from "../../store/trendReading.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import type { App } from "../place.ts";
import type { TrendEffect } from "../trend/places.ts";
import { trendTaken } from "../trend/reaching.ts";
import { FIRST_READ } from "../trend/trendPlace.ts";
import type { Desk } from "./desk.ts";

type Asked = Extract<TrendEffect, { do: "readTrend" }>;

/** Carries out what was asked for on a trend. */
export const carryOutTrend = (desk: Desk, effect: TrendEffect): Promise<void> =>
  effect.do === "readTrend" ? read(desk, effect) : freeze(desk, effect.entry);

async function read({ store, app, take }: Desk, { product, line: asked, reach }: Asked): Promise<void> {
  const line = asked ?? (await linesOf(store, product))[0] ?? store.station.lines[0] ?? "";
  const rows = await readTrend(store, product, line, reach);
  take(trendTaken(app(), { asked: { product, line: asked }, line, read: rows }));
}

/** The form closes once the limits are on record. */
function kept(app: App, message: string): App {
  const { place } = app;
  return { ...app, message, ...(place.name === "trend" ? { place: { ...place, keeping: null } } : {}) };
}

async function freeze(desk: Desk, entry: Extract<TrendEffect, { do: "freezeLimits" }>["entry"]): Promise<void> {
  const recorded = await desk.store.record({ ...entry, at: desk.now() });
  if (!recorded.ok) return desk.show({ ...desk.app(), message: say`not recorded: ${spoken(recorded.reason)}` });
  desk.show(kept(desk.app(), say`limits frozen as entry no. ${recorded.value.number}`));
  await read(desk, { do: "readTrend", product: entry.product, line: entry.line, reach: FIRST_READ });
}
