import { flightChart, flightLegend } from "../chart/flightChart.ts";
import { shakerFigures } from "../procedure/motion/shakerFigures.ts";
import { motionPage } from "../report/motionPage.ts";
import { printedJson } from "../terminal/sanitise.ts";
import { done, type Ending, EXIT, faulty, reached, type Step } from "./ending.ts";
import type { Io } from "./io.ts";
import { numberOption } from "./numberOption.ts";
import { textLook, textPage } from "./textPage.ts";

const ROWS = 12;

export interface ShakerOptions {
  readonly frequencyHz: string;
  readonly strokeMm?: string;
  readonly accelerationG?: string;
  readonly restateHz?: string;
  readonly json?: boolean;
}

/** `sievewright shaker`: the motion of a sieve in figures, and how far it throws a grain. */
export async function shaker(options: ShakerOptions, io: Io): Promise<Ending> {
  const given = numbersOf(options);
  if (!given.ok) return given.ending;
  const { frequencyHz = 0, ...rest } = given.value;
  const found = shakerFigures({ frequencyHz, ...rest });
  if (!found.ok) return faulty(EXIT.usage, found.reason);
  if (options.json) return done(`${printedJson(found.value)}\n`);
  const look = textLook(io);
  const chart = flightChart({ figures: found.value, width: look.width, height: ROWS, ascii: look.ascii });
  const legend = flightLegend(look.ascii);
  return done(textPage(motionPage(found.value, { width: look.width, chart, legend }), look));
}

const NUMBERS = {
  frequencyHz: "--frequency-hz",
  strokeMm: "--stroke-mm",
  accelerationG: "--acceleration-g",
  restateHz: "--restate-hz",
} as const;

type Given = Partial<Record<keyof typeof NUMBERS, number>>;

/** The numbers that were given. */
function numbersOf(options: ShakerOptions): Step<Given> {
  const given: Given = {};
  for (const [key, name] of Object.entries(NUMBERS) as [keyof Given, string][]) {
    const text = options[key];
    if (text === undefined) continue;
    const number = numberOption(name, text);
    if (!number.ok) return number;
    given[key] = number.value;
  }
  return reached(given);
}
