/**
 * Whether a file of this kind was made by a newer program than this one, which reads version 1 of every exchanged file.
 *
 * @returns what to say of its `schema`, or null
 */
export function newerVersion(
  json: unknown,
  kind: "product" | "program" | "sheet" | "stack" | "productDraft",
): string | null {
  const schema = typeof json === "object" && json !== null && "schema" in json ? json.schema : null;
  if (typeof schema !== "string") return null;
  const version = new RegExp(`^sievewright\\.${kind}/(\\d{1,6})$`).exec(schema)?.[1];
  if (version === undefined || Number(version) <= 1) return null;
  return `is of version ${version}, made by a newer Sievewright: this one reads version 1`;
}
