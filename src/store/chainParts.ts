/** What of an entry its place in the chain depends on; nothing else of it is looked at but through its seal. */
export interface Link {
  readonly number: number;
  readonly day: string;
  readonly previous: string;
}

/** Entries that follow on one another, reduced to their two ends; a sound log is a single run. */
export interface Run {
  readonly first: number;
  readonly firstFile: string;
  readonly previous: string;
  readonly last: number;
  readonly lastFile: string;
  readonly lastDay: string;
  readonly lastSeal: string;
}

/** The first place where a log is not what was recorded. */
export interface Break {
  readonly file: string;
  readonly entry: number;
  readonly how: string;
}
