/** One weighing of an empty sieve. Weighings of one test share its `round`. */
export interface EmptyWeighing {
  readonly at: string;
  readonly emptyG: number;
  readonly round: string;
  /** Weighed right after cleaning. */
  readonly cleaned?: boolean;
}

/** The empty weighings of one sieve since it last began anew (first use, repair, a new normal accepted). */
export interface TareHistory {
  readonly serial: string;
  /** 0: the pan. */
  readonly apertureUm: number;
  readonly weighings: readonly EmptyWeighing[];
}

/** What the balance can tell, and from which change on anything is said. */
export interface TareChoice {
  readonly readabilityG: number;
  /** Standard deviation of weighing the same mass again; half the readability where it is not known. */
  readonly repeatabilityG?: number;
  /** A smaller change is not told; five times the readability. */
  readonly actionG?: number;
}

/**
 * Change of an empty mass in g from which on it is told: five times the readability, unless chosen otherwise.
 *
 * @source plant practice: a suggestion, recalled
 * @example actionLimitG({ readabilityG: 0.01 }) // => 0.05
 */
export const actionLimitG = ({ readabilityG, actionG }: TareChoice): number => actionG ?? 5 * readabilityG;
