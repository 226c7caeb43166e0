import { randomUUID } from "node:crypto";
import { dirname } from "node:path";
import type { Adapter } from "lowdb";
import { type Kind, type ReadRecord, readRecord } from "../record/migrate.ts";
import { type Disk, UnfitFile } from "./disk.ts";
import { plainJson } from "./plainJson.ts";
import { queue } from "./queue.ts";
import { readWhileBusy, whileBusy } from "./whileBusy.ts";

/** The file is there and is not what it should be; it stays as it is. `outcome` says which way. */
export class UnreadableFile extends Error {
  override readonly name = "UnreadableFile";
  readonly outcome: "not JSON" | "wrong kind" | "newer version" | "damaged";
  constructor(outcome: UnreadableFile["outcome"], why: string) {
    super(why);
    this.outcome = outcome;
  }
}

/** How a kind of file becomes text and comes back. */
export interface Codec<T> {
  encode(content: T): string;
  decode(text: string): ReadRecord<T>;
}

export const codecOf = <T>(kind: Kind<T>): Codec<T> => ({
  encode: (content) => `${plainJson(content)}\n`,
  decode: (text) => readRecord(text, kind),
});

export interface DurableFile<T> extends Adapter<T> {
  /** Removes the file, after whatever is still being written to it. */
  drop(): Promise<void>;
  /** Resolves when nothing is being written to it any more, well or badly. */
  settled(): Promise<void>;
}

const TEMPORARY = /\.[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}\.tmp$/;
/** A name in the same folder that no other process uses; what a crash leaves of them is cleared at the next opening. */
export const temporaryName = (path: string): string => `${path}.${randomUUID()}.tmp`;
export const isTemporary = (name: string): boolean => TEMPORARY.test(name);

/**
 * lowdb's adapter for one file that survives a power cut. Once `write` has resolved the new content is on disk, name and
 * all; until then either the old or the new one is, whole. What is written is what the content was at the call.
 * A file that cannot be read is an error (`UnreadableFile`) and never "empty"; null means that there is none.
 */
export function durableFile<T>(path: string, codec: Codec<T>, disk: Disk): DurableFile<T> {
  const inTurn = queue();
  return {
    async read() {
      const text = await readText(path, disk);
      return text === null ? null : decoded(codec.decode(text));
    },
    async write(content) {
      const text = codec.encode(content);
      await inTurn(() => replace(path, text, disk));
    },
    drop: () => inTurn(() => takeAway(path, disk)),
    settled: () => inTurn(async () => undefined),
  };
}

async function replace(path: string, text: string, disk: Disk): Promise<void> {
  const temporary = temporaryName(path);
  try {
    await disk.writeAndSync(temporary, text);
    await whileBusy(() => disk.rename(temporary, path), disk);
  } catch (fault) {
    await disk.remove(temporary).catch(() => undefined);
    throw fault;
  }
  await disk.syncFolder(dirname(path));
}

async function takeAway(path: string, disk: Disk): Promise<void> {
  await whileBusy(() => disk.remove(path), disk);
  await disk.syncFolder(dirname(path));
}

/** Text of a file; null when there is none. Bytes that are no UTF-8 are not JSON either. */
async function readText(path: string, disk: Disk): Promise<string | null> {
  try {
    const bytes = await readWhileBusy(() => disk.read(path), disk);
    return bytes === null ? null : new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch (fault) {
    if (fault instanceof UnfitFile) throw new UnreadableFile("not JSON", fault.message);
    if (fault instanceof TypeError) throw new UnreadableFile("not JSON", "the file is not UTF-8 text");
    throw fault;
  }
}

function decoded<T>(outcome: ReadRecord<T>): T {
  if (outcome.is !== "read") throw new UnreadableFile(outcome.is, outcome.why);
  return outcome.value;
}
