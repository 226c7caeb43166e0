import type * as Fs from "node:fs";
import { join } from "node:path";
import { beforeEach, expect, test, vi } from "vitest";
import { realDisk } from "../../src/store/realDisk.ts";
import { must, opened } from "./opened.ts";
import { draft } from "./records.ts";
import { temporaryFolder } from "./temporaryFolder.ts";

const seen = vi.hoisted(() => ({ flushed: [] as string[] }));

vi.mock("node:fs", async (original) => {
  const fs = await original<typeof Fs>();
  const fsync: typeof Fs.fsync = Object.assign(
    (opened: number, done: Fs.NoParamCallback) => {
      const { size } = fs.fstatSync(opened);
      seen.flushed.push(fs.fstatSync(opened).isDirectory() ? "a folder" : `a file of ${size} bytes`);
      fs.fsync(opened, done);
    },
    { __promisify__: fs.fsync.__promisify__ },
  );
  return { ...fs, fsync };
});

beforeEach(() => {
  seen.flushed.length = 0;
});

test("a file is flushed with all its bytes in it", async () => {
  await realDisk.writeAndSync(join(await temporaryFolder(), "a"), "12345");
  expect(seen.flushed).toEqual(["a file of 5 bytes"]);
});

test.skipIf(process.platform === "win32")("a made folder is flushed into each parent (Windows can't)", async () => {
  const folder = await temporaryFolder();
  await realDisk.makeFolder(join(folder, "log", "2026", "11"));
  expect(seen.flushed).toEqual(["a folder", "a folder", "a folder"]);
  await realDisk.makeFolder(join(folder, "log", "2026", "11"));
  expect(seen.flushed).toHaveLength(3);
});

test.skipIf(process.platform === "win32")(
  "a save flushes the file, then its name (Windows can't flush names)",
  async () => {
    const store = await opened(await temporaryFolder());
    seen.flushed.length = 0;
    must(await store.saveDraft(draft("T-1", 1)));
    expect(seen.flushed).toEqual([expect.stringMatching(/^a file of [1-9]\d+ bytes$/), "a folder"]);
  },
);
