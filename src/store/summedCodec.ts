import { type Kind, readRecord } from "../record/migrate.ts";
import { sha256Of } from "../record/seal.ts";
import type { Codec } from "./durableFile.ts";
import { plainJson } from "./plainJson.ts";

const SUMMED = /^\{\n {2}"sum": "([0-9a-f]{64})",\n/;

/** A text of JSON with the sum over the rest of it in its first line. */
export function withSum(json: string): string {
  const rest = json.replace(/^\{\n?/, "");
  return `{\n  "sum": "${sha256Of(rest)}",\n${rest}`;
}

/** Whether a text is as it was written. */
export const sumHolds = (text: string): boolean => {
  const [start, sum] = SUMMED.exec(text) ?? [];
  return start !== undefined && sha256Of(text.slice(start.length)) === sum;
};

/** A codec for one reading, that can tell afterwards whether what it read was as it had been written. */
export interface CheckedCodec<T> extends Codec<T> {
  isAsWritten(): boolean;
}

/**
 * For files that are drawn from others and can be drawn again: a sum in the first line is of all the text behind it, so
 * that nothing has to be put in order for it.
 *
 * @param indent 0 for what is large and seldom looked at
 */
export function summedCodec<T>(
  kind: Kind<T>,
  indent = 2,
): Codec<Omit<T, "sum">> & { checked(): CheckedCodec<Omit<T, "sum">> } {
  const codec: Codec<Omit<T, "sum">> = {
    encode: (content) => withSum(`${plainJson(content, indent)}\n`),
    decode: (text) => readRecord(text, kind, sumHolds(text)),
  };
  const checked = (): CheckedCodec<Omit<T, "sum">> => {
    let asWritten = false;
    const decode = (text: string) => {
      asWritten = sumHolds(text);
      return readRecord(text, kind, asWritten);
    };
    return { ...codec, decode, isAsWritten: () => asWritten };
  };
  return { ...codec, checked };
}
