import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import type { ClassMean } from "../record/product.ts";
import { classSizeUm } from "./classSize.ts";
import type { Grading, GradingChoices } from "./grading.ts";
import { type PanEnd, panEnd, type TopEnd, topEnd } from "./openEnds.ts";
import { remembered } from "./remembered.ts";
import { sizeFault, standsAtUm } from "./standsAt.ts";

export interface SizeClass {
  readonly sizeUm: number;
  /** Share of the mass in all classes, 0 to 1. */
  readonly share: number;
}

export interface SizeClasses {
  readonly classes: readonly SizeClass[];
  readonly assumptions: readonly string[];
}

type Held = { readonly sizeUm: number; readonly heldPct: number };

function panClass(grading: Grading, pan: PanEnd, mean: ClassMean): Held[] {
  const heldPct = grading.rows.at(-1)?.retainedPct ?? 0;
  const finest = grading.rows.at(-2);
  const finestUm = finest ? standsAtUm(finest) : 0;
  if (pan.kind === "sized") return [{ sizeUm: pan.sizeUm, heldPct }];
  return pan.kind === "bounded" ? [{ sizeUm: classSizeUm(pan.lowerUm, finestUm, mean), heldPct }] : [];
}

function sieveClasses({ rows }: Grading, top: TopEnd, mean: ClassMean): Held[] {
  return rows.slice(0, -1).flatMap((row, i) => {
    const coarser = rows[i - 1];
    const upperUm = coarser ? standsAtUm(coarser) : top.boundUm;
    const heldPct = row.retainedPct;
    return heldPct > 0 ? [{ sizeUm: classSizeUm(standsAtUm(row), upperUm, mean), heldPct }] : [];
  });
}

function told(top: TopEnd, pan: PanEnd, otherMean: ClassMean | null): string[] {
  const ends = [top.assumption, pan.kind === "empty" ? null : pan.assumption];
  const mean = otherMean && `class size: ${otherMean} mean`;
  return [...ends, mean].filter((words) => words !== null);
}

function classesOf(grading: Grading, choices: GradingChoices, ownMean: ClassMean): Outcome<SizeClasses> {
  const mean = choices.classMean ?? ownMean;
  const fault = sizeFault(grading);
  if (fault !== null) return refused(fault);
  const [top, pan] = [topEnd(grading, choices), panEnd(grading, choices)];
  if (!top.ok) return top;
  if (!pan.ok) return pan;
  const held = [...sieveClasses(grading, top.value, mean), ...panClass(grading, pan.value, mean)];
  const sumPct = held.reduce((sum, { heldPct }) => sum + heldPct, 0);
  if (sumPct === 0) return refused("everything lies in the pan, which is left out");
  const classes = held.map(({ sizeUm, heldPct }) => ({ sizeUm, share: heldPct / sumPct }));
  return accepted({ classes, assumptions: told(top.value, pan.value, mean === ownMean ? null : mean) });
}

const classesBy = (ownMean: ClassMean) =>
  remembered((grading: Grading) => remembered((choices: GradingChoices) => classesOf(grading, choices, ownMean)));

const CLASSES = {
  arithmetic: classesBy("arithmetic"),
  geometric: classesBy("geometric"),
  logarithmic: classesBy("logarithmic"),
};

/**
 * The fractions as classes of one size each, with their shares of the mass; classes that hold nothing are left out.
 * A class reaches from its sieve to the next coarser one of the stack; the ends are those of `openEnds` (CP-9).
 *
 * @param ownMean the class size of the value's own definition; the product's choice beats it and is told (CP-12)
 * @returns at least one class, shares adding to 1, and the assumptions made; or why there is none
 */
export const sizeClasses = (grading: Grading, choices: GradingChoices, ownMean: ClassMean): Outcome<SizeClasses> =>
  CLASSES[ownMean](grading)(choices);
