import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { hostname } from "node:os";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { file, folder, run, shared } from "./inProcess.ts";

const source = () => JSON.parse(readFileSync(shared("programs/TH-V10.json"), "utf8"));

const entriesIn = (data: string) =>
  readdirSync(join(data, "log"), { recursive: true, encoding: "utf8" })
    .filter((name) => /\d\.json$/.test(name))
    .flatMap((name) => JSON.parse(readFileSync(join(data, "log", name), "utf8")).entries);

describe("program", () => {
  test("add puts a program into the library, list shows it in the words of the shaker's panel", async () => {
    const data = folder();
    expect(await run(["program", "add", shared("programs/TH-V10.json"), "--data", data])).toMatchObject({
      code: 0,
      err: "",
    });
    const listed = await run(["program", "list", "--data", data]);
    expect(listed.out).toContain("stroke 1.2 mm peak to peak, 50 Hz");
    expect(JSON.parse((await run(["program", "list", "--json", "--data", data])).out)).toEqual([source()]);
  });

  test("add tells the log whose doing it was, and replaces nothing", async () => {
    const data = folder();
    const add = (content: object) => run(["program", "add", file("p.json", content), "--by", "ML", "--data", data]);
    expect((await add(source())).code).toBe(0);
    const again = await add(source());
    expect([again.code, again.out]).toEqual([0, expect.stringContaining("already, unchanged")]);
    const other = await add({ ...source(), durationS: 1 });
    expect(other).toMatchObject({ code: 65, err: expect.stringContaining("nothing replaces it") });
    const listed = await run(["program", "list", "--json", "--data", data]);
    expect(JSON.parse(listed.out)).toEqual([source()]);
    expect(entriesIn(data)).toMatchObject([{ kind: "station declared" }, { kind: "program loaded", by: "ML" }]);
  });

  test("list reads while another Sievewright has the station", async () => {
    const data = folder();
    await run(["program", "add", shared("programs/TH-V10.json"), "--data", data]);
    const lock = { pid: process.ppid, host: hostname(), since: "2026-11-24T10:00:00+01:00" };
    writeFileSync(join(data, "station.lock"), JSON.stringify(lock));
    const before = readFileSync(join(data, "station.lock"), "utf8");
    expect((await run(["program", "list", "--data", data])).code).toBe(0);
    expect(readFileSync(join(data, "station.lock"), "utf8")).toBe(before);
  });

  test("aids are told with number and material", async () => {
    const data = folder();
    const aids = [
      { aid: "balls", material: "rubber", count: 12 },
      { aid: "flow agent", doseG: 0.5 },
    ];
    await run(["program", "add", file("p.json", { ...source(), aids }), "--data", data]);
    expect((await run(["program", "list", "--data", data])).out).toContain(
      "aids: 12 rubber balls, 0.5 g of flow agent",
    );
  });

  test("a broken file is refused by line and field, and nothing is kept", async () => {
    const data = folder();
    const ran = await run(["program", "add", file("p.json", { ...source(), motion: "sideways" }), "--data", data]);
    expect(ran).toMatchObject({ code: 65, out: "" });
    expect(ran.err).toContain("motion");
  });

  test("a folder without a station has no programs to list", async () => {
    expect((await run(["program", "list", "--data", folder()])).code).toBe(66);
  });
});
