import { type LogEntry, LogEntrySchema } from "../record/logEntry.ts";
import type { SignOnRule } from "../record/roles.ts";
import { type SignOnGap, signOnGaps } from "../record/signOnGaps.ts";
import type { Link } from "./chainParts.ts";
import { type Listed, listedIn, type PeopleInLog } from "./operatorsRule.ts";

/** So many are named; the rest is counted. */
const NAMED = 20;

/** Looks out, on the way through a log, for entries made without sign-on where the station had declared that it takes one. */
export class UnsignedWatch {
  readonly named: SignOnGap[] = [];
  count = 0;
  #rule: SignOnRule = "none";
  #listed: Listed | null = null;

  readonly pass = (link: Link & { readonly kind?: unknown; readonly signedOn?: unknown }): void => {
    const matters = link.kind === "station declared" || (this.#rule === "required" && link.signedOn !== true);
    const entry = matters || "listSha256" in link ? LogEntrySchema.safeParse(link) : null;
    if (entry?.success) this.#take(entry.data);
  };

  /** What the station last declared, and the list of people that the log last told of. */
  get people(): PeopleInLog {
    return { rule: this.#rule, listed: this.#listed };
  }

  #take(entry: LogEntry): void {
    const { gaps, rule } = signOnGaps([entry], this.#rule);
    this.#rule = rule;
    this.#listed = listedIn(entry) ?? this.#listed;
    this.count += gaps.length;
    if (this.named.length < NAMED) this.named.push(...gaps);
  }
}
