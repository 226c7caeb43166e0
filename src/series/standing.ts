/**
 * How well a figure of a standard is founded: `seen` in a named publication, recalled from `memory` and to be
 * checked before it decides anything, `computed` by a formula, or the product's `own` choice.
 */
export type Standing = "seen" | "memory" | "computed" | "own";
