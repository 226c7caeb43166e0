import { type InspectionFound, inspect } from "../care/inspection/inspect.ts";
import { sieveOf } from "../care/register/register.ts";
import { readApertures } from "../record/apertureCsv.ts";
import { type Inspection, LOOKS, type Look, type Measured } from "../record/care.ts";
import type { Sieve } from "../record/sieve.ts";
import { inspectionPage } from "../report/sieveInspectionPage.ts";
import { printedJson } from "../terminal/sanitise.ts";
import { done, type Ending, EXIT, ended, reached, type Step } from "./ending.ts";
import { inputFile, inputName } from "./inputFile.ts";
import type { Io } from "./io.ts";
import { openForReading } from "./openForReading.ts";
import { inStore } from "./productSigner.ts";
import { recordedEntry } from "./registerEntry.ts";
import { type CareOptions, noteIn, textsFit } from "./sieveCare.ts";
import { textLook, textPage } from "./textPage.ts";

export interface InspectOptions extends CareOptions {
  readonly measured?: string;
  readonly good?: string;
  readonly faulty?: string;
  readonly inCloth?: string;
  readonly instrument?: string;
  readonly dryRun?: boolean;
}

const MOST_NOTE = 400;
const MOST_INSTRUMENT = 80;
/** What an inspection found, as an exit code. */
const CODES = { fit: EXIT.ok, "not fit": EXIT.fail, incomplete: EXIT.borderline } as const;

function looksNamed(option: string, text: string | undefined): Step<readonly Look[]> {
  const names = (text ?? "").split(",").map((name) => name.trim());
  const looks: Look[] = [];
  for (const name of names.filter((one) => one !== "")) {
    const look = LOOKS.find((known) => known === name);
    if (name === "all") looks.push(...LOOKS);
    else if (look === undefined) return ended(EXIT.usage, `${option} ${name}: give ${LOOKS.join(", ")}, or all`);
    else looks.push(look);
  }
  return reached(looks);
}

/** `--good all --faulty tears`: what is faulty is faulty whatever else is good. */
function looksIn({ good, faulty }: InspectOptions): Step<Inspection["looks"]> {
  const [well, badly] = [looksNamed("--good", good), looksNamed("--faulty", faulty)];
  if (!well.ok) return well;
  if (!badly.ok) return badly;
  const seen = [...well.value.map((look) => [look, "good"]), ...badly.value.map((look) => [look, "faulty"])];
  return reached(Object.fromEntries(seen));
}

async function measuredIn(options: InspectOptions, io: Io): Promise<Step<Measured | null>> {
  const { measured, inCloth, instrument } = options;
  if (measured === undefined) {
    const idle = inCloth !== undefined ? "--in-cloth" : instrument !== undefined ? "--instrument" : null;
    return idle === null ? reached(null) : ended(EXIT.usage, `${idle} goes with --measured FILE`);
  }
  if (inCloth !== undefined && !/^[1-9]\d{0,8}$/.test(inCloth))
    return ended(EXIT.usage, `--in-cloth ${inCloth}: give how many apertures the cloth has, a whole number`);
  const file = await inputFile(measured, io);
  if (!file.ok) return file;
  const read = readApertures(file.value);
  if (!read.ok) return ended(EXIT.badData, `${inputName(measured)}: ${read.reason}`);
  return reached({
    ...read.value,
    ...(inCloth === undefined ? {} : { inCloth: Number(inCloth) }),
    ...(instrument === undefined ? {} : { instrument }),
  });
}

async function inspectionIn(serial: string, options: InspectOptions, io: Io): Promise<Step<Inspection>> {
  const fits = textsFit({
    "--note": [options.note, MOST_NOTE],
    "--instrument": [options.instrument, MOST_INSTRUMENT],
  });
  if (!fits.ok) return fits;
  const looks = looksIn(options);
  if (!looks.ok) return looks;
  const measured = await measuredIn(options, io);
  if (!measured.ok) return measured;
  if (measured.value === null && Object.keys(looks.value).length === 0)
    return ended(EXIT.usage, "nothing was looked at or measured: give --good, --faulty or --measured");
  const { value } = measured;
  return reached({
    did: "inspection",
    serial,
    looks: looks.value,
    ...(value === null ? {} : { measured: value }),
    ...noteIn(options),
  });
}

interface Inspected {
  readonly sieve: Sieve;
  readonly found: InspectionFound;
  /** The entry of the log; null where it was only tried. */
  readonly number: number | null;
}

const unknown = (serial: string): Step<never> =>
  ended(EXIT.notFound, `${serial} is no registered sieve: sievewright sieves lists them`);

async function tried(inspection: Inspection, options: InspectOptions, io: Io): Promise<Step<Inspected>> {
  const opened = await openForReading(options.data, io);
  if (!opened.ok) return opened;
  const sieve = sieveOf(await opened.value.care.register(), inspection.serial);
  await opened.value.close();
  return sieve === undefined
    ? unknown(inspection.serial)
    : reached({ sieve, found: inspect(sieve, inspection), number: null });
}

const recorded = (inspection: Inspection, options: InspectOptions, io: Io): Promise<Step<Inspected>> =>
  inStore(options, io, async (signed) => {
    const sieve = sieveOf(await signed.store.care.register(), inspection.serial);
    if (sieve === undefined) return unknown(inspection.serial);
    const entry = await recordedEntry(signed, { kind: "care", care: inspection }, io);
    return entry.ok ? reached({ sieve, found: inspect(sieve, inspection), number: entry.value.number }) : entry;
  });

/** `sievewright sieve inspect SERIAL`: looks and measured apertures, judged and told to the log; the exit code says how. */
export async function sieveInspect(serial: string, options: InspectOptions, io: Io): Promise<Ending> {
  const inspection = await inspectionIn(serial, options, io);
  if (!inspection.ok) return inspection.ending;
  const made = await (options.dryRun ? tried : recorded)(inspection.value, options, io);
  if (!made.ok) return made.ending;
  const { sieve, found, number } = made.value;
  const code = CODES[found.result];
  if (options.json) return done(`${printedJson({ serial, recorded: number, ...found })}\n`, code);
  const look = textLook(io);
  return done(textPage(inspectionPage(sieve, found, { number, width: look.width }), look), code);
}
