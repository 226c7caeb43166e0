import { type Determination, undetermined } from "../../record/determination.ts";
import { apertureText } from "../../series/apertureText.ts";
import type { Grading, GradingChoices } from "../grading.ts";
import { shareAtNominal } from "../nominalShare.ts";
import { isOverMeans } from "../standsAt.ts";
import { listWords } from "../words.ts";
import type { CharacteristicValue } from "./characteristicValue.ts";
import { computed } from "./computed.ts";

/** US sieve number, its aperture in um, and what a grain that it holds counts. */
const AFS_SIEVES = [
  { mesh: 6, apertureUm: 3350, counts: 3 },
  { mesh: 12, apertureUm: 1700, counts: 5 },
  { mesh: 20, apertureUm: 850, counts: 10 },
  { mesh: 30, apertureUm: 600, counts: 20 },
  { mesh: 40, apertureUm: 425, counts: 30 },
  { mesh: 50, apertureUm: 300, counts: 40 },
  { mesh: 70, apertureUm: 212, counts: 50 },
  { mesh: 100, apertureUm: 150, counts: 70 },
  { mesh: 140, apertureUm: 106, counts: 100 },
  { mesh: 200, apertureUm: 75, counts: 140 },
  { mesh: 270, apertureUm: 53, counts: 200 },
] as const;
const PAN_COUNTS = 300;

/** What a grain on this sieve counts: that of the next finer sieve of the set, if it is none itself. */
const countsOn = (apertureUm: number): number =>
  AFS_SIEVES.find((sieve) => sieve.apertureUm <= apertureUm)?.counts ?? PAN_COUNTS;

/** What lies between two nominal apertures of the set, read from a curve over mean ones, times what it counts. */
function readFromCurve(grading: Grading, { interpolation }: GradingChoices): Determination {
  let [sum, coarserG] = [0, 0];
  for (const { apertureUm, counts } of AFS_SIEVES) {
    const coarser = shareAtNominal("coarserPct", apertureUm, grading, interpolation);
    if (!coarser?.determinable) return coarser ?? undetermined(`needs the ${apertureText(apertureUm)} sieve`);
    const belowG = (coarser.value / 100) * grading.totalG;
    sum += (belowG - coarserG) * counts;
    coarserG = belowG;
  }
  sum += (grading.recoveredG - coarserG) * PAN_COUNTS;
  return computed(sum / grading.recoveredG, "1", ["masses between the nominal apertures read from the curve"]);
}

function finenessOf(grading: Grading, choices: GradingChoices): Determination {
  const { rows } = grading;
  const missing = AFS_SIEVES.filter((sieve) => !rows.some((row) => row.apertureUm === sieve.apertureUm));
  if (missing.length > 0) {
    const names = missing.map(({ mesh, apertureUm }) => `${mesh} mesh (${apertureText(apertureUm)})`);
    return undetermined(`needs the ${listWords(names)} sieve${missing.length > 1 ? "s" : ""}`);
  }
  if (isOverMeans(grading)) return readFromCurve(grading, choices);
  const sumG = rows.reduce((sum, row) => sum + row.netG, 0);
  return computed(rows.reduce((sum, row) => sum + row.netG * countsOn(row.apertureUm), 0) / sumG, "1", []);
}

/** Grain fineness number of foundry sand, `GFN = sum(m k)/sum m` over the AFS set and the pan, clay excluded. */
export const grainFinenessNumber: CharacteristicValue = {
  id: "grainFinenessNumber",
  label: "Grain fineness no.",
  unit: "1",
  needs: "the whole AFS set: US sieves 6, 12, 20, 30, 40, 50, 70, 100, 140, 200, 270 and the pan",
  formula: "sum of m k / sum of m, with m each mass and k = 3, 5, 10, 20, 30, 40, 50, 70, 100, 140, 200, pan 300",
  convention:
    "Divided by the sand that was recovered, so clay that was washed out does not count. What a sieve beside the set holds counts with the next finer one of the set.",
  source: "American Foundry Society; GB/T 9442, table of multipliers (seen)",
  determine: finenessOf,
};
