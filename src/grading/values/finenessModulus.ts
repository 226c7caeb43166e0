import { type Determination, determined, undetermined } from "../../record/determination.ts";
import { apertureText } from "../../series/apertureText.ts";
import type { Grading, GradingChoices } from "../grading.ts";
import { passingAtNominal, shareAtNominal } from "../nominalShare.ts";
import { topEnd } from "../openEnds.ts";
import { sizeFault, standsAtUm } from "../standsAt.ts";
import { listWords } from "../words.ts";
import type { CharacteristicValue } from "./characteristicValue.ts";
import { computed } from "./computed.ts";
import { MODULUS_SERIES_UM } from "./modulusSeries.ts";

function readFromCurve(apertureUm: number, grading: Grading, { interpolation }: GradingChoices): Determination {
  const passing = passingAtNominal(grading, apertureUm, interpolation);
  if (!passing.determinable) return passing;
  const words = `${apertureText(apertureUm)} read from the curve (${interpolation})`;
  return determined(100 - passing.value, "%", [words, ...(passing.assumptions ?? [])]);
}

/**
 * Coarser % at a sieve of the series: weighed (over mean apertures: read from the curve at its nominal one), or known from
 * the ends of the stack, or read from the curve if allowed.
 */
function coarserAt(apertureUm: number, grading: Grading, choices: GradingChoices): Determination {
  const own = shareAtNominal("coarserPct", apertureUm, grading, choices.interpolation);
  if (own?.determinable) return own;
  const top = topEnd(grading, choices);
  if (top.ok && apertureUm >= top.value.boundUm) {
    return determined(0, "%", top.value.assumption === null ? [] : [top.value.assumption]);
  }
  const allAbove = grading.rows.find((row) => row.apertureUm > 0 && row.passingPct === 0);
  if (allAbove && apertureUm < standsAtUm(allAbove)) return determined(100, "%");
  if (own !== null) return own;
  if (choices.modulusInterpolateMissing) return readFromCurve(apertureUm, grading, choices);
  return undetermined("the stack lacks it");
}

function modulusOf(grading: Grading, choices: GradingChoices): Determination {
  const { name, aperturesUm } = MODULUS_SERIES_UM[choices.modulusSeries];
  const fault = sizeFault(grading);
  if (fault !== null) return undetermined(fault);
  const assumptions = [`summed over the ${name}`];
  const lacking: string[] = [];
  const beyond: string[] = [];
  let sumPct = 0;
  for (const apertureUm of aperturesUm) {
    const coarser = coarserAt(apertureUm, grading, choices);
    const own = grading.rows.some((row) => row.apertureUm === apertureUm);
    if (!coarser.determinable && own) beyond.push(coarser.reason);
    else if (!coarser.determinable) lacking.push(apertureText(apertureUm));
    else {
      sumPct += coarser.value;
      assumptions.push(...(coarser.assumptions ?? []));
    }
  }
  if (lacking.length + beyond.length === 0) return computed(sumPct / 100, "1", assumptions);
  const needs = `needs the ${listWords(lacking)} sieve${lacking.length > 1 ? "s" : ""} of the ${name}`;
  return undetermined([...(lacking.length > 0 ? [needs] : []), ...beyond].join("; "));
}

/** Fineness modulus, `FM = (1/100) sum of coarser %` over the sieves of a fixed series; a pure number, the pan apart. */
export const finenessModulus: CharacteristicValue = {
  id: "finenessModulus",
  label: "Fineness modulus",
  unit: "1",
  needs: "every sieve of the series between the finest and the coarsest grain",
  formula: "sum of coarser % over the sieves of the series / 100",
  convention:
    "Series ASTM unless the product names another. Sieves beside the series are skipped, what they held counts on the next finer one. A series sieve at or above the top size counts 0; one finer than the stack counts 100 if the pan is empty; any other that is missing is read from the curve only if the product allows it.",
  source: "ASTM C136; EN 12620 (memory); Sahay and Singh, Unit Operations of Agricultural Processing",
  determine: modulusOf,
};
