import { createHash } from "node:crypto";
import canonicalize from "canonicalize";

/** What the first entry of a log holds in place of the seal of an entry before it. */
export const FIRST_PREVIOUS = "0".repeat(64);

/**
 * Seal of a log entry: the SHA-256, in lower-case hexadecimal, of its canonical JSON (RFC 8785) as UTF-8. Spacing and
 * the order of fields don't count, every name and every value does. The next entry holds it as `previous`.
 * Throws where there is no canonical JSON (NaN, Infinity): such an entry must never have been made.
 */
export function sealOf(entry: object): string {
  const canonical = canonicalize(entry);
  if (canonical === undefined) throw new TypeError("an entry without canonical JSON cannot be sealed");
  return createHash("sha256").update(canonical, "utf8").digest("hex");
}

/** SHA-256 of a text as UTF-8, in lower-case hexadecimal. */
export const sha256Of = (text: string): string => createHash("sha256").update(text, "utf8").digest("hex");

/**
 * The first 12 hexadecimal digits of a seal in groups of four: short enough for paper, and still one in 2.8e14 that another
 * seal has the same.
 *
 * @example shortSeal("44136fa355b3678a1146ad16f7e8649e94fb4fc21fe77e8310c060f61caaff8a") // => "4413 6fa3 55b3"
 */
export const shortSeal = (seal: string): string => seal.slice(0, 12).match(/.{4}/g)?.join(" ") ?? seal;
