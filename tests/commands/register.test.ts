import { join } from "node:path";
import { describe, expect, test, vi } from "vitest";
import { SERIALS, SET, sieve } from "../store/careWorld.ts";
import { opened } from "../store/opened.ts";
import { careStation } from "./careStation.ts";
import { file, folder, run } from "./inProcess.ts";

vi.setConfig({ testTimeout: 60_000 });

const BALANCE = { schema: "sievewright.balance/1", id: "B1", capacityG: 3200, readabilityG: 0.01 };
const WEIGHT = { schema: "sievewright.checkWeight/1", weight: "W500", nominalG: 500, weightClass: "F1" };
const MATERIAL = {
  schema: "sievewright.referenceMaterial/1",
  code: "TH-RM1",
  name: "invented sand",
  certificate: { day: "2026-01-10", laboratory: "invented" },
  points: [
    { apertureUm: 1000, passingPct: 80, expandedPct: 1 },
    { apertureUm: 500, passingPct: 20, expandedPct: 1 },
  ],
};

async function empty(): Promise<string> {
  const data = join(folder(), "station");
  await (await opened(data)).close();
  return data;
}

describe("register", () => {
  test("takes in every kind of item, sets after their sieves in whatever order, and tells the log who did it", async () => {
    const data = await empty();
    const items = [SET, MATERIAL, WEIGHT, ...SERIALS.map((serial) => sieve(serial)), BALANCE];
    const files = items.map((item) => file("item.json", item));
    const ran = await run(["register", ...files, "--by", "ML", "--data", data]);
    expect(ran).toMatchObject({ code: 0, err: "" });
    expect(ran.out.trimEnd().split("\n").at(-1)).toBe("set SET-A registered");
    const register = JSON.parse((await run(["sieves", "--json", "--data", data])).out);
    expect(register.sets).toEqual([SET]);
    expect(register.materials).toEqual([MATERIAL]);
    expect(register.weights[0].item).toEqual(WEIGHT);
    expect(register.balances[0].item).toEqual(BALANCE);
    expect(register.sieves).toHaveLength(4);
    const log = (await run(["log", "--json", "--data", data])).out.trimEnd().split("\n");
    expect(JSON.parse(log.at(-1) ?? "")).toMatchObject({ kind: "registered", by: "ML", item: SET });
  });

  test("leaves what is registered like this alone, and changes an item only with a reason", async () => {
    const { at, json } = await careStation();
    const same = file("s.json", sieve("S-0710-1"));
    expect(await at(["register", same])).toMatchObject({
      code: 0,
      out: "sieve S-0710-1 is registered like this already\n",
    });
    const moved = file("s.json", sieve("S-0710-1", { location: "rack 2" }));
    expect(await at(["register", moved])).toMatchObject({ code: 65, err: expect.stringContaining("takes a reason") });
    const told = JSON.parse((await at(["register", moved, same, "--reason", "new rack", "--json"])).out);
    expect(told).toEqual({ registered: ["sieve S-0710-1", "sieve S-0710-1"], unchanged: [] });
    expect((await json(["sieves"])).sieves[2].item.location).toBeUndefined();
  });

  test.each([
    ["{", "line 1, column 2"],
    [{ schema: "sievewright.product/1" }, 'schema is not known: "sievewright.product/1"'],
    [{ ...sieve("S-1"), apertureUm: -1 }, "apertureUm must be above 0"],
    [{ ...sieve("S-1"), maker: "x" }, "maker is an unknown field"],
    [{ schema: "sievewright.sieve/2", serial: "S-1" }, "made by a newer Sievewright"],
  ])("refuses %j with its place, and records nothing", async (content, told) => {
    const data = await empty();
    const good = file("good.json", sieve("S-0710-1"));
    const ran = await run(["register", good, file("bad.json", content), "--data", data]);
    expect(ran).toMatchObject({ code: 65, out: "" });
    expect(ran.err).toContain(told);
    expect(JSON.parse((await run(["sieves", "--json", "--data", data])).out).sieves).toEqual([]);
  });

  test("says what was registered before a fault, for the log only grows", async () => {
    const data = await empty();
    const files = [file("s.json", sieve("S-0710-1")), file("set.json", SET)];
    const ran = await run(["register", ...files, "--data", data]);
    expect(ran).toMatchObject({ code: 65, out: "" });
    expect(ran.err).toMatch(/sieve S-1400-1 of set SET-A is not registered.*\(registered before it: sieve S-0710-1\)/);
  });

  test("takes one file from standard input, and a station that is there", async () => {
    const { at } = await careStation();
    expect((await at(["register", "-"], { stdin: JSON.stringify(WEIGHT) })).out).toBe("check weight W500 registered\n");
    expect((await at(["register", "-", "-"])).code).toBe(64);
    const item = file("w.json", WEIGHT);
    expect(await run(["register", item, "--data", join(folder(), "none")])).toMatchObject({ code: 66 });
  });
});

describe("where people sign on", () => {
  const PIN = { SB: "471108", ML: "830517", KO: "190734" } as const;

  async function staffed() {
    const station = await careStation();
    const { data } = station;
    await run(["operator", "setup", "SB", "--name", "S. Baro", "--data", data], { hidden: [PIN.SB, PIN.SB] });
    for (const [initials, role] of [
      ["ML", "quality"],
      ["KO", "operator"],
    ] as const) {
      const env = { SIEVEWRIGHT_PIN: PIN.SB, SIEVEWRIGHT_NEW_PIN: PIN[initials] };
      const args = ["operator", "add", initials, "--name", `${initials} name`, "--role", role, "--as", "SB"];
      expect((await run([...args, "--data", data], { env })).code).toBe(0);
    }
    return station;
  }

  test("registering and returning take quality, cleaning and quarantine anybody; the PIN comes from a file", async () => {
    const { at } = await staffed();
    const as = (who: "ML" | "KO") => ["--as", who, "--pin-file", file("pin.txt", `${PIN[who]}\n`)];
    const item = file("w.json", WEIGHT);
    expect(await at(["register", item])).toMatchObject({ code: 64, err: expect.stringContaining("add --as INITIALS") });
    expect(await at(["register", item, ...as("KO")])).toMatchObject({
      code: 77,
      err: expect.stringContaining("somebody of quality"),
    });
    expect((await at(["register", item, ...as("ML")])).code).toBe(0);
    const log = (await at(["log", "--json"])).out
      .trimEnd()
      .split("\n")
      .map((line) => JSON.parse(line));
    const told = log.findLast(({ kind }) => kind === "registered");
    expect(told).toMatchObject({ item: WEIGHT, by: "ML", signedOn: true });
    const serial = "S-0710-1";
    expect((await at(["sieve", "quarantine", serial, "--reason", "dented", ...as("KO")])).code).toBe(0);
    expect((await at(["sieve", "clean", serial, "--how", "brush", ...as("KO")])).code).toBe(0);
    const back = ["sieve", "return", serial, "--reason", "straightened"];
    expect((await at([...back, ...as("KO")])).code).toBe(77);
    expect((await at([...back, ...as("ML")])).code).toBe(0);
    const measured = file("m.csv", "warp_um\n711\n709\n");
    expect((await at(["sieve", "inspect", serial, "--good", "all", ...as("KO")])).code).toBe(0);
    expect((await at(["sieve", "inspect", serial, "--measured", measured, ...as("KO")])).code).toBe(77);
  });
});
