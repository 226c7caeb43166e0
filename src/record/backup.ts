import { z } from "zod";
import { code, moment, sha256, text } from "./fields.ts";

const NAME = /^[A-Za-z0-9][A-Za-z0-9._-]{0,98}[A-Za-z0-9_-]$/;
/** Names that Windows keeps for devices, whatever follows the first dot. */
const DEVICE = /^(?:con|prn|aux|nul|com\d|lpt\d)(?:\.|$)/i;
const RECORD = /\.json(?:\.unreadable(?:-\d{1,4})?)?$/;
/** A page of a handover as it was printed, which the log seals. */
const PAGE = /^pages\/[^/]+\.txt$/;
const DEEPEST = 5;
/** What a copy leaves out: made again from the log, or copies themselves. */
const LEFT_OUT = ["index", "backups"];

/** The name of the file in a copy that tells what is in it. */
export const MANIFEST_NAME = "manifest.json";

/** Whether this can be a folder of a station that a copy takes in. */
export const isCopiedFolder = (name: string): boolean => NAME.test(name) && !name.includes(".") && !DEVICE.test(name);

/**
 * Whether a copy of a station can hold a file of this path: plain names joined by "/", so that it lies inside the station's
 * folder on every platform; a JSON file or one that was set aside, or a page of text; nothing that is made again from the log.
 */
export function isCopiedPath(path: string): boolean {
  const names = path.split("/");
  const fits = names.length <= DEEPEST && names.every((name) => NAME.test(name) && !DEVICE.test(name));
  return fits && (RECORD.test(path) || PAGE.test(path)) && !LEFT_OUT.includes(names[0] ?? "") && path !== MANIFEST_NAME;
}

const head = z.strictObject({ number: z.int().min(0), seal: sha256 });

const copiedFile = z.strictObject({
  path: z.string().max(400).refine(isCopiedPath, "is no path of a station's file"),
  bytes: z.int().min(0),
  sha256,
  /** When the file was last written, by the clock that dates it; lets the next copy pass over what has not changed. */
  modifiedAtMs: z.number().optional(),
});

/** What a copy of a station holds: of which station, made when and by which program, where its log ends, each file. */
export const BackupManifestSchema = z.strictObject({
  schema: z.literal("sievewright.backup/1"),
  station: code,
  at: moment,
  program: text(40),
  head,
  files: z
    .array(copiedFile)
    .max(500_000)
    .refine(
      (files) => new Set(files.map(({ path }) => path.toLowerCase())).size === files.length,
      "names a file twice",
    ),
});

export type BackupManifest = z.infer<typeof BackupManifestSchema>;
export type CopiedFile = z.infer<typeof copiedFile>;
