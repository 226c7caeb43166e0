import type { Contribution, Sureness } from "../budget.ts";
import type { LimitRange } from "../decision/decide.ts";
import type { WhatDecides } from "../decision/whatDecides.ts";
import type { Measurand } from "../measurand.ts";

/** How a limit stands with the charge in question, and with any other. */
export type PlanVerdict = "decidable" | "larger charge" | "no charge is enough" | "too narrow" | "typical lies outside";

export interface CrossTest {
  readonly spreadPct: number;
  readonly tolerancePct: number;
  /** Width from lower to upper limit; null where one side is open. */
  readonly widthPct: number | null;
  readonly tooNarrow: boolean;
}

/** Grains on the rarer side of a sieve, now and with the charge that is needed. */
export interface PlannedGrains {
  readonly side: "coarser" | "finer";
  readonly grains: number;
  readonly needed: number;
}

/** What judging one limit takes. */
export type PlanLine = LimitRange & { readonly on: Measurand; readonly name: string } & (
    | { readonly planned: false; readonly reason: string }
    | {
        readonly planned: true;
        readonly typical: number;
        readonly unit: string;
        /** Standard uncertainty with the charge in question, expanded by 2, and with any charge however large. */
        readonly u: number;
        readonly U: number;
        readonly uFloor: number;
        /** What u must come down to so that a typical result is inside by its guard band. */
        readonly wantedU: number;
        readonly verdict: PlanVerdict;
        /** The least charge that does; that charge as one would weigh it, the method's least at least; in how many portions. Null where none does. */
        readonly leastG: number | null;
        readonly chargeG: number | null;
        readonly portions: number | null;
        /** Where the uncertainty comes from, most of it, with the charge in question. */
        readonly largest: WhatDecides["largest"];
        /** What is left of it with a charge however large comes from this, most of it. */
        readonly floorFrom: Pick<Contribution, "id" | "label"> | null;
        /** Narrower than this no limit with two ends can be judged, however large the charge; null of one end. */
        readonly leastWidth: number | null;
        /** Only where the count of grains is most of the uncertainty and a larger charge is wanted. */
        readonly grains: PlannedGrains | null;
        /** Only for limits on percentages. */
        readonly crossTest: CrossTest | null;
      }
  );

export type PlannedLine = PlanLine & { readonly planned: true };
export type Sure = Sureness & { readonly determinable: true };
