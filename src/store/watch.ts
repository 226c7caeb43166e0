import type { Link } from "./chainParts.ts";
import type { Met, Replaced } from "./witness.ts";

/** Looks out, on the way through a log, for what its witnesses name and for copies that were restored on purpose. */
export class Watch {
  readonly met = new Map<number, Met>();
  readonly replaced: Replaced[] = [];
  readonly #numbers: ReadonlySet<number>;
  #sealsOfDay: string[] = [];

  constructor(numbers: Iterable<number>) {
    this.#numbers = new Set(numbers);
  }

  beginDay(): void {
    this.#sealsOfDay = [];
  }

  readonly sealOfNth = (n: number): string | undefined => this.#sealsOfDay[n];

  pass(link: Link, seal: string, file: string): void {
    this.#sealsOfDay.push(seal);
    if (this.#numbers.has(link.number)) this.met.set(link.number, { seal, file });
    const replaced = replacedBy(link);
    if (replaced !== null) this.replaced.push(replaced);
  }
}

/** What an entry that tells of a restored copy says of the log that it replaced. */
function replacedBy(link: Link & { readonly kind?: unknown; readonly replaced?: unknown; readonly at?: unknown }) {
  const { kind, replaced, at } = link;
  if (kind !== "restored" || typeof replaced !== "object" || replaced === null || typeof at !== "string") return null;
  return "number" in replaced && typeof replaced.number === "number"
    ? { number: replaced.number, atMs: Date.parse(at) }
    : null;
}
