import { mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test, vi } from "vitest";
import { file, folder, run, shared } from "./inProcess.ts";

vi.setConfig({ testTimeout: 60_000 });

const PIN = { SB: "471108", ML: "830517", KO: "190734" } as const;
const as = (initials: keyof typeof PIN) => ({ env: { SIEVEWRIGHT_PIN: PIN[initials] } });
const entriesIn = async (data: string) =>
  (await run(["log", "--json", "--data", data])).out
    .trimEnd()
    .split("\n")
    .map((line) => JSON.parse(line));
const codeIn = (out: string) => /recovery code {3}(\S+)/.exec(out)?.[1] ?? "none";

async function setUp(): Promise<{ data: string; code: string }> {
  const data = join(folder(), "station");
  const ran = await run(["operator", "setup", "SB", "--name", "S. Baro", "--data", data], { hidden: [PIN.SB, PIN.SB] });
  expect(ran).toMatchObject({ code: 0, err: "" });
  return { data, code: codeIn(ran.out) };
}

async function staffed() {
  const begun = await setUp();
  for (const [initials, role] of [
    ["ML", "quality"],
    ["KO", "operator"],
  ] as const) {
    const args = ["operator", "add", initials, "--name", `${initials} name`, "--role", role, "--as", "SB"];
    const env = { SIEVEWRIGHT_PIN: PIN.SB, SIEVEWRIGHT_NEW_PIN: PIN[initials] };
    expect((await run([...args, "--data", begun.data], { env })).code).toBe(0);
  }
  return begun;
}

describe("operator setup", () => {
  test("makes a station with its first administrator and shows a recovery code", async () => {
    const { data, code } = await setUp();
    expect(code).toMatch(/^(\w{4}-){4}\w{4}$/);
    expect(await entriesIn(data)).toMatchObject([
      { kind: "operator", who: "SB", name: "S. Baro", role: "administrator", event: "added" },
      { kind: "station declared", signOn: "required" },
    ]);
  });

  test("takes the PIN from a file", async () => {
    const data = folder();
    const pinFile = file("pin.txt", `\uFEFF${PIN.SB}\r\n`);
    const ran = await run(["operator", "setup", "SB", "--new-pin-file", pinFile, "--data", data]);
    expect(ran.code).toBe(0);
    expect((await run(["operator", "idle", "20", "--as", "SB", "--data", data], as("SB"))).code).toBe(0);
  });

  test.each([
    [["4711"], 64, /the two differ: nothing was changed/],
    [["4711", "4712"], 64, /the two differ/],
    [["1234", "1234"], 77, /first that anybody tries/],
    [undefined, 64, /no terminal to ask for the new PIN of SB: use --new-pin-file or set SIEVEWRIGHT_NEW_PIN/],
  ])("typed %j ends with %i", async (hidden, code, err) => {
    const setting = hidden === undefined ? {} : { hidden };
    const ran = await run(["operator", "setup", "SB", "--data", join(folder(), "new")], setting);
    expect(ran).toMatchObject({ code, out: "", err: expect.stringMatching(err) });
  });

  test("is done once", async () => {
    const { data } = await setUp();
    const again = await run(["operator", "setup", "XX", "--data", data], { hidden: [PIN.ML, PIN.ML] });
    expect(again).toMatchObject({ code: 77, err: expect.stringContaining("set up at this station already") });
  });
});

describe("operator list", () => {
  test("shows who may work there, in which role, and never anything of a PIN", async () => {
    const { data } = await staffed();
    const { out } = await run(["operator", "list", "--data", data]);
    expect(out).toBe(
      [
        "people sign on at this station with initials and PIN",
        "whoever is signed on is signed off after 10 min without a key",
        "SB  S. Baro  administrator  active",
        "ML  ML name        quality  active",
        "KO  KO name       operator  active",
        "",
      ].join("\n"),
    );
    const json = (await run(["operator", "list", "--json", "--data", data])).out;
    expect(JSON.parse(json)).toMatchObject({
      signOn: "required",
      idleMinutes: 10,
      people: [{ initials: "SB" }, {}, {}],
    });
    expect(json).not.toMatch(/hash|salt|scrypt/);
  });

  test("of a station without sign-on says so", async () => {
    const data = folder();
    await run(["product", "add", shared("products/TH-0510.json"), "--data", data, "--by", "KO"]);
    const { code, out } = await run(["operator", "list", "--data", data]);
    expect(code).toBe(0);
    expect(out).toContain("initials are not checked by PIN at this station");
    expect(JSON.parse((await run(["operator", "list", "--json", "--data", data])).out)).toEqual({
      signOn: "none",
      idleMinutes: null,
      people: [],
    });
  });

  test("of no station is 66", async () =>
    expect((await run(["operator", "list", "--data", join(folder(), "no")])).code).toBe(66));
});

