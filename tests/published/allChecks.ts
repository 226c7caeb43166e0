import { readdirSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { PublishedCheck } from "./record.ts";

const CASES = join(import.meta.dirname, "cases");

/** The checks of every file in `cases/`, which each export them as `checks`, in the order of the file names. */
export async function allChecks(): Promise<PublishedCheck[]> {
  const names = readdirSync(CASES)
    .filter((name) => name.endsWith(".ts"))
    .toSorted();
  const files = await Promise.all(names.map((name) => import(pathToFileURL(join(CASES, name)).href)));
  return files.flatMap((file: { readonly checks: readonly PublishedCheck[] }) => file.checks);
}
