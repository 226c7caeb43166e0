import type { LogEntry } from "../record/logEntry.ts";
import type { SignOnRule } from "../record/roles.ts";

/** What stands on every page of a station: whether the names on it were proven. */
export const signOnWords = (rule: SignOnRule): string =>
  rule === "required"
    ? "people sign on at this station with initials and PIN"
    : "initials are not checked by PIN at this station";

/** Who an entry is by, and whether a PIN stands behind it. */
export const signedWords = ({ by, signedOn }: Pick<LogEntry, "by" | "signedOn">): string =>
  signedOn === true ? `signed ${by} with PIN` : `signed ${by}, initials not checked by PIN`;
