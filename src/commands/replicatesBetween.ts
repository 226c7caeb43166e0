import { type RepeatedTest, repeatedTests } from "../assess/repeatedTests.ts";
import { figureBetween, type StationsFigure, type StationTests, stationsTogether } from "../assess/stationsTogether.ts";
import { readResultsCsv, type StationResult } from "../record/resultsCsv.ts";
import { stationsJson } from "../report/replicatesJson.ts";
import { stationsPage } from "../report/stationsPage.ts";
import { testsOfLot } from "../store/testsTogether.ts";
import { printedJson } from "../terminal/sanitise.ts";
import { done, type Ending, EXIT, ended, faulty, reached, type Step } from "./ending.ts";
import { inputFile, inputName } from "./inputFile.ts";
import type { Io } from "./io.ts";
import { openForReading } from "./openForReading.ts";
import { textLook, textPage } from "./textPage.ts";

interface BetweenOptions {
  readonly product?: string;
  readonly json?: boolean;
}

interface Told {
  readonly title: string;
  readonly figures: readonly StationsFigure[];
  readonly notes: readonly string[];
}

function printed({ title, figures, notes }: Told, { json }: BetweenOptions, io: Io): string {
  if (json) return `${printedJson(stationsJson(figures, notes))}\n`;
  const look = textLook(io);
  return textPage(stationsPage(title, figures, notes, look.width), look);
}

interface AtStation {
  readonly station: string;
  readonly tests: readonly RepeatedTest[];
}

async function testsAt(folder: string, lot: string, product: string | undefined, io: Io): Promise<Step<AtStation>> {
  const opened = await openForReading(folder, io);
  if (!opened.ok) return opened;
  const store = opened.value;
  const read = await testsOfLot(store, lot, product);
  await store.close();
  if (!read.ok) return ended(EXIT.ioError, `${folder}: ${read.reason}`);
  if (read.value.length === 0) return ended(EXIT.notFound, `${folder}: no test of lot ${lot} is on record there`);
  return reached({ station: store.station.station, tests: read.value });
}

/** Two folders may be of stations that bear the same code. */
const distinct = (found: readonly AtStation[], folders: readonly string[]): readonly AtStation[] =>
  found.map((one, i) =>
    found.filter(({ station }) => station === one.station).length > 1
      ? { ...one, station: `${one.station} (${folders[i]})` }
      : one,
  );

const notesOf = (stations: readonly StationTests[]): string[] =>
  stations.flatMap(({ station, told }) =>
    told.leftOut.map(({ number, reason }) => `left out: no. ${number} of ${station}, ${reason}`),
  );

/** `sievewright replicates --lot L --stations A B`: one lot tested at several stations. */
export async function replicatesBetween(
  { lot, folders }: { readonly lot: string; readonly folders: readonly string[] },
  options: BetweenOptions,
  io: Io,
): Promise<Ending> {
  if (folders.length < 2) return faulty(EXIT.usage, "--stations: name the folders of two stations at least");
  const found: AtStation[] = [];
  for (const folder of folders) {
    const at = await testsAt(folder, lot, options.product, io);
    if (!at.ok) return at.ending;
    found.push(at.value);
  }
  const codes = [...new Set(found.flatMap(({ tests }) => tests.map(({ product }) => product.code)))];
  if (codes.length > 1)
    return faulty(EXIT.usage, `lot ${lot} has tests of ${codes.join(" and ")}: name one with --product`);
  const stations = distinct(found, folders).map(({ station, tests }) => ({ station, told: repeatedTests(tests) }));
  const title = `lot ${lot} of ${codes[0]} at ${stations.length} stations`;
  return done(printed({ title, figures: stationsTogether(stations), notes: notesOf(stations) }, options, io));
}

const stationsIn = (rows: readonly StationResult[]): string[] => [...new Set(rows.map(({ station }) => station))];

function figureOf(on: string, all: readonly StationResult[]): StationsFigure {
  const rows = all.filter(({ figure }) => figure === on);
  const groups = stationsIn(rows).map((station) => ({
    station,
    results: rows.filter((row) => row.station === station).map(({ value }) => value),
  }));
  return figureBetween({ on, unit: "1", groups });
}

/** `sievewright replicates --results FILE`: results of several stations from a CSV. */
export async function replicatesOfResults(name: string, options: BetweenOptions, io: Io): Promise<Ending> {
  const file = await inputFile(name, io);
  if (!file.ok) return file.ending;
  const rows = readResultsCsv(file.value);
  if (!rows.ok) return faulty(EXIT.badData, `${inputName(name)}: ${rows.reason}`);
  const figures = [...new Set(rows.value.map(({ figure }) => figure))].map((on) => figureOf(on, rows.value));
  const none = figures.find((figure) => figure.determinable);
  const [first] = figures;
  if (none === undefined && first && !first.determinable)
    return faulty(EXIT.badData, `${inputName(name)}: ${first.on}: ${first.reason}`);
  const title = `results of ${stationsIn(rows.value).length} stations, ${inputName(name)}`;
  return done(printed({ title, figures, notes: [] }, options, io));
}
