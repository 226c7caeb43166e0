import { readFileSync, rmSync } from "node:fs";
import { homedir } from "node:os";
import { dirname, join } from "node:path";
import { pathToFileURL } from "node:url";
import { expect, test } from "vitest";
import { atTheStart, faultTeller } from "../../src/commands/faultTeller.ts";
import { temporaryFolder } from "../store/temporaryFolder.ts";

const pathIn = (words: string): string => /A report is in (.+)/.exec(words)?.[1] ?? "";

test("says what happened, that nothing is lost, where the report is and whom to give it", async () => {
  const folder = await temporaryFolder();
  const at = { folder, now: () => "2026-11-24T03:12:05+01:00", place: () => "run, weigh full" };
  const words = faultTeller("9.9.9", at)(new Error("a bug"));
  const path = join(folder, "faults", `2026-11-24T031205-${process.pid}.txt`);
  expect(words).toBe(
    "Sievewright stopped because of a fault of its own (Error: a bug).\n" +
      "Every accepted entry is on disk and nothing recorded is lost: start it again to go on where you were.\n" +
      `A report is in ${path}\nGive it to whoever looks after this computer.\n`,
  );
  const report = readFileSync(path, "utf8");
  expect(report).toContain(`version  9.9.9, node ${process.versions.node}, ${process.platform} ${process.arch}\n`);
  expect(report).toContain("place    run, weigh full\n");
});

test("hides home and station, as paths and as addresses of files, the inner one by its own sign", async () => {
  const folder = join(await temporaryFolder(), "station");
  const at = { ...atTheStart(), folder };
  const fault = new Error(`${homedir()}/x ${pathToFileURL(homedir()).href}/y ${folder}/z`);
  const words = faultTeller("1", at)(fault);
  const report = readFileSync(pathIn(words), "utf8");
  expect(report).toContain("fault    Error: ~/x ~/y <station>/z\n");
  rmSync(dirname(pathIn(words)), { recursive: true });
});

test("before the screens are there it says so", () => {
  const words = faultTeller("1", atTheStart())("early");
  expect(readFileSync(pathIn(words), "utf8")).toContain("place    not on the screens yet\nfault    thrown: early\n");
  rmSync(dirname(pathIn(words)), { recursive: true });
});
