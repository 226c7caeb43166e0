/** A seeded source of chance that the caller brings: numbers spread evenly from 0 up to, not including, 1. */
export type Random = () => number;

/** A whole number from 0 to `below` - 1. */
export const wholeBelow = (below: number, random: Random): number => Math.min(below - 1, Math.floor(random() * below));
