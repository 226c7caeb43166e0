import { pctWords } from "../../grading/words.ts";
import { type Inspection, LOOKS, type Look, type Measured } from "../../record/care.ts";
import type { Determination } from "../../record/determination.ts";
import { undetermined } from "../../record/determination.ts";
import type { Sieve } from "../../record/sieve.ts";
import { lengthWords, offsetWords, sieveName } from "../words.ts";
import { type DirectionFound, judgeDirection, MOST_ABOVE_Z } from "./direction.ts";
import { aperturesToMeasure, readToUm } from "./howMany.ts";
import { type ApertureLimits, apertureLimits } from "./limits.ts";

/** What an inspection found. */
export interface InspectionFound {
  /** "incomplete": nothing is wrong, but not every look was taken, or too few apertures were measured. */
  readonly result: "fit" | "not fit" | "incomplete";
  readonly faults: readonly string[];
  readonly missing: readonly string[];
  /** Empty where no aperture was measured: then only the look is judged. */
  readonly directions: readonly DirectionFound[];
  readonly limits: ApertureLimits | null;
  /** How many apertures are to be measured in each direction. */
  readonly toMeasure: Determination;
  readonly readToUm: Determination;
  /** What the judgement rests on, in words; the status of the figures first. */
  readonly notes: readonly string[];
}

/** What the edition asks; without Z its share is told and not judged. */
export interface InspectionChoice {
  readonly judgesZ?: boolean;
}

const LOOK_FAULTS: Readonly<Record<Look, string>> = {
  light: "against the light the cloth shows faults",
  wrinkles: "the cloth is wrinkled or creased",
  tears: "the cloth is torn or has loose wires",
  solder: "the solder at the rim is cracked",
  seat: "the frame does not seat",
};

type Direction = readonly [DirectionFound["direction"], readonly number[]];

function directionsOf(measured: Measured | undefined): readonly Direction[] {
  if (measured === undefined) return [];
  const { warpUm, weftUm } = measured;
  return weftUm
    ? [
        ["warp", warpUm],
        ["weft", weftUm],
      ]
    : [["warp", warpUm]];
}

function faultsOf(found: DirectionFound, nominalUm: number, limits: ApertureLimits, judgesZ: boolean): string[] {
  const { direction, meanUm, largestUm, shareAboveZ } = found;
  const mean = `mean along the ${direction} ${lengthWords(meanUm)} (${offsetWords(meanUm - nominalUm)})`;
  const largest = `largest along the ${direction} ${lengthWords(largestUm)} (${offsetWords(largestUm - nominalUm)})`;
  return [
    ...(found.meanWithinY === false ? [`${mean}, Y allows ${lengthWords(limits.meanUm)} either way`] : []),
    ...(found.largestWithinX === false ? [`${largest}, X allows +${lengthWords(limits.maxUm)}`] : []),
    ...(judgesZ && (shareAboveZ ?? 0) > MOST_ABOVE_Z
      ? [`${pctWords(100 * (shareAboveZ ?? 0))} along the ${direction} lie above Z, ${100 * MOST_ABOVE_Z} % may`]
      : []),
  ];
}

function missingOf({ looks, measured }: Inspection, toMeasure: Determination): string[] {
  const looked = LOOKS.filter((look) => looks[look] === undefined).map((look) => `not looked at: ${look}`);
  if (!measured || !toMeasure.determinable) return looked;
  const few = directionsOf(measured).filter(([, um]) => um.length < toMeasure.value);
  return [
    ...looked,
    ...few.map(([direction, um]) => `${um.length} of ${toMeasure.value} measured along the ${direction}`),
  ];
}

function notesOf(found: readonly DirectionFound[], founded: string, judgesZ: boolean): string[] {
  const near = found.filter((f) => f.nearY).map((f) => `near Y along the ${f.direction}: measure more apertures`);
  const alone = found.length === 1 ? ["only one direction was measured"] : [];
  const z = judgesZ ? [] : ["the share above Z is told and not judged: only older editions judge it"];
  return found.length === 0 ? ["no aperture was measured: judged by eye alone"] : [founded, ...alone, ...near, ...z];
}

/**
 * Judges one inspection of a sieve: each look, and the measured apertures against Y (their mean), X (the largest) and,
 * where the edition has it, Z (6 % at most above it), along each direction for itself. Lengths in um.
 *
 * @returns faults in words; what is missing; and the figures with the status of the limits
 * @source ISO 3310-1, European Pharmacopoeia 8.0 (2.1.4); the status of each limit is in `notes`
 */
export function inspect(sieve: Sieve, inspection: Inspection, choice: InspectionChoice = {}): InspectionFound {
  const judgesZ = choice.judgesZ ?? false;
  const known = apertureLimits(sieve.apertureUm, sieve.cloth ?? "woven wire");
  const limits = "reason" in known ? null : known;
  const directions = directionsOf(inspection.measured).map(([direction, um]) =>
    judgeDirection(direction, um, sieve.apertureUm, limits),
  );
  const looks = LOOKS.filter((look) => inspection.looks[look] === "faulty").map((look) => LOOK_FAULTS[look]);
  const measured = limits ? directions.flatMap((d) => faultsOf(d, sieve.apertureUm, limits, judgesZ)) : [];
  const faults = [...looks, ...measured].map((fault) => `${sieveName(sieve)}: ${fault}`);
  const toMeasure = toMeasureOf(inspection.measured);
  const unjudged = limits === null && directions.length > 0 ? ["the apertures were measured and not judged"] : [];
  const missing = [...missingOf(inspection, toMeasure), ...unjudged];
  return {
    result: faults.length > 0 ? "not fit" : missing.length > 0 ? "incomplete" : "fit",
    faults,
    missing,
    directions,
    limits,
    toMeasure,
    readToUm: readToUm(sieve.apertureUm),
    notes: notesOf(directions, "reason" in known ? known.reason : known.founded, judgesZ),
  };
}

const toMeasureOf = (measured: Measured | undefined): Determination =>
  measured?.inCloth === undefined
    ? undetermined("how many apertures the cloth has was not noted")
    : aperturesToMeasure(measured.inCloth);
