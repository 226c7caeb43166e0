import { alternating, beyond, type Pattern, shunning, steady, within } from "./zone.ts";

/** A run rule: what it sees, in words, and the pattern. */
export interface RunRule {
  readonly words: string;
  readonly pattern: Pattern;
}

/**
 * Every run rule by what it sees. Zones are strict: a value on a line is not beyond it, one on the centre line is on
 * neither side. "6 rising" are six points, so five steps.
 *
 * @source Western Electric, Statistical Quality Control Handbook (1956); L. S. Nelson, J. Qual. Technol. 16 (1984)
 *   237-239; both from memory
 */
export const RUN_RULES = {
  "1-beyond-3-sigma": { words: "1 beyond 3 sigma", pattern: beyond(1, 1, 3) },
  "2-of-3-beyond-2-sigma": { words: "2 of 3 beyond 2 sigma on one side", pattern: beyond(2, 3, 2) },
  "4-of-5-beyond-1-sigma": { words: "4 of 5 beyond 1 sigma on one side", pattern: beyond(4, 5, 1) },
  "8-on-one-side": { words: "8 on one side", pattern: beyond(8, 8, 0) },
  "9-on-one-side": { words: "9 on one side", pattern: beyond(9, 9, 0) },
  "6-rising-or-falling": { words: "6 steadily rising or falling", pattern: steady(6) },
  "14-up-and-down": { words: "14 going up and down in turn", pattern: alternating(14) },
  "15-within-1-sigma": { words: "15 within 1 sigma", pattern: within(15, 1) },
  "8-outside-1-sigma": { words: "8 on both sides, none within 1 sigma", pattern: shunning(8, 1) },
} as const satisfies Readonly<Record<string, RunRule>>;

export type RunRuleId = keyof typeof RUN_RULES;
export const RUN_RULE_IDS = Object.keys(RUN_RULES) as readonly RunRuleId[];

/** The four zone rules of the Western Electric handbook, with 8 on one side. */
export const WESTERN_ELECTRIC_RULES: readonly RunRuleId[] = [
  "1-beyond-3-sigma",
  "2-of-3-beyond-2-sigma",
  "4-of-5-beyond-1-sigma",
  "8-on-one-side",
];

/** Nelson's eight tests, with 9 on one side. */
export const NELSON_RULES: readonly RunRuleId[] = [
  "1-beyond-3-sigma",
  "9-on-one-side",
  "6-rising-or-falling",
  "14-up-and-down",
  "2-of-3-beyond-2-sigma",
  "4-of-5-beyond-1-sigma",
  "15-within-1-sigma",
  "8-outside-1-sigma",
];
