/** How one invented product really runs: a log-normal grading that wanders from day to day. */
export interface Recipe {
  readonly code: string;
  readonly line: string;
  readonly samplingPoint: string;
  readonly lotPrefix: string;
  readonly d50Um: number;
  /** Geometric standard deviation of the grading, as a ratio. */
  readonly spread: number;
  readonly chargeG: number;
  /** How far d50 wanders from day to day, and from test to test within a day, as parts of itself. */
  readonly wander: number;
  readonly scatter: number;
  /** How often it is tested, relative to the others. */
  readonly often: number;
}

/** Tessel Hollow, invented from end to end. */
export const RECIPES: readonly [Recipe, ...Recipe[]] = [
  {
    code: "TH-0510",
    line: "Dryer 1",
    samplingPoint: "discharge",
    lotPrefix: "44",
    d50Um: 742,
    spread: 1.4,
    chargeG: 300,
    wander: 0.028,
    scatter: 0.018,
    often: 4,
  },
  {
    code: "TH-MAS",
    line: "Screen deck B",
    samplingPoint: "belt 4",
    lotPrefix: "09",
    d50Um: 436,
    spread: 1.95,
    chargeG: 400,
    wander: 0.045,
    scatter: 0.035,
    often: 3,
  },
  {
    code: "TH-BAR",
    line: "Mill 2",
    samplingPoint: "below mill",
    lotPrefix: "M2",
    d50Um: 900,
    spread: 1.9,
    chargeG: 100,
    wander: 0.055,
    scatter: 0.04,
    often: 2,
  },
  {
    code: "TH-PG3",
    line: "Granulator",
    samplingPoint: "cooler exit",
    lotPrefix: "G3",
    d50Um: 3000,
    spread: 1.12,
    chargeG: 200,
    wander: 0.013,
    scatter: 0.012,
    often: 1,
  },
];
