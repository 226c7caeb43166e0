import type { GradingChoices, GradingMasses } from "../../src/grading/grading.ts";
import type { Budget, Contribution, Sureness } from "../../src/uncertainty/budget.ts";
import type { ComponentId, Conditions } from "../../src/uncertainty/conditions.ts";
import type { Graded } from "../../src/uncertainty/graded.ts";
import { choices, graded } from "../grading/stack.ts";

/** A graded test of these net masses: "4000:3 2000:14 pan:2". */
export const testOf = (
  text: string,
  masses: Partial<GradingMasses> = {},
  some: Partial<GradingChoices> = {},
): Graded => ({ grading: graded(text, masses), choices: choices(some) });

/** A sand of about 300 g on eight sieves. */
export const SAND = "2000:3 1400:9 1000:31 710:58 500:82 355:63 250:34 125:16 pan:4";

export const sand = (masses: Partial<GradingMasses> = {}): Graded => testOf(SAND, masses);

/** A workshop of which everything is known. */
export const ALL_KNOWN: Conditions = {
  balance: { readabilityG: 0.01, repeatabilityG: 0.02, linearityG: 0.02, driftG: 0.03 },
  apertures: {},
  material: { particleDensityKgM3: 2650 },
  sampling: { kind: "stated", sdPctAt50: 0.5 },
  endPoint: { remainderPct: 0.1 },
};

export type Sure = Sureness & { readonly determinable: true };

export function sureOf(found: Sureness | undefined): Sure {
  if (!found?.determinable) throw new Error(found?.reason ?? "not there");
  return found;
}

export const passingSure = (budget: Budget, apertureUm: number): Sure =>
  sureOf(budget.passing.find((each) => each.name === `passingPct@${apertureUm}`));

export const askedSure = (budget: Budget, name: string): Sure =>
  sureOf(budget.asked.find((each) => each.name === name));

export const partOf = (sure: Sure, id: ComponentId): Contribution => {
  const part = sure.components.find((each) => each.id === id);
  if (!part) throw new Error(`no component ${id}`);
  return part;
};

export function uPart(sure: Sure, id: ComponentId): number {
  const part = partOf(sure, id);
  if (!part.included) throw new Error(part.reason);
  return part.u;
}
