import { referenceRun } from "../assess/referenceRun.ts";
import { referenceCheck, type SieveChecked } from "../care/reference/referenceCheck.ts";
import type { ReferenceCheck, ReferenceMaterial } from "../record/care.ts";
import { readMaterial } from "../record/readExchanged.ts";
import { referencePage } from "../report/referencePage.ts";
import { printedJson } from "../terminal/sanitise.ts";
import { type Run, runNamed } from "./compareRun.ts";
import { done, type Ending, EXIT, ended, reached, type Step } from "./ending.ts";
import { inputFile, inputName } from "./inputFile.ts";
import type { Io } from "./io.ts";
import { numberOption } from "./numberOption.ts";
import { openForReading } from "./openForReading.ts";
import { inStore } from "./productSigner.ts";
import { recordedEntry } from "./registerEntry.ts";
import { type CareOptions, noteIn, textsFit } from "./sieveCare.ts";
import { textLook, textPage } from "./textPage.ts";

export interface ReferenceOptions extends CareOptions {
  readonly record?: boolean;
  readonly uncertainty?: string;
}

const MOST_NOTE = 400;

const looksLikePath = (name: string): boolean => name === "-" || /[\\/]|\.json$/i.test(name);

/** A material by its file, or by its code in the register. */
async function materialNamed(name: string, { data }: ReferenceOptions, io: Io): Promise<Step<ReferenceMaterial>> {
  if (looksLikePath(name)) {
    const file = await inputFile(name, io);
    if (!file.ok) return file;
    const read = readMaterial(file.value);
    return read.ok ? read : ended(EXIT.badData, `${inputName(name)}: ${read.reason}`);
  }
  const opened = await openForReading(data, io);
  if (!opened.ok) return opened;
  const { materials } = await opened.value.care.register();
  await opened.value.close();
  const found = materials.find(({ code }) => code === name);
  return found ? reached(found) : ended(EXIT.notFound, `${name} is no registered reference material: name its file`);
}

/** The expanded uncertainty that somebody names holds for every sieve. */
function expandedIn({ uncertainty }: ReferenceOptions): Step<number | null> {
  if (uncertainty === undefined) return reached(null);
  const pct = numberOption("--uncertainty", uncertainty);
  if (!pct.ok || (pct.value > 0 && pct.value <= 100)) return pct;
  return ended(EXIT.usage, `--uncertainty ${uncertainty}: give % passing, above 0 and at most 100`);
}

/** A sheet as a reference check: it tells serials, and no uncertainty. */
function ofSheet({ assessment, serials }: Run, material: ReferenceMaterial): ReferenceCheck {
  const sieves = assessment.fractions.filter(({ apertureUm }) => apertureUm > 0);
  const found = sieves.map(({ apertureUm, passingPct }) => {
    const serial = serials.get(apertureUm);
    return {
      apertureUm,
      passingPct: Math.min(100, Math.max(0, passingPct)),
      ...(serial === undefined ? {} : { serial }),
    };
  });
  return { did: "reference check", material, found };
}

function checkOf(run: Run, material: ReferenceMaterial): Step<ReferenceCheck> {
  if (run.test === null) return reached(ofSheet(run, material));
  const made = referenceRun(run.test, material);
  return made.ok ? made : ended(EXIT.badData, `${run.name}: ${made.reason}`);
}

async function checkNamed(material: string, name: string, options: ReferenceOptions, io: Io) {
  const known = await materialNamed(material, options, io);
  if (!known.ok) return known;
  const run = await runNamed(name, options.data, io);
  if (!run.ok) return run;
  const expandedPct = expandedIn(options);
  if (!expandedPct.ok) return expandedPct;
  const made = checkOf(run.value, known.value);
  if (!made.ok) return made;
  const { value: pct } = expandedPct;
  const found = pct === null ? made.value.found : made.value.found.map((one) => ({ ...one, expandedPct: pct }));
  return reached({ check: { ...made.value, found, ...noteIn(options) }, runName: run.value.name });
}

/** The worst that is said of any sieve. */
function codeOf(found: readonly SieveChecked[]): number {
  const is = (result: SieveChecked["result"]) => found.some((one) => one.result === result);
  return is("disagrees") ? EXIT.fail : is("questionable") ? EXIT.borderline : EXIT.ok;
}

async function recorded(check: ReferenceCheck, options: ReferenceOptions, io: Io): Promise<Step<number>> {
  if (check.found.every(({ serial }) => serial === undefined))
    return ended(EXIT.badData, "the run tells the serial of no sieve: a check without them can't be recorded of any");
  const entry = await inStore(options, io, (signed) => recordedEntry(signed, { kind: "care", care: check }, io));
  return entry.ok ? reached(entry.value.number) : entry;
}

/** `sievewright reference MATERIAL TEST`: each sieve judged by a certified material that was run like a test. */
export async function reference(material: string, name: string, options: ReferenceOptions, io: Io): Promise<Ending> {
  const fits = textsFit({ "--note": [options.note, MOST_NOTE] });
  if (!fits.ok) return fits.ending;
  const made = await checkNamed(material, name, options, io);
  if (!made.ok) return made.ending;
  const { check, runName } = made.value;
  const number = options.record ? await recorded(check, options, io) : reached(null);
  if (!number.ok) return number.ending;
  const found = referenceCheck(check);
  const code = codeOf(found);
  if (options.json) {
    const told = { schema: "sievewright.referenceCheck/1", material: check.material.code, run: runName };
    return done(`${printedJson({ ...told, recorded: number.value, sieves: found })}\n`, code);
  }
  const look = textLook(io);
  const head = { runName, number: number.value, width: look.width };
  return done(textPage(referencePage(check, found, head), look), code);
}
