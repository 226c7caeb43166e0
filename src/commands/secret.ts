import { EXIT, ended, reached, type Step } from "./ending.ts";
import { inputFile } from "./inputFile.ts";
import type { Io } from "./io.ts";

/** Where a PIN or a code may come from: a file, a variable of the environment, or whoever sits at the terminal. */
export interface SecretSource {
  readonly file: string | undefined;
  readonly variable: string;
  readonly option: string;
  /** What to ask for at the terminal. */
  readonly words: string;
  /** Asked twice, since nobody sees what is typed. */
  readonly twice?: boolean;
}

/** One line, without its end; an editor's byte-order mark and line ending are no part of a PIN. */
const firstLine = (bytes: Uint8Array): string =>
  new TextDecoder()
    .decode(bytes)
    .replace(/^\uFEFF/, "")
    .split(/\r?\n/)[0] ?? "";

/** A secret that is never an argument of the command line, where others could read it. */
export async function secret(
  { file, variable, option, words, twice = false }: SecretSource,
  io: Io,
): Promise<Step<string>> {
  if (file !== undefined) {
    const bytes = await inputFile(file, io);
    return bytes.ok ? reached(firstLine(bytes.value)) : bytes;
  }
  const set = io.env[variable];
  if (set !== undefined && set !== "") return reached(set);
  const typed = await io.askHidden(words);
  if (typed === null)
    return ended(EXIT.usage, `there is no terminal to ask for the ${words}: use ${option} or set ${variable}`);
  if (twice && (await io.askHidden(`${words}, once more`)) !== typed)
    return ended(EXIT.usage, "the two differ: nothing was changed");
  return reached(typed);
}
