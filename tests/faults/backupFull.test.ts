import { execFileSync } from "node:child_process";
import { mkdtempSync, rmdirSync } from "node:fs";
import { readdir } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { folder } from "../commands/inProcess.ts";
import { builtRun } from "../commands/realProcess.ts";

/** A file system of 64 KiB; null where this account may not mount one. */
function smallFileSystem(): string | null {
  if (process.platform !== "linux" || process.getuid?.() !== 0) return null;
  const place = mkdtempSync(join(tmpdir(), "sievewright-small-"));
  try {
    execFileSync("mount", ["-t", "tmpfs", "-o", "size=64k", "tmpfs", place], { stdio: "ignore" });
    return place;
  } catch {
    rmdirSync(place);
    return null;
  }
}

const small = smallFileSystem();

describe.skipIf(small === null)(
  "a disk without room for a backup (a small file system is mounted; needs root on Linux)",
  () => {
    const disk = small ?? "";
    let data = "";
    let copy = "";
    beforeAll(() => {
      const place = folder();
      [data, copy] = [join(place, "station"), join(place, "copy.tgz")];
      builtRun(["demo", "--data", data, "--fill", "200"]);
      builtRun(["backup", copy, "--data", data]);
    });
    afterAll(() => {
      execFileSync("umount", [disk]);
      rmdirSync(disk);
    });

    test.each(["copy", "copy.tgz"])("%s is not made there, says why, and leaves nothing behind", async (name) => {
      const { status, stdout, stderr } = builtRun(["backup", join(disk, name), "--data", data]);
      expect([status, stdout]).toEqual([74, ""]);
      expect(stderr).toMatch(
        /^sievewright: the backup .* is not made: the disk is full\. Free some space and try again \(ENOSPC\)\n$/,
      );
      expect(await readdir(disk)).toEqual([]);
      expect(builtRun(["verify", "--data", data]).status).toBe(0);
    });

    test("nor is one restored to it", async () => {
      const { status, stdout, stderr } = builtRun(["restore", copy, "--data", join(disk, "station")]);
      expect([status, stdout]).toEqual([74, ""]);
      expect(stderr).toMatch(/is not restored: the disk is full/);
      expect(await readdir(disk)).toEqual([]);
    });
  },
);
