import { join } from "node:path";
import { describe, expect, test } from "vitest";
import {
  dayPath,
  draftPath,
  headPath,
  indexPath,
  libraryPath,
  nameRefusal,
  recordName,
  revisionName,
  shortName,
  stationPath,
} from "../../src/store/layout.ts";

describe("where things lie in a station's folder", () => {
  const folder = join("/", "plant", "station");
  test.each([
    [stationPath(folder), "station.json"],
    [draftPath(folder, "T-1"), "drafts/T-1.json"],
    [dayPath(folder, "2026-11-24"), "log/2026/11/2026-11-24.json"],
    [headPath(folder), "log/head.json"],
    [indexPath(folder, "2026-11"), "index/2026-11.json"],
    [
      libraryPath(folder, "products", revisionName({ code: "TH-0510", revision: 3 })),
      "library/products/TH-0510.rev3.json",
    ],
  ])("%s is told to people as %s, on every platform", (path, name) => {
    expect(shortName(folder, path)).toBe(name);
    expect(path).toBe(join(folder, ...name.split("/")));
  });

  test.each([
    ["T-1.json", "T-1"],
    ["TH-0510.rev3.json", "TH-0510.rev3"],
    ["T-1.json.unreadable", null],
    ["T-1.json.0b4f6c1e-7f0e-4a3b-9c55-2b8a1f6c7d10.tmp", null],
    ["T-1.json~", null],
    [".json", null],
    [".hidden.json", null],
    ["T 1.json", null],
    ["T-1 (copy).json", null],
    ["T-1.JSON", null],
  ])("%s in a folder is the record %s", (fileName, name) => expect(recordName(fileName)).toBe(name));

  test.each(["con", "CON", "nul", "Aux", "prn", "com1", "LPT9", "con.rev1", "nul.x.y"])(
    "%s names a device on Windows and is refused everywhere",
    (name) => expect(nameRefusal(name)).toContain("Windows"),
  );

  test.each(["console", "nulla", "com", "lpt", "T-1", "x.con"])("%s names a file", (name) =>
    expect(nameRefusal(name)).toBe(null),
  );

  test.each(["", "..", "a/b", "a\\b", "-x", ".x", "ä", "a b", "a".repeat(62)])("%j can't name a file", (name) =>
    expect(nameRefusal(name)).toContain("can't name a file"),
  );
});
