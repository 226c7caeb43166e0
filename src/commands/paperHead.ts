import type { Link } from "../store/chainParts.ts";
import type { Verified } from "../store/verify.ts";

/** A head as it stands on paper: how its seal begins, and the number of its entry where that was written too. */
export interface PaperHead {
  readonly number: number | null;
  readonly seal: string;
}

const SHAPE = /^(?:(\d{1,15}):)?([0-9a-f]{8,64})$/;

/** "4413 6fa3 55b3" or "1234:4413-6fa3-55b3" as typed from paper; null when it is neither. */
export function paperHead(typed: string): PaperHead | null {
  const [, number, seal] = SHAPE.exec(typed.toLowerCase().replace(/[\s.-]/g, "")) ?? [];
  if (seal === undefined) return null;
  return { number: number === undefined ? null : Number(number), seal };
}

/** Looks out for the entry that a head on paper names, on the way through the log. */
export class PaperWatch {
  readonly #paper: PaperHead;
  #found: number | null = null;
  #otherSeal: string | null = null;

  constructor(paper: PaperHead) {
    this.#paper = paper;
  }

  readonly passing = ({ number }: Link, seal: string): void => {
    if (seal.startsWith(this.#paper.seal) && (this.#paper.number ?? number) === number) this.#found ??= number;
    if (number === this.#paper.number) this.#otherSeal = seal;
  };

  /** What the paper proves: the number of the entry that bears it out, or in words why none does. */
  verdict(head: Verified["head"], shown: (seal: string) => string): { holds: number } | { fails: string } {
    if (this.#found !== null) return { holds: this.#found };
    const { number, seal } = this.#paper;
    const end = head === null ? "the log is empty" : `the log ends with entry ${head.number}`;
    if (number === null)
      return { fails: `no entry has a seal that begins ${shown(seal)}, and ${end}: it was cut short or changed since` };
    if (this.#otherSeal !== null)
      return {
        fails: `entry ${number} has the seal ${shown(this.#otherSeal)}, not ${shown(seal)}: the log was changed since`,
      };
    return { fails: `entry ${number} is not in the log, and ${end}: it was cut short since` };
  }
}
