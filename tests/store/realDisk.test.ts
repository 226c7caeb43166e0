import { chmod, mkdir, readFile, stat, symlink, truncate, utimes, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { realDisk } from "../../src/store/realDisk.ts";
import { temporaryFolder } from "./temporaryFolder.ts";

const posix = process.platform !== "win32";
const modeOf = async (path: string) => (await stat(path)).mode & 0o777;
const text = (bytes: Uint8Array | null) => (bytes === null ? null : new TextDecoder().decode(bytes));

describe("the disk of this computer", () => {
  test("reads what was written", async () => {
    const path = join(await temporaryFolder(), "a.json");
    await realDisk.writeAndSync(path, "größer als 500 µm");
    expect(text(await realDisk.read(path))).toBe("größer als 500 µm");
  });

  test("gives null for a file that isn't there, and no names for a folder that isn't", async () => {
    const folder = await temporaryFolder();
    expect(await realDisk.read(join(folder, "none"))).toBe(null);
    expect(await realDisk.list(join(folder, "none"))).toEqual([]);
    expect(await realDisk.modifiedAtMs(join(folder, "none"))).toBe(null);
  });

  test("makes only files that were not there", async () => {
    const path = join(await temporaryFolder(), "a.json");
    await writeFile(path, "first");
    await expect(realDisk.writeAndSync(path, "second")).rejects.toMatchObject({ code: "EEXIST" });
    expect(await readFile(path, "utf8")).toBe("first");
  });

  test.skipIf(!posix)("keeps files and folders to their owner (POSIX permissions)", async () => {
    const folder = join(await temporaryFolder(), "station", "drafts");
    await realDisk.makeFolder(folder);
    await realDisk.writeAndSync(join(folder, "a.json"), "{}");
    expect(await modeOf(join(folder, "a.json"))).toBe(0o600);
    expect(await modeOf(folder)).toBe(0o700);
    expect(await modeOf(join(folder, ".."))).toBe(0o700);
  });

  test("makes a folder with its parents, and is content when it is there", async () => {
    const folder = join(await temporaryFolder(), "log", "2026", "11");
    await realDisk.makeFolder(folder);
    await realDisk.makeFolder(folder);
    expect((await stat(folder)).isDirectory()).toBe(true);
  });

  test("lists names in order", async () => {
    const folder = await temporaryFolder();
    for (const name of ["b", "a", "B", "10", "9"]) await writeFile(join(folder, name), "");
    expect(await realDisk.list(folder)).toEqual(["10", "9", "B", "a", "b"]);
  });

  test("removes a file, and is content when there is none", async () => {
    const path = join(await temporaryFolder(), "a.json");
    await writeFile(path, "");
    await realDisk.remove(path);
    await realDisk.remove(path);
    expect(await realDisk.read(path)).toBe(null);
  });

  test("renames over what is there", async () => {
    const folder = await temporaryFolder();
    await writeFile(join(folder, "old"), "old");
    await writeFile(join(folder, "new"), "new");
    await realDisk.rename(join(folder, "new"), join(folder, "old"));
    expect(await realDisk.list(folder)).toEqual(["old"]);
    expect(await readFile(join(folder, "old"), "utf8")).toBe("new");
  });

  test("flushes the names in a folder", async () => {
    await expect(realDisk.syncFolder(await temporaryFolder())).resolves.toBeUndefined();
  });

  test.skipIf(!posix)("says so when the folder to flush is gone (Windows has nothing to flush)", async () => {
    await expect(realDisk.syncFolder(join(await temporaryFolder(), "none"))).rejects.toMatchObject({ code: "ENOENT" });
  });

  test("touching leaves the content and moves the time", async () => {
    const path = join(await temporaryFolder(), "station.lock");
    await writeFile(path, "{}");
    await utimes(path, 1000, 1000);
    await realDisk.touch(path, "{");
    expect(await readFile(path, "utf8")).toBe("{}");
    expect(await realDisk.modifiedAtMs(path)).toBeGreaterThan(1_000_000);
  });

  test("touches no file that isn't there", async () => {
    const path = join(await temporaryFolder(), "none");
    await expect(realDisk.touch(path, "{")).rejects.toMatchObject({ code: "ENOENT" });
    expect(await realDisk.read(path)).toBe(null);
  });

  test("does not read a folder, nor a giant, as a file", async () => {
    const folder = await temporaryFolder();
    await mkdir(join(folder, "folder"));
    await writeFile(join(folder, "giant"), "");
    await truncate(join(folder, "giant"), 257 * 2 ** 20); // takes no room
    await expect(realDisk.read(join(folder, "folder"))).rejects.toThrow("it is no plain file");
    await expect(realDisk.read(join(folder, "giant"))).rejects.toThrow("it is larger than 256 MiB");
  });

  test.skipIf(!posix)("reads no link and lists none (Windows lets only administrators make them)", async () => {
    const folder = await temporaryFolder();
    await writeFile(join(folder, "file"), "secret");
    await symlink(join(folder, "file"), join(folder, "link"));
    await symlink(folder, join(folder, "folder"));
    await expect(realDisk.read(join(folder, "link"))).rejects.toThrow("it is a link");
    await expect(realDisk.list(join(folder, "folder"))).rejects.toThrow("it is a link");
    await expect(realDisk.makeFolder(join(folder, "folder"))).rejects.toThrow("it is a link");
    await expect(realDisk.list(join(folder, "file"))).rejects.toThrow("it is no folder");
  });

  test.skipIf(!posix || process.getuid?.() === 0)("passes on that it has no right (root has every right)", async () => {
    const folder = await temporaryFolder();
    await chmod(folder, 0o500);
    await expect(realDisk.writeAndSync(join(folder, "a"), "")).rejects.toMatchObject({ code: "EACCES" });
  });

  test("knows a folder by its true name", async () => {
    const folder = await temporaryFolder();
    expect(await realDisk.trueName(join(folder, "..", folder.split(/[/\\]/).at(-1) ?? ""))).toBe(
      await realDisk.trueName(folder),
    );
  });
});
