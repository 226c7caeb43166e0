import { codeOf, UnfitFile } from "./disk.ts";
import { UnreadableFile } from "./durableFile.ts";
import { NotOurs } from "./guardedDisk.ts";
import { Unstorable } from "./plainJson.ts";

const FULL = "the disk is full. Free some space and try again";
const RIGHTS = "this account has no right to it. Have the rights of the folder put right and try again";
const FAULTY = "the disk reports a fault. Copy the station's folder to another disk now";

const WORDS: Readonly<Record<string, string>> = {
  ENOSPC: FULL,
  EDQUOT: FULL,
  EACCES: RIGHTS,
  EPERM: RIGHTS,
  EROFS: "the disk can only be read. Use another folder (--data)",
  EIO: FAULTY,
  EFBIG: "the file may not grow so large on this disk or for this account. Have that limit lifted and try again",
  EBUSY: "another program holds the file. Try again; if it stays so, look for a virus scanner or a synchroniser",
  EMFILE: "too many files are open on this computer. Close other programs and try again",
  ENOENT: "the folder is gone. Connect the disk that it lies on and try again",
  ENOTDIR: "a file lies where a folder should. Move it away and start again",
  ENAMETOOLONG: "the path is too long. Use another folder (--data)",
};

/** A fault of the disk as words for the operator: what failed, where, what to do. A programmer's fault is thrown on. */
export function diskTrouble(fault: unknown, doing: string): string {
  if (fault instanceof NotOurs) return fault.message;
  if (fault instanceof UnreadableFile || fault instanceof UnfitFile || fault instanceof Unstorable)
    return `${doing}: ${fault.message}`;
  const code = codeOf(fault);
  if (code === "") throw fault;
  return `${doing}: ${WORDS[code] ?? "the disk refused. Try again"} (${code})`;
}
