import {
  type BetweenStations,
  betweenStations,
  type StationResults,
} from "../uncertainty/replicates/betweenStations.ts";
import type { RepeatedTests } from "./repeatedTests.ts";

/** Results of one figure, grouped by the station that found them. */
export interface GroupedFigure {
  readonly on: string;
  readonly unit: string;
  readonly groups: readonly StationResults[];
}

/** One figure as several stations found it, or why they can't be compared. */
export type StationsFigure = GroupedFigure &
  (
    | { readonly determinable: true; readonly found: BetweenStations }
    | { readonly determinable: false; readonly reason: string }
  );

/** What several stations found of one figure, compared. */
export function figureBetween(grouped: GroupedFigure): StationsFigure {
  const found = betweenStations(grouped.groups);
  return found.ok
    ? { ...grouped, determinable: true, found: found.value }
    : { ...grouped, determinable: false, reason: found.reason };
}

export interface StationTests {
  readonly station: string;
  readonly told: RepeatedTests;
}

/**
 * The same material tested at several stations: each figure that the first station has, with the results of all of them. One
 * that a station could not determine in all its tests can't be compared.
 */
export function stationsTogether(stations: readonly StationTests[]): readonly StationsFigure[] {
  return (stations[0]?.told.figures ?? []).map(({ on }) => {
    const each = stations.map(({ station, told }) => ({ station, figure: told.figures.find((one) => one.on === on) }));
    const groups = each.map(({ station, figure }) => ({ station, results: figure?.determinable ? figure.values : [] }));
    const units = each.flatMap(({ figure }) => (figure?.determinable ? [figure.unit] : []));
    const lacking = each.find(({ figure }) => !figure?.determinable);
    const grouped = { on, unit: units[0] ?? "1", groups };
    if (lacking === undefined) return figureBetween(grouped);
    const why = lacking.figure && !lacking.figure.determinable ? lacking.figure.reason : "it has no such figure";
    return { ...grouped, determinable: false, reason: `${lacking.station}: ${why}` };
  });
}
