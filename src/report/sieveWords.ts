import type { Condition } from "../care/conditionOf.ts";
import type { DirectionFound } from "../care/inspection/direction.ts";
import { inspect } from "../care/inspection/inspect.ts";
import { referenceCheck } from "../care/reference/referenceCheck.ts";
import { grams, lengthWords, offsetWords } from "../care/words.ts";
import { roundHalfAway } from "../grading/rounding.ts";
import { pctWords } from "../grading/words.ts";
import type { Care } from "../record/care.ts";
import type { Tally } from "../record/careLedger.ts";
import type { CareEntry, RegisteredEntry } from "../record/logEntry.ts";
import { nameOfItem } from "../record/register.ts";
import type { Sieve, SieveCertificate, SieveState } from "../record/sieve.ts";
import { SIGNS } from "../terminal/signs.ts";
import { NO_FIGURE } from "./figures.ts";

const OUT_WORDS: Readonly<Record<SieveState, string>> = {
  "in service": `FAULTY ${SIGNS.fail}`,
  cleaning: `cleaning ${SIGNS.none}`,
  quarantine: `QUARANTINE ${SIGNS.fail}`,
  retired: `retired ${SIGNS.none}`,
};

/** The state of a sieve as a word with its sign; one that is in service all the same failed its inspection. */
export function conditionWord({ state, registered }: Pick<Condition, "state" | "registered">): string {
  if (state === "out of service") return OUT_WORDS[registered];
  return { fit: `fit ${SIGNS.pass}`, due: `due ${SIGNS.borderline}`, overdue: `OVERDUE ${SIGNS.invalid}` }[state];
}

/** How far a sieve lies off its own cleaned level now; a dash while that is not known. */
export function tareOffWords({ tare }: Pick<Condition, "tare">, readabilityG: number): string {
  if (tare === null || tare.offG === null) return NO_FIGURE;
  const off = grams(Math.abs(tare.offG), readabilityG);
  return Number.parseFloat(off) === 0 ? off : `${tare.offG < 0 ? "-" : "+"}${off}`;
}

const SHORT_UNITS = { sievedMin: "min", passedKg: "kg" } as const;

/** When the next inspection is due: the day, or, where a count brings it on, how much of that is used up. */
export function dueWords({ due: { state, first, onDay } }: Pick<Condition, "due">): string {
  if (first === null || first.by === "days" || (state === "not due" && onDay !== null)) return onDay ?? NO_FIGURE;
  const used = roundHalfAway(first.used, 0);
  return first.by === "tests" ? `${used}/${first.limit} tests` : `${used}/${first.limit} ${SHORT_UNITS[first.by]}`;
}

/** "40 tests, 400 min, 12.3 kg passed". */
export function tallyWords({ tests, sievedMin, passedKg, untimed }: Tally): string {
  const [min, kg] = [roundHalfAway(sievedMin, 0), roundHalfAway(passedKg, 1)];
  return untimed === 0
    ? `${tests} tests, ${min} min, ${kg} kg passed`
    : `${tests} tests, ${min} min (${untimed} tests without a known time), ${kg} kg passed`;
}

/** What the certificate of a sieve says, in one sentence. */
export function certificateWords({ number, day, laboratory, due, warp, weft, expandedUm }: SieveCertificate): string {
  const direction = (name: string, found: SieveCertificate["warp"] | undefined) =>
    found === undefined
      ? []
      : [
          [
            `${name} mean ${lengthWords(found.meanUm)}`,
            ...(found.deviationUm === undefined ? [] : [`s ${lengthWords(found.deviationUm)}`]),
            ...(found.factorK === undefined ? [] : [`k ${found.factorK}`]),
            ...(found.measured === undefined ? [] : [`of ${found.measured}`]),
          ].join(" "),
        ];
  const means = [...direction("warp", warp), ...direction("weft", weft)];
  const sure = expandedUm === undefined ? [] : [`U ${lengthWords(expandedUm)} (k = 2)`];
  const until = due === undefined ? [] : [`relied on until ${due}`];
  const whose = `${number === undefined ? "" : `no. ${number} `}of ${day}, ${laboratory}`;
  return [whose, ...means, ...sure, ...until].join("; ");
}

