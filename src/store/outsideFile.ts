import { open } from "node:fs/promises";
import { resolve } from "node:path";
import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { MOST_BYTES } from "../record/fileText.ts";

/** One byte more than any exchanged file may hold, so that whoever reads it sees that it is too large. */
const ENOUGH = MOST_BYTES + 1;
const NOT_THERE = ["ENOENT", "ENOTDIR", "ENAMETOOLONG", "ERR_INVALID_ARG_VALUE"];

function whyNot(path: string, fault: unknown): string {
  const code = fault instanceof Error && "code" in fault ? String(fault.code) : "unknown fault";
  if (NOT_THERE.includes(code)) return `${path}: there is no such file: check the name`;
  if (code === "EISDIR") return `${path}: is a folder: name a file`;
  return `${path}: can't be read (${code}): check the right to read it and the disk`;
}

/** The bytes of a file that somebody names on a screen; a relative path begins at the station's folder. */
export async function outsideFile(folder: string, path: string): Promise<Outcome<Uint8Array>> {
  try {
    const file = await open(resolve(folder, path));
    try {
      const bytes = new Uint8Array(ENOUGH);
      let length = 0;
      while (length < ENOUGH) {
        const { bytesRead } = await file.read(bytes, length, ENOUGH - length);
        if (bytesRead === 0) break;
        length += bytesRead;
      }
      return accepted(bytes.subarray(0, length));
    } finally {
      await file.close();
    }
  } catch (fault) {
    return refused(whyNot(path, fault));
  }
}
