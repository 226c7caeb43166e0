import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { JsonScan, type Path } from "./jsonScan.ts";

/** A JSON text, read, with the place of each of its values. */
export interface JsonText {
  readonly json: unknown;
  /** "line 3, column 7": where the value at this path, or the nearest one around it, begins. */
  readonly placeOf: (path: Path) => string;
}

/**
 * Reads JSON (RFC 8259) as a plant's files need it: no name twice in an object, no `__proto__`, at most 32 levels
 * deep. What is refused is told with line and column, both counted from 1.
 *
 * @example readJsonText('{"a": 1,}') // reason: 'line 1, column 9: expected a field name in quotes, found "}"'
 */
export function readJsonText(text: string): Outcome<JsonText> {
  const scan = new JsonScan(text);
  const fault = scan.fault();
  if (fault) return refused(`${lineAndColumn(text, fault.offset)}: ${fault.reason}`);
  const placeOf = (path: Path) => {
    let known = path;
    while (known.length > 0 && scan.offsetOf(known) === undefined) known = known.slice(0, -1);
    return lineAndColumn(text, scan.offsetOf(known) ?? 0);
  };
  return accepted({ json: JSON.parse(text), placeOf });
}

function lineAndColumn(text: string, offset: number): string {
  const lines = text.slice(0, offset).split(/\r\n|[\r\n]/);
  return `line ${lines.length}, column ${(lines.at(-1) ?? "").length + 1}`;
}
