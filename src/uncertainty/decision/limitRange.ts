/** Both bounds inclusive; null where that side is open. */
export interface LimitRange {
  readonly min: number | null;
  readonly max: number | null;
}
