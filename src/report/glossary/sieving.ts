import type { Term } from "./term.ts";

/** Words of the sieving itself: what is weighed, on what, how. */
export const SIEVING_TERMS = {
  sieve: {
    name: "sieve",
    meaning: "A test sieve with square openings of one nominal size, told apart by its serial.",
    also: ["test sieve"],
  },
  aperture: {
    name: "aperture",
    meaning:
      "The width of a sieve's openings, in um below 1 mm and in mm from there; nominal unless measured or certified is said.",
    also: ["opening", "mesh width"],
  },
  designation: {
    name: "designation",
    meaning:
      "The name of an aperture in a series of sieves, such as No. 30 or 3/8 in.; stored and reckoned with is always its size.",
    also: ["mesh number"],
  },
  pan: {
    name: "pan",
    meaning: "The receiver below the finest sieve; what lies in it passed every sieve.",
    also: ["receiver"],
  },
  stack: { name: "stack", meaning: "The sieves of a test in order, coarsest on top, with the pan." },
  set: {
    name: "set of sieves",
    meaning:
      "Single sieves, each by its serial, that are used together as one stack; wear and empty masses are kept for each of them.",
    also: ["set"],
  },
  increment: {
    name: "increment",
    meaning: "What is taken in one go from the stream or heap; several are put together to the sample.",
    also: ["sample"],
  },
  division: {
    name: "division",
    meaning: "Making a sample smaller without changing its sizes, as by a riffle; each half stands for the whole.",
    also: ["splitting", "riffle"],
  },
  charge: {
    name: "charge",
    meaning:
      "The test portion that is put on the top sieve, as weighed, in g; of a washed test the dry mass before washing.",
    also: ["test portion"],
  },
  portion: {
    name: "portion",
    meaning:
      "A part of the charge where all of it would overload the sieves; what each portion leaves on a sieve is added up.",
  },
  empty: {
    name: "empty mass",
    meaning: "What a sieve or the pan weighs alone, clean and dry, in g.",
    also: ["tare", "empties"],
  },
  full: { name: "full mass", meaning: "What a sieve or the pan weighs with its fraction, in g." },
  net: { name: "net mass", meaning: "Full less empty: what a sieve or the pan holds, in g." },
  fraction: { name: "fraction", meaning: "What one sieve or the pan holds after sieving." },
  retained: { name: "retained %", meaning: "The mass of one fraction, in % of the whole." },
  coarser: { name: "coarser %", meaning: "All that stayed on a sieve and on those above it, in % of the whole." },
  passing: {
    name: "passing %",
    meaning: "All that went through a sieve, in % of the whole; over the aperture it is the curve that is drawn.",
    also: ["finer %"],
  },
  basis: {
    name: "basis",
    meaning: "What the percentages are of: the recovered total, or the charge as weighed, as the product says.",
  },
  recovered: { name: "recovered", meaning: "The sum of all net masses: what was found again after sieving, in g." },
  loss: {
    name: "loss",
    meaning:
      "The charge less all that was recovered, in % of the charge; too much, either way, and the test proves nothing.",
    also: ["closure", "mass balance"],
  },
  program: {
    name: "program",
    meaning: "How the shaker is to run: motion, stroke or acceleration, time, pauses, aids, dry or wet.",
  },
  stroke: {
    name: "stroke",
    meaning: "How far the shaker moves from one end to the other (peak to peak), in mm: twice the amplitude.",
  },
  acceleration: { name: "acceleration", meaning: "The peak acceleration of the sieve, in g (9.80665 m/s2)." },
  throwNumber: {
    name: "throw number",
    meaning: "Peak acceleration over gravity: above 1 the grains leave the cloth.",
  },
  checkMinute: {
    name: "check minute",
    meaning: "One more minute on the shaker, then weighed again: what still moves tells whether sieving was complete.",
  },
  endPoint: {
    name: "end point",
    meaning: "Sieving is complete when what passes in one more minute stays below a limit.",
  },
  load: {
    name: "fair load",
    meaning:
      "The most that a sieve may hold at the end without its openings being covered; beyond it, grains stay that would pass.",
    also: ["overload"],
  },
  blinding: {
    name: "blinding",
    meaning: "Openings clogged by grains of nearly their size; the sieve then acts finer than it is.",
  },
  moisture: {
    name: "moisture",
    meaning: "The water in the sample, in % of its dry mass, from a part weighed moist and again dry.",
  },
  washLoss: {
    name: "wash loss",
    meaning: "What was washed out of the charge through the finest sieve; it counts with the pan.",
  },
} as const satisfies Record<string, Term>;
