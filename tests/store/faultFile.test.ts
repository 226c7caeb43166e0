import { existsSync, readFileSync, rmSync } from "node:fs";
import { mkdir, readdir, symlink, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { expect, test } from "vitest";
import { keepFaultReport } from "../../src/store/faultFile.ts";
import { temporaryFolder } from "./temporaryFolder.ts";

/** Takes the temporary folder of a report away again; answers with what the report said. */
function takenFrom(path: string | null): string {
  expect(path?.startsWith(join(tmpdir(), "sievewright-fault-"))).toBe(true);
  const text = readFileSync(path ?? "", "utf8");
  rmSync(dirname(path ?? ""), { recursive: true });
  return text;
}

test("lies in the station's folder for faults, made when first needed", async () => {
  const folder = await temporaryFolder();
  expect(keepFaultReport(folder, "a.txt", "one\n")).toBe(join(folder, "faults", "a.txt"));
  expect(keepFaultReport(folder, "b.txt", "two\n")).toBe(join(folder, "faults", "b.txt"));
  expect(await readdir(join(folder, "faults"))).toEqual(["a.txt", "b.txt"]);
});

test("never replaces another", async () => {
  const folder = await temporaryFolder();
  keepFaultReport(folder, "a.txt", "one");
  expect(takenFrom(keepFaultReport(folder, "a.txt", "two"))).toBe("two");
  expect(readFileSync(join(folder, "faults", "a.txt"), "utf8")).toBe("one");
});

test("goes to a temporary folder where no station is open", () =>
  expect(takenFrom(keepFaultReport(null, "a.txt", "one"))).toBe("one"));

test("does not make a station anew that is gone", async () => {
  const folder = join(await temporaryFolder(), "pulled");
  expect(takenFrom(keepFaultReport(folder, "a.txt", "one"))).toBe("one");
  expect(existsSync(folder)).toBe(false);
});

test("does not go where a file lies instead of the folder", async () => {
  const folder = await temporaryFolder();
  await writeFile(join(folder, "faults"), "a file");
  expect(takenFrom(keepFaultReport(folder, "a.txt", "one"))).toBe("one");
});

test.skipIf(process.platform === "win32")("does not follow a link out of the station", async () => {
  const [folder, outside] = [await temporaryFolder(), await temporaryFolder()];
  await symlink(outside, join(folder, "faults"));
  expect(takenFrom(keepFaultReport(folder, "a.txt", "one"))).toBe("one");
  expect(await readdir(outside)).toEqual([]);
});

test("answers with null where it can be kept nowhere", async () => {
  const folder = await temporaryFolder();
  await mkdir(join(folder, "faults"));
  expect(keepFaultReport(folder, "no/such/folder.txt", "one")).toBe(null);
});
