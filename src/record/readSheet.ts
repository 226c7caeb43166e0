import { type Outcome, refused } from "../entry/outcome.ts";
import { type Fault, pathText } from "./faults.ts";
import { fileText } from "./fileText.ts";
import { readJsonText } from "./jsonText.ts";
import { type LocatedSheet, locatedSheet } from "./locatedSheet.ts";
import { newerVersion } from "./newerVersion.ts";
import { readSheetCsv } from "./sheetCsv.ts";

/**
 * A weighing sheet of either form: JSON if it begins with a brace or bracket, else CSV.
 *
 * @param bytes UTF-8, at most 1 MiB
 * @returns the sheet, or one line: the first fault, where it is and what to do
 */
export function readSheet(bytes: Uint8Array): Outcome<LocatedSheet> {
  const text = fileText(bytes);
  if (!text.ok) return text;
  if (text.value.trim() === "") return refused("is empty");
  return /^\s*[{[]/.test(text.value) ? readSheetJson(text.value) : readSheetCsv(text.value);
}

function readSheetJson(text: string): Outcome<LocatedSheet> {
  const read = readJsonText(text);
  if (!read.ok) return read;
  const { json, placeOf } = read.value;
  const tell = ({ path, reason }: Fault) => `${placeOf(path)}: ${pathText(path) || "the sheet"} ${reason}`;
  const newer = newerVersion(json, "sheet");
  return newer === null
    ? locatedSheet(json, { charge: "chargeG", tell })
    : refused(tell({ path: ["schema"], reason: newer }));
}
