import type { Care } from "../record/care.ts";
import type { CareEntry, RegisteredEntry } from "../record/logEntry.ts";
import { itemName } from "../record/register.ts";

/** Serials in a sentence: all of a few, of many how many more. */
function serialWords(serials: readonly string[]): string {
  const shown = serials.slice(0, 6).join(", ");
  return serials.length > 6 ? `${shown} and ${serials.length - 6} more` : shown;
}

function inspectionWords({ serial, looks, measured }: Extract<Care, { did: "inspection" }>): string {
  const faulty = Object.entries(looks).flatMap(([look, found]) => (found === "faulty" ? [look] : []));
  const eye =
    faulty.length === 0
      ? `sieve ${serial} looked over, no fault seen`
      : `sieve ${serial} looked over, FAULTY: ${faulty.join(", ")}`;
  const count = (measured?.warpUm.length ?? 0) + (measured?.weftUm?.length ?? 0);
  return count > 0 ? [eye, `${count} apertures measured`].join(", ") : eye;
}

/** What was done to look after sieves, without when and by whom. */
export function careWords({ care }: Pick<CareEntry, "care">): string {
  switch (care.did) {
    case "cleaning":
      return `sieve ${serialWords(care.serials)} cleaned: ${care.how}`;
    case "repair":
      return `sieve ${serialWords(care.serials)} repaired: ${care.what}`;
    case "quarantine":
      return `sieve ${serialWords(care.serials)} quarantined (${care.reason})`;
    case "return to service":
      return `sieve ${serialWords(care.serials)} returned to service (${care.reason})`;
    case "retirement":
      return `sieve ${serialWords(care.serials)} retired (${care.reason})`;
    case "inspection":
      return inspectionWords(care);
    case "reference check":
      return `reference material ${care.material.code} run on ${serialWords(care.found.flatMap((f) => f.serial ?? `${f.apertureUm} um`))}`;
  }
}

/** What of the register was written, without when and by whom. */
export const registeredWords = ({ item, reason }: Pick<RegisteredEntry, "item" | "reason">): string =>
  reason === undefined ? `${itemName(item)} registered` : `${itemName(item)} registered anew (${reason})`;
