import type { ReferenceCheck } from "../record/care.ts";
import type { LedgerNote } from "../record/careLedger.ts";
import { type Determination, determined, undetermined } from "../record/determination.ts";
import type { ApertureChoice, MeanAperture, MeanApertureKnown } from "../record/meanAperture.ts";
import type { Sieve } from "../record/sieve.ts";
import type { KnownAperture } from "../record/uncertainty.ts";
import { standingOf } from "../record/versions.ts";
import { apertureText } from "../series/apertureText.ts";
import type { CareKnown } from "./known.ts";
import { referenceCheck, type SieveChecked } from "./reference/referenceCheck.ts";
import { sieveOf } from "./register/register.ts";
import { dayOf } from "./words.ts";

/**
 * Mean aperture of a sieve by its certificate: the mean over both directions of the cloth.
 *
 * @returns unit "um"; not determinable without a certificate
 */
export function certifiedMeanUm({ certificate, serial }: Pick<Sieve, "certificate" | "serial">): Determination {
  if (certificate === undefined) return undetermined(`${serial} has no certificate in the register`);
  const { warp, weft, day } = certificate;
  const meanUm = weft ? (warp.meanUm + weft.meanUm) / 2 : warp.meanUm;
  return determined(meanUm, "um", [`mean aperture by the certificate of ${day}`]);
}

/** What a certificate lets a test know of the aperture of a sieve; null where it doesn't say how sure it is. */
export function knownApertureOf(sieve: Sieve): KnownAperture | null {
  const mean = certifiedMeanUm(sieve);
  const expandedUm = sieve.certificate?.expandedUm;
  if (!mean.determinable || expandedUm === undefined) return null;
  return { apertureUm: sieve.apertureUm, serial: sieve.serial, meanUm: mean.value, expandedUm };
}

/** A certified material run on sieves, as the log tells of it. */
export type CheckNote = Pick<LedgerNote, "number" | "day" | "at"> & { readonly care: ReferenceCheck };

/** What is known of one sieve besides the register: its latest run with a reference material, and its latest repair. */
export interface ApertureEvidence {
  readonly check: CheckNote | null;
  /** What became of the test that this run was, since it was noted; null where nothing did. */
  readonly checkLost: "voided" | "corrected" | null;
  readonly repaired: { readonly number: number; readonly at: string } | null;
}

const isCheckOf =
  (serial: string) =>
  (note: LedgerNote): note is LedgerNote & CheckNote =>
    note.care.did === "reference check" && note.care.found.some((found) => found.serial === serial);

/** A void test proves nothing of a sieve, and one that was corrected later passed something else than the note says. */
function lostSince(
  check: CheckNote | null,
  { amendments = [] }: Pick<CareKnown, "amendments">,
): ApertureEvidence["checkLost"] {
  const own = amendments.filter(({ of }) => of.testId === check?.care.testId);
  if (check === null || standingOf({ later: own }).voided) return check && "voided";
  return own.some(({ kind, number }) => kind === "correction" && number > check.number) ? "corrected" : null;
}

/** What the care log tells of the aperture of a sieve. */
export function evidenceOf(known: Pick<CareKnown, "notes" | "lives" | "amendments">, serial: string): ApertureEvidence {
  const check = known.notes.filter(isCheckOf(serial)).at(-1) ?? null;
  const repaired = known.lives.get(serial)?.told.findLast(({ did }) => did === "repair") ?? null;
  return { check, checkLost: lostSince(check, known), repaired };
}

type Named = Pick<Sieve, "serial" | "apertureUm">;

const lacking = ({ serial, apertureUm }: Named, lacks: string): MeanAperture => ({ serial, apertureUm, lacks });

const ranOut = (whose: string, due: string | undefined, today: string): Pick<MeanApertureKnown, "doubt"> =>
  due === undefined || today <= due ? {} : { doubt: `${whose} was to be relied on until ${due}` };

function byCertificate(sieve: Sieve, { repaired }: ApertureEvidence, today: string): MeanAperture {
  const { serial, apertureUm, certificate } = sieve;
  const mean = certifiedMeanUm(sieve);
  if (certificate === undefined || !mean.determinable) return lacking(sieve, "it has no certificate in the register");
  const { number, day, laboratory, expandedUm, due } = certificate;
  if (repaired !== null && dayOf(repaired.at) >= day) {
    const repairDay = dayOf(repaired.at);
    return repairDay > day
      ? lacking(sieve, `it was repaired on ${repairDay}, after its certificate of ${day}`)
      : lacking(sieve, `it was repaired on ${repairDay}, the day of its certificate, which may be from before that`);
  }
  return {
    serial,
    apertureUm,
    meanUm: mean.value,
    ...(expandedUm === undefined ? {} : { expandedUm }),
    restsOn: { certificate: { ...(number === undefined ? {} : { number }), day, laboratory } },
    ...ranOut("its certificate", due, today),
  };
}

