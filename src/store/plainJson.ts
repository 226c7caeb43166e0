/** A value that JSON would quietly change or drop; nothing was written. */
export class Unstorable extends Error {
  override readonly name = "Unstorable";
}

/**
 * JSON text of a value; throws `Unstorable`, naming the place, for whatever would not come back the same: NaN and
 * Infinity (would become null), -0 (0), undefined (would go), anything that is no plain object, list, text or number.
 */
export function plainJson(content: unknown, indent = 2): string {
  check(content, "");
  return JSON.stringify(content, null, indent);
}

function check(content: unknown, place: string): void {
  if (isLeaf(content)) return;
  if (Array.isArray(content)) {
    for (let i = 0; i < content.length; i += 1) check(content[i], `${place}[${i}]`);
  } else if (isPlainObject(content)) {
    for (const key of Object.keys(content)) check(content[key], place === "" ? key : `${place}.${key}`);
  } else refuse(content, place);
}

const isLeaf = (content: unknown): boolean =>
  content === null ||
  typeof content === "string" ||
  typeof content === "boolean" ||
  (Number.isFinite(content) && !Object.is(content, -0));

const isPlainObject = (content: unknown): content is Record<string, unknown> =>
  typeof content === "object" && content !== null && Object.getPrototypeOf(content) === Object.prototype;

function refuse(content: unknown, place: string): never {
  const what = Object.is(content, -0) ? "-0" : typeof content === "number" ? String(content) : typeof content;
  throw new Unstorable(`${place || "the whole"} is ${what}, which a file can't keep. Correct that entry`);
}
