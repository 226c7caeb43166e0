import { type Reading, type ReadingMarks, readingOf } from "./reading.ts";

/** What a station has settled about scanners and typing balances: prefixes by what a scan then is, and marks of the balance. */
export interface BurstForms<Of extends string> {
  readonly prefixes?: { readonly [of in Of]?: string | undefined } | undefined;
  readonly balance?: ReadingMarks | undefined;
}

/** What came in one go: a scan that says what it is, a line that is hardly anything but a mass, or a text. */
export type Burst<Of extends string> =
  | { readonly kind: "scan"; readonly of: Of; readonly text: string }
  | { readonly kind: "mass"; readonly massG: Reading["massG"]; readonly text: string }
  | { readonly kind: "text"; readonly text: string };

/**
 * What a scanner, a balance or a paste sent in one go is. A prefix counts in any case, and the text behind it must not be
 * empty. A number alone is a text: it could be a lot.
 *
 * @returns the text without prefix and without spaces around it
 * @source own choice: labels of a plant begin as the plant says
 * @example burstOf("LOT:4471-B", { prefixes: { lot: "LOT:" } }) // => { kind: "scan", of: "lot", text: "4471-B" }
 * @example burstOf("+  521.40 g", {}).kind // => "mass"
 */
export function burstOf<Of extends string>(sent: string, { prefixes = {}, balance }: BurstForms<Of>): Burst<Of> {
  const text = sent.trim();
  const whole = text.toLowerCase();
  for (const [of, prefix] of Object.entries(prefixes) as [Of, string][]) {
    const rest = text.slice(prefix.length).trim();
    if (rest !== "" && whole.startsWith(prefix.toLowerCase())) return { kind: "scan", of, text: rest };
  }
  const { marked, massG } = readingOf(text, balance);
  return marked ? { kind: "mass", massG, text } : { kind: "text", text };
}