/**
 * Expanded uncertainty of an effective aperture: the wider side of its range. Undefined where nobody knows how sure what it
 * passed is, or what is certified there, or where an end lies beyond the certified curve: half a range is no range.
 */
function expandedOf(
  { serial, effectiveUm, certifiedPct, fromUm, toUm }: SieveChecked,
  { found }: ReferenceCheck,
): number | undefined {
  const isKnown = found.find((one) => one.serial === serial)?.expandedPct !== undefined && certifiedPct !== null;
  if (!isKnown || !effectiveUm.determinable || fromUm === null || toUm === null) return undefined;
  const reach = Math.max(effectiveUm.value - fromUm, toUm - effectiveUm.value);
  return reach > 0 ? reach : undefined;
}

function byCheck({ serial, apertureUm }: Sieve, evidence: ApertureEvidence, today: string): MeanAperture {
  const { check, checkLost, repaired } = evidence;
  const sieve = { serial, apertureUm };
  if (check === null) return lacking(sieve, "it was never run with a reference material");
  if (repaired !== null && repaired.number > check.number) {
    return lacking(sieve, `it was repaired on ${dayOf(repaired.at)}, after it was run with a reference material`);
  }
  if (checkLost === "voided") return lacking(sieve, "the test in which it was run with a reference material is void");
  if (checkLost === "corrected") {
    return lacking(sieve, "the test in which it was run with a reference material was corrected: take it in again");
  }
  const found = referenceCheck(check.care).find((one) => one.serial === serial);
  if (found === undefined || !found.effectiveUm.determinable) {
    const run = `when it was run with ${check.care.material.code} on ${check.day}`;
    return lacking(sieve, `${run}, what it passed lay outside the certified curve`);
  }
  const { effectiveUm } = found;
  const expandedUm = expandedOf(found, check.care);
  const { code, certificate } = check.care.material;
  return {
    serial,
    apertureUm,
    meanUm: effectiveUm.value,
    ...(expandedUm === undefined ? {} : { expandedUm }),
    restsOn: { check: { number: check.number, day: check.day, material: code } },
    ...ranOut(`the certificate of ${code}`, certificate.due, today),
  };
}

/**
 * The mean aperture that a sieve stands for on the curve: by its certificate, or the effective one of its latest run with a
 * reference material. What is chosen but not known is not replaced by another: it tells what is lacking. A repair ends what
 * was known before it; a certificate of its very day may be from before it, so that only a later one counts. A certificate that ran out counts all the same, and that is told.
 *
 * @param today ISO date on which the sieve is used
 * @returns um with what it rests on, expanded uncertainty (k = 2) where known; or what the sieve lacks
 * @source own rules; effective aperture as `referenceCheck`
 */
export function meanApertureOf(
  sieve: Sieve,
  choice: Exclude<ApertureChoice, "nominal">,
  evidence: ApertureEvidence,
  today: string,
): MeanAperture {
  return choice === "certified" ? byCertificate(sieve, evidence, today) : byCheck(sieve, evidence, today);
}

/** One row of a stack and the sieve that stands in it. */
export interface SerialRow {
  readonly serial: string;
  readonly apertureUm: number;
}

/** What is known on a day of the mean apertures of sieves by their serials, in their order. */
export const meanAperturesOf = (
  rows: readonly SerialRow[],
  choice: Exclude<ApertureChoice, "nominal">,
  care: Pick<CareKnown, "register" | "notes" | "lives" | "amendments">,
  today: string,
): MeanAperture[] =>
  rows.map((row) => {
    const sieve = sieveOf(care.register, row.serial);
    if (sieve === undefined) return lacking(row, "it is not in the register");
    if (sieve.apertureUm !== row.apertureUm)
      return lacking(row, `it is a sieve of ${apertureText(sieve.apertureUm)} in the register`);
    return meanApertureOf(sieve, choice, evidenceOf(care, row.serial), today);
  });
