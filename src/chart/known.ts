/** Whether there is a number to draw; what is null, NaN or endless is a gap. */
export const isKnown = (value: number | null | undefined): value is number =>
  typeof value === "number" && Number.isFinite(value);
