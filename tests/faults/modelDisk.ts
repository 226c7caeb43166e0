// A disk in memory that forgets, as real ones do: a file's bytes last once the file was flushed, its name once its folder was.
import { basename, dirname } from "node:path";
import type { Disk } from "../../src/store/disk.ts";

interface Inode {
  bytes: Uint8Array;
  /** What is certainly on the platter; null: nothing. */
  flushed: Uint8Array | null;
  modifiedAtMs: number;
}

interface Change {
  readonly folder: string;
  apply(names: Map<string, Inode>): void;
}

export const fault = (code: string): Error => Object.assign(new Error(`${code}: made up for the test`), { code });

export interface Step {
  readonly call: "create" | "write" | "flush" | "rename" | "remove" | "syncFolder" | "makeFolder" | "read" | "list";
  readonly path: string;
}

/** Answers before each step: go on, or throw this. */
export type Interference = (step: Step, index: number) => Error | null;

export class ModelDisk implements Disk {
  readonly steps: Step[] = [];
  interference: Interference = () => null;
  #now = 1_000_000;
  #names: Map<string, Inode>;
  #folders: Set<string>;
  readonly #lastingNames: Map<string, Inode>;
  readonly #lastingFolders: Set<string>;
  #changes: Change[] = [];

  constructor(names = new Map<string, Inode>(), folders = new Set<string>(["/"])) {
    this.#names = names;
    this.#folders = folders;
    this.#lastingNames = new Map(names);
    this.#lastingFolders = new Set(folders);
  }

  /** The disk as it is found after the power went: what was not flushed is there or not, whole or torn, as chance has it. */
  afterPowerCut(chance: () => number): ModelDisk {
    const names = new Map(this.#lastingNames);
    for (const change of this.#changes) if (chance() < 0.5) change.apply(names);
    const found = new Map<string, Inode>();
    for (const [path, inode] of names) {
      if (!this.#lastingFolders.has(dirname(path))) continue;
      const bytes = inode.flushed ?? inode.bytes.slice(0, Math.floor(chance() * (inode.bytes.length + 1)));
      found.set(path, { bytes, flushed: bytes, modifiedAtMs: inode.modifiedAtMs });
    }
    const after = new ModelDisk(found, new Set(this.#lastingFolders));
    after.#now = this.#now + 60_000;
    return after;
  }

  paths(): string[] {
    return [...this.#names.keys()].sort();
  }

  textAt(path: string): string | null {
    const inode = this.#names.get(path);
    return inode === undefined ? null : new TextDecoder().decode(inode.bytes);
  }

  /** Puts a file there, flushed, whatever was there before. */
  put(path: string, content: string | Uint8Array): void {
    const bytes = typeof content === "string" ? new TextEncoder().encode(content) : content;
    const inode = { bytes, flushed: bytes, modifiedAtMs: this.#now };
    this.#now += 1;
    this.#names.set(path, inode);
    this.#lastingNames.set(path, inode);
  }

  takeAway(path: string): void {
    this.#names.delete(path);
    this.#lastingNames.delete(path);
  }

  #step(call: Step["call"], path: string): void {
    const step = { call, path };
    const trouble = this.interference(step, this.steps.length);
    this.steps.push(step);
    if (trouble !== null) throw trouble;
  }

  #change(change: Change): void {
    change.apply(this.#names);
    this.#changes.push(change);
  }

  async read(path: string): Promise<Uint8Array | null> {
    this.#step("read", path);
    return this.#names.get(path)?.bytes ?? null;
  }

  async writeAndSync(path: string, content: string | Uint8Array): Promise<void> {
    this.#step("create", path);
    if (this.#names.has(path)) throw fault("EEXIST");
    if (!this.#folders.has(dirname(path))) throw fault("ENOENT");
    const inode: Inode = { bytes: new Uint8Array(), flushed: null, modifiedAtMs: this.#now };
    this.#now += 1;
    this.#change({ folder: dirname(path), apply: (names) => names.set(path, inode) });
    try {
      this.#step("write", path);
      inode.bytes = typeof content === "string" ? new TextEncoder().encode(content) : content;
      this.#step("flush", path);
      inode.flushed = inode.bytes;
    } catch (failed) {
      this.#change({ folder: dirname(path), apply: (names) => names.delete(path) });
      throw failed;
    }
  }

  async rename(from: string, to: string): Promise<void> {
    this.#step("rename", to);
    const inode = this.#names.get(from);
    if (inode === undefined) throw fault("ENOENT");
    const apply = (names: Map<string, Inode>): void => {
      names.delete(from);
      names.set(to, inode);
    };
    this.#change({ folder: dirname(to), apply });
  }

  async remove(path: string): Promise<void> {
    this.#step("remove", path);
    this.#change({ folder: dirname(path), apply: (names) => names.delete(path) });
  }

  async syncFolder(folder: string): Promise<void> {
    this.#step("syncFolder", folder);
    for (const change of this.#changes) if (change.folder === folder) change.apply(this.#lastingNames);
    this.#changes = this.#changes.filter((change) => change.folder !== folder);
  }

  async list(folder: string): Promise<readonly string[]> {
    this.#step("list", folder);
    const inside = [...this.#names.keys(), ...this.#folders].filter(
      (path) => dirname(path) === folder && path !== folder,
    );
    return inside.map((path) => basename(path)).sort();
  }

  async makeFolder(folder: string): Promise<void> {
    this.#step("makeFolder", folder);
    for (let made = folder; !this.#lastingFolders.has(made); made = dirname(made)) {
      this.#folders.add(made);
      this.#lastingFolders.add(made);
    }
  }

  async modifiedAtMs(path: string): Promise<number | null> {
    return this.#names.get(path)?.modifiedAtMs ?? null;
  }

  async touch(path: string): Promise<void> {
    const inode = this.#names.get(path);
    if (inode !== undefined) inode.modifiedAtMs = this.#now;
  }

  async trueName(folder: string): Promise<string> {
    return folder;
  }

  async pause(ms: number): Promise<void> {
    this.#now += ms;
  }
}
