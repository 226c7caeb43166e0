import { isTooDeep } from "../record/nesting.ts";
import type { Link } from "./chainParts.ts";
import type { Disk } from "./disk.ts";
import { diskTrouble } from "./diskWords.ts";

const isRecord = (json: unknown): json is Readonly<Record<string, unknown>> =>
  typeof json === "object" && json !== null && !Array.isArray(json);

const isLink = (json: unknown): json is Link =>
  isRecord(json) &&
  Number.isSafeInteger(json.number) &&
  Number(json.number) > 0 &&
  typeof json.day === "string" &&
  typeof json.previous === "string";

/**
 * The entries of a day as they lie in its file, or why they can't be read. No more is looked at than the chain needs: the seal
 * is taken over exactly what lies there, whatever schema it has.
 */
export function linksIn(bytes: Uint8Array): readonly Link[] | string {
  try {
    const text = new TextDecoder("utf-8", { fatal: true }).decode(bytes);
    if (isTooDeep(text)) return "the file nests brackets deeper than any record does";
    const json: unknown = JSON.parse(text);
    if (!isRecord(json) || !String(json.schema).startsWith("sievewright.day/")) return "the file is no day of a log";
    const entries: unknown = json.entries;
    return Array.isArray(entries) && entries.every(isLink) ? entries : "the file is no day of a log";
  } catch (fault) {
    if (fault instanceof SyntaxError || fault instanceof TypeError) return "the file is not JSON";
    throw fault;
  }
}

export async function linksAt(path: string, disk: Disk): Promise<readonly Link[] | string> {
  try {
    return linksIn((await disk.read(path)) ?? new Uint8Array());
  } catch (fault) {
    return diskTrouble(fault, "the file can't be read");
  }
}
