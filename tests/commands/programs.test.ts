import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { file, folder, run, shared } from "./inProcess.ts";

const source = () => JSON.parse(readFileSync(shared("programs/TH-V10.json"), "utf8"));

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
