import { execFileSync } from "node:child_process";
import { mkdtempSync, rmdirSync } from "node:fs";
import { readdir, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import type { Store } from "../../src/store/store.ts";
import { verifyLog } from "../../src/store/verify.ts";
import { must, mustNot, opened } from "../store/opened.ts";
import { busyDraft, draft, note, testEntry } from "../store/records.ts";

/** A file system of 256 KiB; null where this account may not mount one. */
function smallFileSystem(): string | null {
  if (process.platform !== "linux" || process.getuid?.() !== 0) return null;
  const folder = mkdtempSync(join(tmpdir(), "sievewright-small-"));
  try {
    execFileSync("mount", ["-t", "tmpfs", "-o", "size=256k", "tmpfs", folder], { stdio: "ignore" });
    return folder;
  } catch {
    rmdirSync(folder);
    return null;
  }
}

const small = smallFileSystem();

describe.skipIf(small === null)(
  "a disk that is full for real (a small file system is mounted; needs root on Linux)",
  () => {
    const folder = join(small ?? "", "station");
    const ballast = join(small ?? "", "ballast");

    afterAll(() => {
      execFileSync("umount", [small ?? ""]);
      rmdirSync(small ?? "");
    });

    const fill = async (): Promise<void> => {
      for (let size = 65_536, n = 0; size >= 1; n += 1)
        await writeFile(`${ballast}-${n}`, "x".repeat(size)).catch(() => {
          size = Math.floor(size / 2);
        });
    };
    const makeRoom = async (): Promise<void> => {
      for (const name of await readdir(small ?? "")) if (name.startsWith("ballast")) await rm(join(small ?? "", name));
    };
    const expectDraftWhole = async (store: Store): Promise<void> => {
      const onDisk = JSON.parse(await readFile(join(folder, "drafts/T-1.json"), "utf8"));
      expect(onDisk).toEqual(draft("T-1", 2));
      expect(store.drafts()).toEqual([busyDraft("T-1", 300)]);
    };

    test("refuses the save and the record in words, loses nothing, and goes on once there is room", async () => {
      const store = await opened(folder);
      must(await store.saveDraft(draft("T-1", 2)));
      must(await store.record(note("before")));
      await fill();
      expect(mustNot(await store.saveDraft(busyDraft("T-1", 300)))).toMatch(
        /^the last entry is not saved yet: the disk is full/,
      );
      expect(mustNot(await store.record(testEntry("T-2")))).toMatch(/^the entry is not recorded: the disk is full/);
      await expectDraftWhole(store);
      expect(await verifyLog(folder)).toMatchObject({ ok: true, entries: 1 });

      await makeRoom();
      must(await store.saveDraft(busyDraft("T-1", 300)));
      expect(must(await store.record(testEntry("T-2")))).toMatchObject({ number: 2 });
      await store.close();
      const names = (await readdir(folder, { recursive: true })).map(String);
      expect(names.filter((name) => /\.tmp$|unreadable/.test(name))).toEqual([]);
      expect(await verifyLog(folder)).toMatchObject({ ok: true, entries: 2 });
    });

    test("opens for reading when there is no room even for a lock", async () => {
      await fill();
      const store = await opened(folder);
      expect(store.readOnly).toMatch(/^this station can't be opened for writing: the disk is full/);
      expect(store.drafts().map(({ testId }) => testId)).toEqual(["T-1"]);
      expect(await store.recentRows(1)).toHaveLength(1);
      await store.close();
      await makeRoom();
      expect((await opened(folder)).readOnly).toBe(null);
    });
  },
);
