import { writeFile } from "node:fs/promises";
import { dayInForce } from "../record/dayInForce.ts";
import { type HandoverExtras, handoverPage } from "../report/handoverPage.ts";
import { driftWords } from "../report/trendWords.ts";
import type { Handover } from "../shift/handover.ts";
import { type Shift, shiftAt, shiftBefore } from "../shift/schedule.ts";
import { planFacts, readHandover } from "../store/shiftReading.ts";
import type { Store } from "../store/store.ts";
import { printedJson } from "../terminal/sanitise.ts";
import { done, type Ending, EXIT, ended, faulty, reached, type Step } from "./ending.ts";
import type { Io } from "./io.ts";
import { openForReading } from "./openForReading.ts";
import { stationNow } from "./stationClock.ts";

export interface HandoverOptions {
  readonly shift?: string;
  readonly json?: boolean;
  readonly out?: string;
  readonly data?: string;
}

const PAGE_COLUMNS = 80;

/** `sievewright handover`: the page that a shift hands over, from the log; changes nothing. */
export async function handover(options: HandoverOptions, io: Io): Promise<Ending> {
  const opened = await openForReading(options.data, io);
  if (!opened.ok) return opened.ending;
  const store = opened.value;
  const now = stationNow(store.station, io);
  try {
    const shift = shiftAsked(options.shift ?? "now", store, now);
    if (!shift.ok) return shift.ending;
    const facts = await readHandover(store, shift.value, now);
    const text = options.json
      ? `${printedJson(asJson(facts), 0)}\n`
      : handoverPage(facts, await extrasOf(store, io), PAGE_COLUMNS);
    return options.out === undefined ? done(text) : await kept(options.out, text);
  } finally {
    await store.close();
  }
}

const MOMENT = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}/;

/** "now", "last", or any moment in the shift. */
function shiftAsked(asked: string, { station }: Store, now: string): Step<Shift> {
  if (asked === "now") return reached(shiftAt(now, station));
  if (asked === "last") return reached(shiftBefore(shiftAt(now, station), station));
  if (!MOMENT.test(asked) || Number.isNaN(Date.parse(asked)))
    return ended(
      EXIT.usage,
      `--shift ${asked}: give now, last, or a moment in the shift like 2026-11-24T03:00:00+01:00`,
    );
  return reached(shiftAt(new Date(asked).toISOString(), station));
}

async function extrasOf(store: Store, io: Io): Promise<HandoverExtras> {
  const { station, operators } = store;
  const now = stationNow(station, io);
  const { tests, events } = await planFacts(store, now);
  const shelf = await store.products();
  const products = shelf.codes.flatMap((code) => shelf.inForce(code, dayInForce(now, station.dayBegins)) ?? []);
  return {
    station: station.station,
    plant: station.plant,
    demo: station.demo === true,
    printedAt: now,
    drifts: products.flatMap((product) => driftWords(product, tests, events)),
    signOn: operators.rule === "required",
  };
}

/** The facts under the names of the page; entries as they lie in the log. */
const asJson = (facts: Handover) => ({ schema: "sievewright.handover/1", ...facts });

async function kept(path: string, text: string): Promise<Ending> {
  try {
    await writeFile(path, text, { flag: "wx" });
    return done(`written to ${path}\n`);
  } catch (fault) {
    const there = fault instanceof Error && "code" in fault && fault.code === "EEXIST";
    return there
      ? faulty(EXIT.usage, `${path} is there already: give another name`)
      : faulty(EXIT.ioError, `${path} can't be written: ${fault instanceof Error ? fault.message : String(fault)}`);
  }
}
