import { sieveOf } from "../care/register/register.ts";
import { type Care, CLEANINGS } from "../record/care.ts";
import { entryWords } from "../report/entryLine.ts";
import type { Store } from "../store/store.ts";
import { printedJson } from "../terminal/sanitise.ts";
import { done, type Ending, EXIT, ended, faulty, reached, type Step } from "./ending.ts";
import type { Io } from "./io.ts";
import { numberOption } from "./numberOption.ts";
import { inStore, type ProductSignerOptions } from "./productSigner.ts";
import { recordedEntry } from "./registerEntry.ts";

export interface CareOptions extends ProductSignerOptions {
  readonly note?: string;
  readonly json?: boolean;
}

export interface CleanOptions extends CareOptions {
  readonly how: string;
  readonly weighed?: string;
}

export interface ReasonOptions extends CareOptions {
  readonly reason: string;
}

const MOST_REASON = 200;
const MOST_NOTE = 400;
const MOST_G = 1e7;

/** The sieves that were named by serial, or all of a set by its code; each once. */
export async function serialsNamed(store: Store, names: readonly string[]): Promise<Step<string[]>> {
  const register = await store.care.register();
  const found: string[] = [];
  for (const name of names) {
    const set = register.sets.find(({ code }) => code === name);
    if (set === undefined && sieveOf(register, name) === undefined)
      return ended(EXIT.notFound, `${name} is neither a registered sieve nor a set: sievewright sieves lists them`);
    found.push(...(set?.serials ?? [name]));
  }
  return reached([...new Set(found)]);
}

export const noteIn = ({ note }: { readonly note?: string }): { readonly note?: string } =>
  note === undefined ? {} : { note };

/** Texts of options that go on record are not cut: what is too long is sent back. */
export function textsFit(
  texts: Readonly<Record<string, readonly [text: string | undefined, most: number]>>,
): Step<void> {
  for (const [option, [text, most]] of Object.entries(texts))
    if (text !== undefined && (text.trim() === "" || text.length > most))
      return ended(EXIT.usage, `${option}: give 1 to ${most} characters`);
  return reached(undefined);
}

/** Notes that something was done to sieves, and tells which entry of the log says so. */
async function noted(
  names: readonly string[],
  options: CareOptions,
  careOf: (serials: string[]) => Step<Care>,
  io: Io,
): Promise<Ending> {
  const fits = textsFit({ "--note": [options.note, MOST_NOTE] });
  if (!fits.ok) return fits.ending;
  const made = await inStore(options, io, async (signed) => {
    const serials = await serialsNamed(signed.store, names);
    if (!serials.ok) return serials;
    const care = careOf(serials.value);
    return care.ok ? recordedEntry(signed, { kind: "care", care: care.value }, io) : care;
  });
  if (!made.ok) return made.ending;
  const entry = made.value;
  if (options.json) return done(`${printedJson(entry)}\n`);
  return done(`no. ${entry.number}: ${entryWords(entry)}\n`);
}

/** `sievewright sieve clean`: grains out of the mesh, and what the sieve weighs afterwards. */
export async function sieveClean(names: readonly string[], options: CleanOptions, io: Io): Promise<Ending> {
  const how = CLEANINGS.find((one) => one === options.how);
  if (how === undefined) return faulty(EXIT.usage, `--how ${options.how}: give ${CLEANINGS.join(", ")}`);
  const weighed = options.weighed === undefined ? reached(null) : emptyMass(options.weighed);
  if (!weighed.ok) return weighed.ending;
  const cleaned = (serials: string[]): Step<Care> => {
    const [serial = "", ...others] = serials;
    if (weighed.value !== null && others.length > 0)
      return ended(EXIT.usage, "--weighed is of one sieve: clean and weigh them one by one");
    const after = weighed.value === null ? {} : { after: [{ serial, emptyG: weighed.value }] };
    return reached({ did: "cleaning", serials, how, ...after, ...noteIn(options) });
  };
  return noted(names, options, cleaned, io);
}

function emptyMass(text: string): Step<number> {
  const mass = numberOption("--weighed", text);
  if (!mass.ok || (mass.value >= 0 && mass.value <= MOST_G)) return mass;
  return ended(EXIT.usage, `--weighed ${text}: give the empty mass in g`);
}

type WithReason = "repair" | "quarantine" | "return to service" | "retirement";

/** `sievewright sieve quarantine|return|retire|repair`: each with its reason. */
export async function sieveWithReason(
  did: WithReason,
  names: readonly string[],
  options: ReasonOptions,
  io: Io,
): Promise<Ending> {
  const { reason } = options;
  const fits = textsFit({ "--reason": [reason, MOST_REASON] });
  if (!fits.ok) return fits.ending;
  const why = (serials: string[]): Step<Care> =>
    reached(
      did === "repair"
        ? { did, serials, what: reason, ...noteIn(options) }
        : { did, serials, reason, ...noteIn(options) },
    );
  return noted(names, options, why, io);
}
