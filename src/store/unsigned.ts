import { type LogEntry, LogEntrySchema } from "../record/logEntry.ts";
import type { SignOnRule } from "../record/roles.ts";
import { type SignOnGap, signOnGaps } from "../record/signOnGaps.ts";
import type { Link } from "./chainParts.ts";

/** So many are named; the rest is counted. */
const NAMED = 20;

/** Looks out, on the way through a log, for entries made without sign-on where the station had declared that it takes one. */
export class UnsignedWatch {
  readonly named: SignOnGap[] = [];
  count = 0;
  #rule: SignOnRule = "none";

  readonly pass = (link: Link & { readonly kind?: unknown; readonly signedOn?: unknown }): void => {
    const matters = link.kind === "station declared" || (this.#rule === "required" && link.signedOn !== true);
    const entry = matters ? LogEntrySchema.safeParse(link) : null;
    if (entry?.success) this.#take(entry.data);
  };

  #take(entry: LogEntry): void {
    const { gaps, rule } = signOnGaps([entry], this.#rule);
    this.#rule = rule;
    this.count += gaps.length;
    if (this.named.length < NAMED) this.named.push(...gaps);
  }
}
