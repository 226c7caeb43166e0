import { describe, expect, test } from "vitest";
import { codeOf, UnfitFile } from "../../src/store/disk.ts";
import { diskTrouble } from "../../src/store/diskWords.ts";
import { UnreadableFile } from "../../src/store/durableFile.ts";
import { NotOurs } from "../../src/store/guardedDisk.ts";
import { Unstorable } from "../../src/store/plainJson.ts";
import { fault } from "../faults/modelDisk.ts";

describe("a fault of the disk in words", () => {
  test.each([
    ["ENOSPC", "the disk is full"],
    ["EDQUOT", "the disk is full"],
    ["EACCES", "no right"],
    ["EPERM", "no right"],
    ["EROFS", "can only be read"],
    ["EIO", "Copy the station's folder to another disk now"],
    ["EFBIG", "may not grow so large"],
    ["EBUSY", "another program holds the file"],
    ["ENOENT", "the folder is gone"],
    ["EWHATEVER", "the disk refused"],
  ])("%s says what failed, why and what to do, and the code for whoever is called", (code, words) => {
    const told = diskTrouble(fault(code), "the last entry is not saved yet");
    expect(told).toMatch(/^the last entry is not saved yet: /);
    expect(told).toContain(words);
    expect(told).toMatch(new RegExp(`\\(${code}\\)$`));
  });

  test.each([
    [new UnfitFile("it is a link"), "x: it is a link"],
    [new Unstorable("chargeG is NaN"), "x: chargeG is NaN"],
    [new UnreadableFile("damaged", "damaged at lot"), "x: damaged at lot"],
    [new NotOurs("somebody else has it"), "somebody else has it"],
  ])("%s speaks for itself", (thrown, words) => expect(diskTrouble(thrown, "x")).toBe(words));

  test("a programmer's fault is no fault of the disk and is thrown on", () =>
    expect(() => diskTrouble(new TypeError("undefined is not a function"), "x")).toThrow(TypeError));

  test.each([null, undefined, "ENOSPC", { code: "ENOSPC" }, Object.assign(new Error("x"), { code: 3 })])(
    "%o has no code",
    (thrown) => expect(codeOf(thrown)).toBe(""),
  );
});
