import { significant } from "../../grading/rounding.ts";
import { type Determination, determined, undetermined } from "../../record/determination.ts";
import type { Frame } from "../../record/procedure.ts";
import type { LoadRule } from "../rules/ruleSet.ts";
import { sieveWords } from "../wording.ts";
import { frameAreaMm2 } from "./frame.ts";

/**
 * The mass in g that one sieve may hold at the end of sieving.
 *
 *     area:              7 kg/m2 x effective area below 4.75 mm;  2.5 x aperture(mm) x effective area from there
 *     root of aperture:  0.005 x A(mm2) x sqrt(aperture(mm))
 *     own:               the product's limit for this sieve, else its limit for all
 *
 * The effective diameter of the area rule (frame less 12.7 mm) is computed from the published 200 g and 469 g.
 *
 * @returns unit "g", with the area it rests on; not determinable without a frame or a limit
 * @source ASTM C136/C136M-19 clause 8 (seen); EN 933-1 (formula seen)
 */
export function fairLoadG(rule: LoadRule, apertureUm: number, frame: Frame | undefined): Determination {
  if (rule.kind === "own") return ownLimitG(rule, apertureUm);
  if (frame === undefined) return undetermined("the frame of the sieves is not given");
  const areaMm2 = frameAreaMm2(frame, rule.kind === "area" ? rule.rimMm : 0);
  if (areaMm2 === 0) return undetermined("the frame leaves no sieving area");
  const limitG =
    areaMm2 * (rule.kind === "area" ? gPerMm2(rule, apertureUm) : rule.gPerMm2 * Math.sqrt(apertureUm / 1000));
  return determined(limitG, "g", [`sieving area ${significant(areaMm2 / 1e6, 4)} m2`]);
}

function gPerMm2(rule: Extract<LoadRule, { kind: "area" }>, apertureUm: number): number {
  const coarse = apertureUm >= rule.coarseFromUm;
  return (coarse ? (rule.coarseKgPerM2PerMm * apertureUm) / 1000 : rule.fineKgPerM2) / 1000;
}

function ownLimitG(rule: Extract<LoadRule, { kind: "own" }>, apertureUm: number): Determination {
  const limitG = rule.perSieve.find((sieve) => sieve.apertureUm === apertureUm)?.limitG ?? rule.limitG;
  return limitG === null
    ? undetermined(`the product sets no load for ${sieveWords(apertureUm)}`)
    : determined(limitG, "g");
}
