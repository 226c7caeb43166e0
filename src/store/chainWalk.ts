import { sealOf } from "../record/seal.ts";
import type { Break, Link, Run } from "./chainParts.ts";
import { ChainRuns, orderBreak } from "./chainRuns.ts";
import { movedFrom } from "./chainWords.ts";

/** Asked of each entry on the way: the entry as it lies in the file, its seal, the file. */
export type Passing = (link: Link, seal: string, file: string) => void;

/** Walks a chain a day's file at a time, the files in any order, and keeps no more of it than its ends and its gaps. */
export class ChainWalk {
  readonly #runs = new ChainRuns();
  readonly #passing: Passing;
  #entries = 0;

  constructor(passing: Passing = () => undefined) {
    this.#passing = passing;
  }

  get entries(): number {
    return this.#entries;
  }

  /** The entries of one day, in the order of its file. */
  day(file: string, day: string, links: readonly Link[]): void {
    const open = links.reduce<Run | null>((run, link) => this.#longer(run, this.#alone(file, day, link)), null);
    if (open !== null) this.#runs.add(open);
  }

  note(...found: readonly Break[]): void {
    this.#runs.note(...found);
  }

  end(): Run | null {
    return this.#runs.end();
  }

  firstBreak(goneBetween: (before: Run | null, after: Run) => string | null = () => null): Break | null {
    return this.#runs.firstBreak(goneBetween);
  }

  #alone(file: string, day: string, link: Link): Run {
    const seal = sealOf(link);
    this.#entries += 1;
    this.#passing(link, seal, file);
    const { number, previous } = link;
    if (link.day !== day) this.note(movedFrom(file, number, link.day, day));
    return { first: number, firstFile: file, previous, last: number, lastFile: file, lastDay: day, lastSeal: seal };
  }

  /** The run with one more entry of its file; where that doesn't follow, the run is put away and a new one begins. */
  #longer(run: Run | null, one: Run): Run {
    if (run === null) return one;
    if (one.first === run.last + 1 && one.previous === run.lastSeal)
      return { ...run, last: one.last, lastSeal: one.lastSeal };
    const disorder = orderBreak(one.firstFile, run, one.first);
    if (disorder !== null) this.note(disorder);
    this.#runs.add(run);
    return one;
  }
}