/** What was measured along one direction, each figure as text without its unit. */
export interface DirectionFigures {
  readonly mean: string;
  readonly off: string;
  readonly deviation: string;
  readonly largest: string;
  /** "1.2 % above Z along the warp"; empty where no Z is known. */
  readonly aboveZ: string;
}

const bare = (um: number | null): string => (um === null ? NO_FIGURE : lengthWords(um).replace(" um", ""));

export function directionFigures(found: DirectionFound, nominalUm: number): DirectionFigures {
  const { direction, meanUm, deviationUm, largestUm, shareAboveZ } = found;
  return {
    mean: bare(meanUm),
    off: offsetWords(meanUm - nominalUm)
      .replace(" um", "")
      .replace(/^[-+](0(?:\.0)?)$/, "$1"),
    deviation: bare(deviationUm),
    largest: bare(largestUm),
    aboveZ: shareAboveZ === null ? "" : `${pctWords(100 * shareAboveZ)} above Z along the ${direction}`,
  };
}

function cleanedWords(care: Extract<Care, { did: "cleaning" }>, serial: string, readabilityG: number): string {
  const after = care.after?.find((one) => one.serial === serial);
  return after === undefined
    ? `cleaned: ${care.how}, not weighed afterwards`
    : `cleaned: ${care.how}, empty ${grams(after.emptyG, readabilityG)} after`;
}

/** What is said of a sieve, where it is plain which: without its name in front. */
export const withoutName = (text: string): string => text.replace(/^the [^:]*: /, "");

function inspectedWords(sieve: Sieve, care: Extract<Care, { did: "inspection" }>): string {
  const { result, faults, missing } = inspect(sieve, care);
  if (result === "fit") return "inspected: fit";
  if (result === "not fit") return `inspected: NOT FIT: ${faults.map(withoutName).join("; ")}`;
  const words = missing.map(withoutName).join("; ");
  return words === "" ? "inspected, incomplete" : `inspected, incomplete: ${words}`;
}

/** What an entry of the care log did to one sieve. */
function doneWords(care: Care, sieve: Sieve, readabilityG: number): string {
  switch (care.did) {
    case "cleaning":
      return cleanedWords(care, sieve.serial, readabilityG);
    case "repair":
      return `repaired: ${care.what}`;
    case "quarantine":
      return `put in quarantine: ${care.reason}`;
    case "return to service":
      return `returned to service: ${care.reason}`;
    case "retirement":
      return `retired: ${care.reason}`;
    case "inspection":
      return inspectedWords(sieve, care);
    case "reference check": {
      const own = referenceCheck(care).find(({ serial }) => serial === sieve.serial);
      return `run with ${care.material.code}: ${own?.text ?? "not judged"}`;
    }
  }
}

/** One entry in the life of a sieve in the program's words, and the note that somebody added, if any. */
export function lifeTelling(
  entry: CareEntry | RegisteredEntry,
  sieve: Sieve,
  readabilityG: number,
): { readonly words: string; readonly note: string } {
  if (entry.kind === "care") return { words: doneWords(entry.care, sieve, readabilityG), note: entry.care.note ?? "" };
  const { reason, item } = entry;
  const name = nameOfItem(item);
  if (name === sieve.serial)
    return { words: reason === undefined ? "registered" : `registered anew: ${reason}`, note: "" };
  return { words: reason === undefined ? `registered as ${name}` : `registered anew as ${name}: ${reason}`, note: "" };
}

/** One entry in the life of a sieve, without when and by whom. */
export function lifeWords(entry: CareEntry | RegisteredEntry, sieve: Sieve, readabilityG: number): string {
  const { words, note } = lifeTelling(entry, sieve, readabilityG);
  return note === "" ? words : `${words} (${note})`;
}
