import { join } from "node:path";
import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { UNPRINTABLE } from "../entry/quoted.ts";
import { codeOf, type Disk, UnfitFile } from "./disk.ts";
import { diskTrouble } from "./diskWords.ts";

/** The folders of what a plant publishes; what else lies in a shared folder is none of our business. */
export const SHARED_KINDS = ["products", "programs", "stacks"] as const;
export type SharedKind = (typeof SHARED_KINDS)[number];

/** One file of the shared folder: its bytes, or why it can't be read. */
export interface SharedFile {
  readonly kind: SharedKind;
  /** "products/TH-0510.json", fit to be shown. */
  readonly name: string;
  readonly bytes: Outcome<Uint8Array>;
}

const EACH_UNPRINTABLE = new RegExp(UNPRINTABLE, "gu");
const showable = (name: string): string => name.replace(EACH_UNPRINTABLE, "?");

/** Every JSON file of the shared folder's three kinds, in the order of their names. Nothing is written and no link followed. */
export async function readSharedFolder(folder: string, disk: Disk): Promise<Outcome<readonly SharedFile[]>> {
  try {
    const there = await disk.trueName(folder);
    const files: SharedFile[] = [];
    for (const kind of SHARED_KINDS) files.push(...(await filesIn(there, kind, disk)));
    if (files.length > 0) return accepted(files);
    return refused(
      `${folder} has no JSON file in ${SHARED_KINDS.map((kind) => `${kind}/`).join(", ")}: check the folder`,
    );
  } catch (fault) {
    if (codeOf(fault) === "ENOENT")
      return refused(`there is no folder ${folder}: check the name, or connect the network`);
    return refused(diskTrouble(fault, `${folder} can't be read`));
  }
}

async function filesIn(folder: string, kind: SharedKind, disk: Disk): Promise<SharedFile[]> {
  const files: SharedFile[] = [];
  for (const name of (await disk.list(join(folder, kind))).filter((one) => /^[^.].*\.json$/i.test(one)))
    files.push({ kind, name: showable(`${kind}/${name}`), bytes: await bytesOf(join(folder, kind, name), disk) });
  return files;
}

async function bytesOf(path: string, disk: Disk): Promise<Outcome<Uint8Array>> {
  try {
    return accepted((await disk.read(path)) ?? new Uint8Array());
  } catch (fault) {
    return refused(fault instanceof UnfitFile ? `is not read: ${fault.message}` : diskTrouble(fault, "can't be read"));
  }
}
