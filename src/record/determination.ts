/**
 * A number drawn from a distribution, or the reason why there is none. Never NaN, never a silent zero.
 * `unit` is "um", "mm", "1", "%", "phi", ... ; `assumptions` tells in words what the number rests on
 * besides the weighings (an assumed top size, an interpolated sieve).
 */
export type Determination =
  | {
      readonly determinable: true;
      readonly value: number;
      readonly unit: string;
      readonly assumptions?: readonly string[];
    }
  | { readonly determinable: false; readonly reason: string };

export const determined = (value: number, unit: string, assumptions: readonly string[] = []): Determination =>
  assumptions.length > 0 ? { determinable: true, value, unit, assumptions } : { determinable: true, value, unit };

export const undetermined = (reason: string): Determination => ({ determinable: false, reason });
