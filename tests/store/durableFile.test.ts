import { Low } from "lowdb";
import { describe, expect, test } from "vitest";
import { draftKind } from "../../src/record/kinds.ts";
import { codecOf, durableFile, isTemporary, temporaryName } from "../../src/store/durableFile.ts";
import { fault, ModelDisk } from "../faults/modelDisk.ts";
import { draft } from "./records.ts";

const PATH = "/T-1.json";
const fileOn = (disk: ModelDisk) => durableFile(PATH, codecOf(draftKind), disk);

async function saved(weighed: number): Promise<ModelDisk> {
  const disk = new ModelDisk();
  await fileOn(disk).write(draft("T-1", weighed));
  disk.steps.length = 0;
  return disk;
}

describe("one durable file", () => {
  test("reads back what was written", async () => {
    const disk = await saved(2);
    expect(await fileOn(disk).read()).toEqual(draft("T-1", 2));
  });

  test("is null when there is none, and only then", async () => {
    expect(await fileOn(new ModelDisk()).read()).toBe(null);
  });

  test("is written under another name, flushed, renamed, and its name flushed, in that order", async () => {
    const disk = await saved(1);
    await fileOn(disk).write(draft("T-1", 2));
    expect(disk.steps.map(({ call }) => call)).toEqual(["create", "write", "flush", "rename", "syncFolder"]);
    expect(isTemporary(disk.steps[0]?.path ?? "")).toBe(true);
    expect(disk.steps[3]?.path).toBe(PATH);
    expect(disk.paths()).toEqual([PATH]);
  });

  test("never uses the same temporary name twice", () => {
    const names = new Set(Array.from({ length: 1000 }, () => temporaryName(PATH)));
    expect(names.size).toBe(1000);
    for (const name of names) expect(isTemporary(name)).toBe(true);
  });

  test.each(["T-1.json", "mine.tmp", "T-1.json.tmp", "T-1.json.123.tmp", "T-1.json.unreadable"])(
    "%s is no temporary name of ours",
    (name) => expect(isTemporary(name)).toBe(false),
  );

  // The power goes before each of the five steps of a save, and after it.
  test.each([0, 1, 2, 3, 4, 5])("power lost before step %i: the old content or the new, whole", async (cut) => {
    for (const luck of [0, 0.3, 0.6, 0.99]) {
      const disk = await saved(1);
      let after: ModelDisk | null = null;
      disk.interference = (_, index) => {
        if (index === cut) after = disk.afterPowerCut(() => luck);
        return null;
      };
      await fileOn(disk).write(draft("T-1", 2));
      const found = await fileOn(after ?? disk.afterPowerCut(() => luck)).read();
      expect(cut === 5 ? [draft("T-1", 2)] : [draft("T-1", 1), draft("T-1", 2)]).toContainEqual(found);
    }
  });

  test.each(["create", "write", "flush", "rename"] as const)(
    "a fault at %s rejects, leaves the old content and no temporary file",
    async (call) => {
      const disk = await saved(1);
      disk.interference = (step) => (step.call === call ? fault("EIO") : null);
      await expect(fileOn(disk).write(draft("T-1", 2))).rejects.toMatchObject({ code: "EIO" });
      expect(await fileOn(disk).read()).toEqual(draft("T-1", 1));
      expect(disk.paths()).toEqual([PATH]);
    },
  );

  test("a fault at flushing the name rejects: the new content may not last", async () => {
    const disk = await saved(1);
    disk.interference = ({ call }) => (call === "syncFolder" ? fault("EIO") : null);
    await expect(fileOn(disk).write(draft("T-1", 2))).rejects.toMatchObject({ code: "EIO" });
  });

  test("writes what the content was at the call, whatever becomes of it afterwards", async () => {
    const disk = new ModelDisk();
    const content = { ...draft("T-1"), lot: "before" };
    const writing = fileOn(disk).write(content);
    content.lot = "after";
    await writing;
    expect(await fileOn(disk).read()).toMatchObject({ lot: "before" });
  });

  test("writes in the order of the calls, each answering for itself", async () => {
    const disk = new ModelDisk();
    const file = fileOn(disk);
    const texts: (string | null)[] = [];
    const write = (weighed: number) => file.write(draft("T-1", weighed)).then(() => texts.push(disk.textAt(PATH)));
    await Promise.all([write(1), write(2), write(3)]);
    expect(texts.map((text) => JSON.parse(text ?? ""))).toEqual([1, 2, 3].map((n) => draft("T-1", n)));
  });

  test("refuses what JSON would change, before anything is written", async () => {
    const disk = await saved(1);
    await expect(fileOn(disk).write({ ...draft("T-1"), chargeG: Number.NaN })).rejects.toThrow("chargeG is NaN");
    expect(disk.steps).toEqual([]);
  });

  test.each([
    ["", "not JSON"],
    ["null", "wrong kind"],
    ['{"schema":"sievewright.draft/2"}', "newer version"],
    ['{"schema":"sievewright.draft/1"}', "damaged"],
  ])("with %j in it is an error and never empty", async (text, outcome) => {
    const disk = new ModelDisk();
    disk.put(PATH, text);
    await expect(fileOn(disk).read()).rejects.toMatchObject({ name: "UnreadableFile", outcome });
    expect(disk.textAt(PATH)).toBe(text);
  });

  test("dropping waits for what is being written, so that nothing comes back", async () => {
    const disk = await saved(1);
    const file = fileOn(disk);
    await Promise.all([file.write(draft("T-1", 2)), file.drop()]);
    expect(disk.paths()).toEqual([]);
  });

  test("can be dropped when there is none", async () => {
    const disk = new ModelDisk();
    await fileOn(disk).drop();
    expect(disk.paths()).toEqual([]);
  });

  test("is settled once all is written, also badly", async () => {
    const disk = await saved(1);
    const file = fileOn(disk);
    let ended = 0;
    disk.interference = ({ call }) => (call === "write" && ended === 0 ? fault("EIO") : null);
    const first = file.write(draft("T-1", 2)).catch(() => {
      ended += 1;
    });
    const second = file.write(draft("T-1", 3)).catch(() => {
      ended += 1;
    });
    await file.settled();
    await Promise.all([first, second]);
    expect(ended).toBeGreaterThan(0);
  });
});

describe("lowdb on top of it", () => {
  test("reads and writes through it", async () => {
    const disk = await saved(1);
    const low = new Low(fileOn(disk), draft("T-1"));
    await low.read();
    expect(low.data).toEqual(draft("T-1", 1));
    low.data = draft("T-1", 4);
    await low.write();
    expect(await fileOn(disk).read()).toEqual(draft("T-1", 4));
  });

  test("does not take a file that holds null for an empty one, nor writes over it", async () => {
    const disk = new ModelDisk();
    disk.put(PATH, "null");
    const low = new Low(fileOn(disk), draft("T-1"));
    await expect(low.read()).rejects.toThrow("found no schema");
    expect(disk.textAt(PATH)).toBe("null");
  });
});
