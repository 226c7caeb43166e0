// A disk in memory on which a write can stop at any byte: with an error, its beginning gone again or left lying.
import type { Disk } from "../../src/store/disk.ts";
import { fault, ModelDisk } from "./modelDisk.ts";

/** After how many bytes of a file's content a write stops. */
export const CUTS: Readonly<Record<string, (bytes: Uint8Array) => number>> = {
  "before the first byte": () => 0,
  "after one byte": () => 1,
  "in the middle": (bytes) => Math.floor(bytes.length / 2),
  "within a character of two bytes": (bytes) => bytes.findIndex((byte) => byte >= 0xc0) + 1 || 2,
  "before the last byte": (bytes) => bytes.length - 1,
  "after the last byte, before the flush": (bytes) => bytes.length,
};

export interface CutWrite {
  /** Of the file that is written; its temporary file has this at the beginning of its name. */
  readonly file: RegExp;
  readonly code: string;
  readonly at: (bytes: Uint8Array) => number;
  /** The disk does not even remove what was begun. */
  readonly leftLying: boolean;
}

export class CutDisk extends ModelDisk {
  /** While set, every write of that file stops there. */
  cut: CutWrite | null = null;
  /** What was cut so far: the path and how much of it was written. */
  readonly wasCut: { readonly path: string; readonly written: number; readonly of: number }[] = [];

  override async writeAndSync(...[path, content]: Parameters<Disk["writeAndSync"]>): Promise<void> {
    if (this.cut === null || !this.cut.file.test(path)) return super.writeAndSync(path, content);
    const bytes = new TextEncoder().encode(String(content));
    const written = this.cut.at(bytes);
    this.wasCut.push({ path, written, of: bytes.length });
    if (this.cut.leftLying) this.put(path, bytes.slice(0, written));
    throw fault(this.cut.code);
  }

  override async remove(path: string): Promise<void> {
    if (this.cut?.leftLying && this.cut.file.test(path)) throw fault(this.cut.code);
    return super.remove(path);
  }
}
