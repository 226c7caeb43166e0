import { apertureText } from "../series/apertureText.ts";
import type { BalanceCondition, CalibrationCondition, WeightCondition } from "./balanceCondition.ts";
import { type Condition, WEIGHED_NEXT } from "./conditionOf.ts";
import type { CareKnown } from "./known.ts";
import type { TareFinding } from "./tare/finding.ts";
import { dayOf, grams } from "./words.ts";

/** Something about a sieve, balance or weight that whoever works here must know. */
export interface CareMatter {
  /** Serial, or what it is: "balance B1". */
  readonly of: string;
  /** "stop": not to be used so; "act": to be seen to; "soon": falls due. */
  readonly grade: "stop" | "act" | "soon";
  /** In a few words, with what to do. */
  readonly text: string;
}

const GRADES: readonly CareMatter["grade"][] = ["stop", "act", "soon"];

function tareWords({ state, offG, since }: TareFinding, readabilityG: number): string | null {
  const mass = grams(Math.abs(offG ?? 0), readabilityG);
  const from = since === null ? "" : ` since ${dayOf(since)}`;
  if (state === "caught") return `${mass} of grains caught${from}: clean it`;
  if (state === "step up") return `${mass} heavier in one step${from}: clean it, compare its serial`;
  if (state === "step down") return `${mass} lighter in one step${from}: look for damage, compare its serial`;
  return state === "wearing" ? `${mass} lighter, slowly${from}: wear, measure its apertures` : null;
}

/** What its empty masses say; grains of a sieve that was cleaned since are on their way out, not to be seen to. */
function ofTare(of: string, { tare, cleanedOn }: Condition, readabilityG: number): CareMatter[] {
  const text = tare === null ? null : tareWords(tare, readabilityG);
  if (tare === null || text === null) return [];
  if (cleanedOn === null || (tare.state !== "caught" && tare.state !== "step up")) return [{ of, grade: "act", text }];
  const mass = grams(Math.abs(tare.offG ?? 0), readabilityG);
  return [{ of, grade: "soon", text: `was ${mass} heavier; cleaned since, ${WEIGHED_NEXT}` }];
}

function ofSieve(condition: Condition, readabilityG: number): CareMatter[] {
  const { serial, apertureUm, state, text, registered } = condition;
  if (registered === "retired") return [];
  const of = `${serial} (${apertureText(apertureUm)})`;
  const grade = ({ fit: null, due: "soon", overdue: "act", "out of service": "stop" } as const)[state];
  return [...(grade === null ? [] : [{ of, grade, text }]), ...ofTare(of, condition, readabilityG)];
}

function ofCalibration(of: string, { state, text }: CalibrationCondition): CareMatter[] {
  if (state === "overdue") return [{ of, grade: "act", text }];
  return state === "due" ? [{ of, grade: "soon", text }] : [];
}

const ofBalance = (one: BalanceCondition): CareMatter[] => ofCalibration(`balance ${one.id}`, one);
const ofWeight = (one: WeightCondition): CareMatter[] => ofCalibration(`check weight ${one.weight}`, one);

/** What moved all sieves of a set together is said once. */
function together(sieves: readonly Condition[]): CareMatter[] {
  const texts = new Set(sieves.flatMap(({ together: common }) => (common === null ? [] : [common.text])));
  return [...texts].map((text) => ({ of: "balance", grade: "act" as const, text }));
}

/**
 * What of sieves, balances and weights is to be told to whoever works here, the most pressing first: what must not be used,
 * what is overdue or shows by its empty masses, what falls due. Sieves that are retired concern nobody.
 */
export function careMatters({ conditions, balance }: CareKnown): readonly CareMatter[] {
  const all = [
    ...together(conditions.sieves),
    ...conditions.sieves.flatMap((condition) => ofSieve(condition, balance.readabilityG)),
    ...conditions.balances.flatMap(ofBalance),
    ...conditions.weights.flatMap(ofWeight),
  ];
  return gathered(all).toSorted((a, b) => GRADES.indexOf(a.grade) - GRADES.indexOf(b.grade));
}

/** Sieves of which the same is to be told are told of together. */
function gathered(all: readonly CareMatter[]): CareMatter[] {
  const alike = new Map<string, CareMatter[]>();
  for (const matter of all) {
    const key = `${matter.grade} ${matter.text}`;
    alike.set(key, [...(alike.get(key) ?? []), matter]);
  }
  return [...alike.values()].flatMap(([first, ...others]) => {
    if (first === undefined) return [];
    return [others.length === 0 ? first : { ...first, of: `${first.of} and ${others.length} more` }];
  });
}
