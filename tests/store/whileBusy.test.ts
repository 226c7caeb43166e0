import { describe, expect, test } from "vitest";
import { readWhileBusy, whileBusy } from "../../src/store/whileBusy.ts";
import { fault, ModelDisk } from "../faults/modelDisk.ts";

/** A disk that only counts how long it was asked to wait. */
class WaitingDisk extends ModelDisk {
  waitedMs = 0;
  override async pause(ms: number): Promise<void> {
    this.waitedMs += ms;
  }
}

const failing = (times: number, code: string) => {
  let left = times;
  return async () => {
    left -= 1;
    if (left >= 0) throw fault(code);
    return "done";
  };
};

describe("while a file is held", () => {
  test.each(["EPERM", "EACCES", "EBUSY"])("%s is tried again, up to nine times", async (code) => {
    expect(await whileBusy(failing(9, code), new WaitingDisk())).toBe("done");
    await expect(whileBusy(failing(10, code), new WaitingDisk())).rejects.toMatchObject({ code });
  });

  test("it waits a little at first and over two seconds in all before it gives up", async () => {
    const once = new WaitingDisk();
    await whileBusy(failing(1, "EBUSY"), once);
    expect(once.waitedMs).toBe(5);
    const always = new WaitingDisk();
    await expect(whileBusy(failing(99, "EBUSY"), always)).rejects.toThrow();
    expect(always.waitedMs).toBeGreaterThan(2000);
    expect(always.waitedMs).toBeLessThan(4000);
  });

  test("reading gives up soon: a file without rights stays so", async () => {
    const disk = new WaitingDisk();
    await expect(readWhileBusy(failing(99, "EACCES"), disk)).rejects.toThrow();
    expect(disk.waitedMs).toBeLessThan(100);
  });

  test.each(["ENOSPC", "EIO", "ENOENT", "EROFS"])("%s is no matter of patience", async (code) => {
    const disk = new WaitingDisk();
    await expect(whileBusy(failing(1, code), disk)).rejects.toMatchObject({ code });
    expect(disk.waitedMs).toBe(0);
  });
});