describe("a command that records, where sign-on is required", () => {
  const add = (data: string, more: readonly string[], setting = {}) =>
    run(["product", "add", shared("products/TH-0510.json"), "--data", data, ...more], setting);

  test("names who and asks for the PIN; the entries bear that name, signed", async () => {
    const { data } = await staffed();
    const before = (await entriesIn(data)).length;
    expect(await add(data, ["--as", "ML"], { hidden: [PIN.ML] })).toMatchObject({ code: 0, err: "" });
    expect((await entriesIn(data)).slice(before)).toMatchObject([
      { kind: "sign-on", who: "ML", event: "on", signedOn: true },
      { kind: "product loaded", by: "ML", signedOn: true },
      { kind: "sign-on", who: "ML", event: "off", signedOn: true },
    ]);
  });

  test("takes the PIN from the environment or a file", async () => {
    const { data } = await staffed();
    expect((await add(data, ["--as", "ML"], as("ML"))).code).toBe(0);
    expect((await add(data, ["--as", "ml", "--pin-file", file("pin", PIN.ML)])).code).toBe(0);
  });

  test.each([
    ["nobody named", [], {}, 64, "this station asks people to sign on: add --as INITIALS"],
    ["no PIN to be had", ["--as", "ML"], {}, 64, "there is no terminal to ask for the PIN of ML"],
    ["a wrong PIN", ["--as", "ML"], { env: { SIEVEWRIGHT_PIN: "000000" } }, 77, "initials and PIN don't match"],
    ["nobody's initials", ["--as", "XX"], as("ML"), 77, "initials and PIN don't match"],
    ["a role that may not", ["--as", "KO"], as("KO"), 65, "to publish a product takes somebody of quality"],
  ])("with %s is refused and adds nothing to the library", async (_what, more, setting, code, err) => {
    const { data } = await staffed();
    const ran = await add(data, more, setting);
    expect(ran).toMatchObject({ code, out: "" });
    expect(ran.err).toContain(err);
    expect((await run(["product", "list", "--json", "--data", data])).out).toBe("[]\n");
  });

  test("a program is quality's to load", async () => {
    const { data } = await staffed();
    const load = (who: "KO" | "ML") =>
      run(["program", "add", shared("programs/TH-V10.json"), "--data", data, "--as", who], as(who));
    expect((await load("KO")).err).toContain("to load a program or stack takes somebody of quality");
    expect((await load("ML")).code).toBe(0);
  });

  test("guessing from the command line waits too", async () => {
    const { data } = await staffed();
    for (let i = 0; i < 3; i += 1) await add(data, ["--as", "ML"], { env: { SIEVEWRIGHT_PIN: "000000" } });
    const ran = await add(data, ["--as", "ML"], as("ML"));
    expect(ran).toMatchObject({ code: 77, err: expect.stringContaining("too many wrong PINs: try again in 30 s") });
  });
});

