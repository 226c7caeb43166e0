import { accepted, type Outcome, refused } from "../entry/outcome.ts";

/** The most that an exchanged file may hold. */
export const MOST_BYTES = 1024 * 1024;

/**
 * The text of an exchanged file: UTF-8, with or without a byte-order mark, at most 1 MiB.
 *
 * @returns the text without its mark, or what is wrong with the bytes as a whole and what to do
 */
export function fileText(bytes: Uint8Array): Outcome<string> {
  if (bytes.length > MOST_BYTES) return refused("is larger than 1 MiB: this is not a file for Sievewright");
  if (bytes.length === 0) return refused("is empty");
  try {
    return accepted(new TextDecoder("utf-8", { fatal: true }).decode(bytes));
  } catch {
    return refused("is not UTF-8 text: save it again as UTF-8");
  }
}
