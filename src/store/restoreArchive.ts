import { createReadStream } from "node:fs";
import { stat } from "node:fs/promises";
import { Parser, type ReadEntry } from "tar";
import { type ProvenFiles, UnfitBackup } from "./restoreSource.ts";

/** Records are text that compresses well, but not without end: an archive that swells more than this is a trap. */
const MOST_SWELLING = 300;
const SMALL_ARCHIVE_BYTES = 16 * 2 ** 20;

export type Unpack = (path: string, bytes: Uint8Array) => Promise<void>;

/**
 * Reads an archive from one end to the other. Nothing is unpacked by its own names: each entry is plain bytes that are handed
 * on once its name is admitted. Links, devices and folders are refused.
 */
export async function unpackArchive(archive: string, files: ProvenFiles, unpack: Unpack): Promise<void> {
  const { size } = await stat(archive);
  const reading = new Reading(files, unpack, Math.max(SMALL_ARCHIVE_BYTES, size * MOST_SWELLING));
  const parser = new Parser({
    strict: true,
    onReadEntry: (entry) => reading.take(entry),
    onwarn: (_, told) => reading.fail(notAnArchive(told)),
  });
  const broken = new Promise<never>((_, reject) => parser.on("error", reject));
  broken.catch(() => undefined);
  const ended = new Promise<void>((resolve) => parser.on("end", () => resolve()));
  for await (const chunk of createReadStream(archive)) {
    await Promise.race([writtenTo(parser, chunk), broken.catch(thrownOn)]);
    await reading.settled();
  }
  parser.end();
  await Promise.race([ended, broken.catch(thrownOn)]);
  await reading.settled();
}

const notAnArchive = (fault: unknown): UnfitBackup =>
  fault instanceof UnfitBackup
    ? fault
    : new UnfitBackup(`it is no whole archive: ${fault instanceof Error ? fault.message : String(fault)}`);

const thrownOn = (fault: unknown): never => {
  throw notAnArchive(fault);
};

async function writtenTo(parser: Parser, chunk: Buffer): Promise<void> {
  try {
    if (parser.write(chunk)) return;
  } catch (fault) {
    thrownOn(fault);
  }
  await new Promise<void>((resolve) => parser.once("drain", () => resolve()));
}

/** The entries of an archive as they come, and what they are to become. */
class Reading {
  readonly #files: ProvenFiles;
  readonly #unpack: Unpack;
  readonly #mostBytes: number;
  #bytes = 0;
  #fault: unknown = null;
  readonly #underWay = new Set<Promise<void>>();

  constructor(files: ProvenFiles, unpack: Unpack, mostBytes: number) {
    this.#files = files;
    this.#unpack = unpack;
    this.#mostBytes = mostBytes;
  }

  take(entry: ReadEntry): void {
    const chunks: Buffer[] = [];
    try {
      if (this.#fault === null) this.#admit(entry);
    } catch (fault) {
      this.#fault = fault;
    }
    if (this.#fault !== null) {
      entry.resume();
      return;
    }
    entry.on("data", (chunk: Buffer) => chunks.push(chunk));
    entry.on("end", () => this.#taken(entry.path, Buffer.concat(chunks)));
  }

  fail(fault: unknown): void {
    this.#fault ??= fault;
  }

  /** Throws what was found amiss; resolves when all that has come so far is put away. */
  async settled(): Promise<void> {
    await Promise.all(this.#underWay);
    if (this.#fault !== null) throw this.#fault;
  }

  #admit({ path, type, size }: ReadEntry): void {
    if (type !== "File" && type !== "OldFile")
      throw new UnfitBackup(`it holds a ${type}: only plain files are restored`);
    this.#files.admit(path, size);
    this.#bytes += size;
    if (this.#bytes > this.#mostBytes) throw new UnfitBackup("it swells beyond measure when it is unpacked");
  }

  #taken(path: string, bytes: Uint8Array): void {
    try {
      if (this.#fault !== null || !this.#files.take(path, bytes)) return;
    } catch (fault) {
      this.#fault = fault;
      return;
    }
    const work = this.#unpack(path, bytes)
      .catch((fault: unknown) => {
        this.#fault ??= fault;
      })
      .finally(() => this.#underWay.delete(work));
    this.#underWay.add(work);
  }
}