describe("changing the people", () => {
  test("role, pin, retire, return and idle are told to the log with their reasons", async () => {
    const { data } = await staffed();
    const before = (await entriesIn(data)).length;
    const reason = ["--reason", "course passed", "--as", "SB", "--data", data];
    expect((await run(["operator", "role", "KO", "quality", ...reason], as("SB"))).out).toBe(
      "KO is quality from now on\n",
    );
    const env = { SIEVEWRIGHT_PIN: PIN.SB, SIEVEWRIGHT_NEW_PIN: "556102" };
    expect((await run(["operator", "pin", "KO", ...reason], { env })).out).toBe("KO has a new PIN\n");
    expect((await run(["operator", "retire", "ML", ...reason], as("SB"))).out).toBe("ML is retired\n");
    expect((await run(["operator", "return", "ML", ...reason], as("SB"))).out).toBe("ML is back\n");
    expect((await run(["operator", "idle", "15", ...reason], as("SB"))).out).toContain("15 min");
    const told = (await entriesIn(data)).slice(before).filter(({ kind }) => kind === "operator");
    expect(told.map(({ who, event, by }) => `${by}: ${who} ${event}`)).toEqual([
      "SB: KO role changed",
      "SB: KO PIN set",
      "SB: ML retired",
      "SB: ML brought back",
    ]);
    expect(told.every((entry) => entry.reason === "course passed" && entry.signedOn === true)).toBe(true);
  });

  test.each([
    [["add", "KO", "--name", "x", "--role", "boss", "--as", "SB"], 64, "boss is no role"],
    [["add", "KO", "--name", "x", "--role", "quality", "--as", "SB"], 77, "KO is taken by KO name"],
    [["role", "SB", "quality", "--as", "SB"], 77, "SB is the only administrator"],
    [["retire", "SB", "--as", "SB"], 77, "SB is the only administrator"],
    [["retire", "ZZ", "--as", "SB"], 77, '"ZZ" is nobody of this station'],
    [["idle", "x", "--as", "SB"], 77, "from 1 to 480 minutes"],
    [["require", "perhaps", "--as", "SB"], 64, "say on or off"],
  ])("%j ends with %i", async (args, code, err) => {
    const { data } = await staffed();
    const env = { SIEVEWRIGHT_PIN: PIN.SB, SIEVEWRIGHT_NEW_PIN: "556102" };
    const ran = await run(["operator", ...args, "--data", data], { env });
    expect(ran).toMatchObject({ code, out: "" });
    expect(ran.err).toContain(err);
  });

  test("sign-on is turned off and on with an administrator's PIN alone", async () => {
    const { data } = await staffed();
    const require = (rule: string, who: keyof typeof PIN) =>
      run(["operator", "require", rule, "--as", who, "--data", data], as(who));
    expect((await require("off", "ML")).err).toContain("takes an administrator");
    expect(await require("off", "SB")).toMatchObject({ code: 0, err: "" });
    expect((await run(["product", "add", shared("products/TH-0510.json"), "--data", data, "--by", "QQ"])).code).toBe(0);
    expect(await require("on", "SB")).toMatchObject({ code: 0, err: "" });
    expect((await run(["product", "add", shared("products/TH-MAS.json"), "--data", data])).code).toBe(64);
  });
});

describe("operator recover", () => {
  test("by the code sets a new PIN and shows the next code", async () => {
    const { data, code } = await setUp();
    const env = { SIEVEWRIGHT_RECOVERY_CODE: code, SIEVEWRIGHT_NEW_PIN: "556102" };
    const ran = await run(["operator", "recover", "SB", "--data", data], { env });
    expect(ran.code).toBe(0);
    expect(codeIn(ran.out)).not.toBe(code);
    const idle = (pin: string) =>
      run(["operator", "idle", "9", "--as", "SB", "--data", data], { env: { SIEVEWRIGHT_PIN: pin } });
    expect((await idle(PIN.SB)).code).toBe(77);
    expect((await idle("556102")).code).toBe(0);
    expect(await run(["operator", "recover", "SB", "--data", data], { env })).toMatchObject({ code: 77 });
  });

  test("of a list that is gone starts anew, and nothing else gets the station going again", async () => {
    const { data, code } = await staffed();
    rmSync(join(data, "operators.json"));
    const add = await run(["product", "add", shared("products/TH-0510.json"), "--data", data, "--as", "ML"], as("ML"));
    expect(add).toMatchObject({ code: 77, err: expect.stringContaining("sievewright operator recover --help") });
    const env = { SIEVEWRIGHT_RECOVERY_CODE: code, SIEVEWRIGHT_NEW_PIN: "556102" };
    expect((await run(["operator", "setup", "NN", "--data", data], { env })).code).toBe(77);
    expect((await run(["operator", "recover", "SB", "--data", data], { env })).code).toBe(77);
    const anew = await run(["operator", "recover", "NN", "--anew", "--name", "N. New", "--data", data], { env });
    expect(anew.code).toBe(0);
    const told = (await entriesIn(data)).filter(({ event }) => event === "recovered");
    expect(told).toMatchObject([{ who: "NN", reason: "operators.json was gone" }]);
    expect(JSON.parse(readFileSync(join(data, "operators.json"), "utf8")).people).toHaveLength(1);
  });

  test("tells in its help what to do in each case", async () => {
    const { out } = await run(["operator", "recover", "--help"]);
    for (const words of ["Somebody forgot a PIN", "No administrator knows theirs", "operators.json is gone", "--anew"])
      expect(out).toContain(words);
  });
});

test("a folder that is no station is left alone by all that change one", async () => {
  const data = folder();
  mkdirSync(join(data, "x"));
  writeFileSync(join(data, "x", "notes.txt"), "hello");
  for (const args of [
    ["retire", "KO", "--as", "SB"],
    ["require", "on", "--as", "SB"],
    ["recover", "SB", "--anew"],
  ])
    expect((await run(["operator", ...args, "--data", data], as("SB"))).code).toBe(66);
});
