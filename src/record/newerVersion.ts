/** Kinds of files that the register takes, without "sievewright." and version. */
export const REGISTER_KINDS = ["sieve", "stack", "balance", "checkWeight", "referenceMaterial"] as const;
export type FileKind = "product" | "program" | "sheet" | "productDraft" | (typeof REGISTER_KINDS)[number];

/**
 * Whether a file of one of these kinds was made by a newer program than this one, which reads version 1 of every exchanged file.
 *
 * @returns what to say of its `schema`, or null
 */
export function newerVersion(json: unknown, ...kinds: readonly FileKind[]): string | null {
  const schema = typeof json === "object" && json !== null && "schema" in json ? json.schema : null;
  if (typeof schema !== "string") return null;
  const version = new RegExp(`^sievewright\\.(?:${kinds.join("|")})/(\\d{1,6})$`).exec(schema)?.[1];
  if (version === undefined || Number(version) <= 1) return null;
  return `is of version ${version}, made by a newer Sievewright: this one reads version 1`;
}
