import { open } from "node:fs/promises";
import { MOST_BYTES } from "../record/fileText.ts";
import { EXIT, ended, reached, type Step } from "./ending.ts";
import type { Io } from "./io.ts";

const NOT_THERE: Readonly<Record<string, string>> = {
  ENOENT: "there is no such file: check the name",
  ENOTDIR: "there is no such file: check the name",
  ENAMETOOLONG: "there is no such file: check the name",
  ERR_INVALID_ARG_VALUE: "there is no such file: check the name",
  EISDIR: "is a folder: name a file",
  EACCES: "may not be read: ask for the right to read it",
  EPERM: "may not be read: ask for the right to read it",
};

/** One byte more than any exchanged file may hold, so that the reader of its kind sees that it is too large. */
const ENOUGH = MOST_BYTES + 1;

/** What `-` and file names are called in messages. */
export const inputName = (name: string): string => (name === "-" ? "standard input" : name);

/** The bytes of a file that somebody named, or of standard input for `-`. */
export async function inputFile(name: string, { stdin }: Pick<Io, "stdin">): Promise<Step<Uint8Array>> {
  try {
    return reached(await (name === "-" ? upTo(ENOUGH, stdin) : fileBytes(name)));
  } catch (fault) {
    const code = fault instanceof Error && "code" in fault ? String(fault.code) : null;
    if (code === null) throw fault;
    const reason = NOT_THERE[code];
    if (reason !== undefined) return ended(EXIT.notFound, `${inputName(name)}: ${reason}`);
    return ended(EXIT.ioError, `${inputName(name)}: can't be read (${code}): check the disk and try again`);
  }
}

async function fileBytes(name: string): Promise<Uint8Array> {
  const file = await open(name);
  try {
    return await upTo(ENOUGH, file.createReadStream({ end: ENOUGH - 1, autoClose: false }));
  } finally {
    await file.close();
  }
}

async function upTo(most: number, chunks: AsyncIterable<Uint8Array | string>): Promise<Uint8Array> {
  const parts: Uint8Array[] = [];
  let length = 0;
  for await (const chunk of chunks) {
    parts.push(typeof chunk === "string" ? Buffer.from(chunk) : chunk);
    length += chunk.length;
    if (length >= most) break;
  }
  return Buffer.concat(parts);
}
