import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { opened } from "../store/opened.ts";
import { folder, run } from "./inProcess.ts";

/** A demo station of a few tests; `run` with its folder. */
async function demo(tests = 5) {
  const place = folder();
  const data = join(place, "station");
  await run(["demo", "--data", data, "--fill", String(tests)]);
  const at = (...argv: string[]) => run([...argv, "--data", data]);
  const head = async () => JSON.parse((await at("verify", "--json")).out).head;
  return { place, data, at, head };
}

describe("backup", () => {
  test("into one file: says what it holds, and the log of the station tells of it", async () => {
    const { place, at } = await demo();
    const copy = join(place, "copy.tgz");
    const { code, out, err } = await at("backup", copy, "--as", "KO");
    expect([code, err]).toEqual([0, ""]);
    expect(out.split("\n")).toEqual([
      expect.stringMatching(/^TH-DRY1 copied to .*copy\.tgz: \d+ files, \d+ bytes$/),
      expect.stringMatching(/^its log ends with entry \d+, seal( [0-9a-f]{4}){3}$/),
      expect.stringMatching(/^manifest [0-9a-f]{64}$/),
      "recorded in the log of the station",
      "",
    ]);
    const last = JSON.parse((await at("log", "--json")).out.trimEnd().split("\n").at(-1) ?? "");
    const files = Number(/: (\d+) files/.exec(out)?.[1]);
    const sha256 = /manifest (\w+)/.exec(out)?.[1];
    expect(last).toMatchObject({ kind: "backup", by: "KO", to: copy, files, sha256 });
  });

  test("into a folder, which can be proven as it lies there", async () => {
    const { place, at, head } = await demo();
    const before = await head();
    expect((await at("backup", join(place, "copy"))).code).toBe(0);
    const verified = JSON.parse((await run(["verify", "--json", "--data", join(place, "copy")])).out);
    expect(verified).toMatchObject({ ok: true, head: before });
  });

  test("while the station is open elsewhere: is made, and says that the log does not tell of it", async () => {
    const { place, data, at } = await demo();
    await opened(data);
    const { code, out } = await at("backup", join(place, "copy.tgz"));
    expect(code).toBe(0);
    expect(out).toMatch(
      /\nnot recorded in the log of the station: another Sievewright \(process \d+, .*has this station open/,
    );
    expect(existsSync(join(place, "copy.tgz"))).toBe(true);
  });

  test("as JSON", async () => {
    const { place, at } = await demo();
    expect(JSON.parse((await at("backup", join(place, "copy"), "--json")).out)).toEqual({
      files: expect.any(Number),
      bytes: expect.any(Number),
      head: { number: expect.any(Number), seal: expect.stringMatching(/^[0-9a-f]{64}$/) },
      manifestSha256: expect.stringMatching(/^[0-9a-f]{64}$/),
      broken: null,
      leftOut: [],
      logged: true,
    });
  });

  test("where one lies already is refused and touches nothing", async () => {
    const { place, at } = await demo();
    const copy = join(place, "copy.tgz");
    writeFileSync(copy, "older");
    expect(await at("backup", copy)).toMatchObject({
      code: 74,
      out: "",
      err: expect.stringContaining("is not replaced"),
    });
    expect(readFileSync(copy, "utf8")).toBe("older");
  });

  test("of a folder without a station is 66", async () =>
    expect((await run(["backup", join(folder(), "x.tgz"), "--data", join(folder(), "none")])).code).toBe(66));

  test("of a broken log is made, exit 1, and says how it is broken", async () => {
    const { place, data, at } = await demo();
    const [year = ""] = readdirSync(join(data, "log")).filter((name) => /^\d{4}$/.test(name));
    const [month = ""] = readdirSync(join(data, "log", year));
    const [day = ""] = readdirSync(join(data, "log", year, month));
    const path = join(data, "log", year, month, day);
    writeFileSync(path, readFileSync(path, "utf8").replace(/"by": "\w+"/, '"by": "ZZ"'));
    const { code, err } = await at("backup", join(place, "copy"));
    expect(code).toBe(1);
    expect(err).toMatch(
      /^sievewright: the log of this station is broken, and is copied as it is: log\/.* changed: entry/,
    );
  });
});

describe("restore", () => {
  test("the drill: back up, lose the station, restore, prove, open", async () => {
    const { place, data, at, head } = await demo();
    const copy = join(place, "copy.tgz");
    const before = await head();
    await at("backup", copy);
    rmSync(data, { recursive: true });
    const restored = await at("restore", copy, "--as", "SB");
    expect(restored.out.split("\n")).toEqual([
      expect.stringMatching(/^TH-DRY1 restored to .*: \d+ files, as of 2026-11-24 03:12$/),
      `its log was proven up to entry ${before.number}, seal ${before.seal.slice(0, 12).match(/.{4}/g).join(" ")}`,
      "recorded in the log of the restored station; prove it with: sievewright verify",
      "",
    ]);
    expect(await at("verify", "--index", "--against", before.seal)).toMatchObject({ code: 0, err: "" });
    const last = JSON.parse((await at("log", "--json")).out.trimEnd().split("\n").at(-1) ?? "");
    expect(last).toMatchObject({ kind: "restored", by: "SB", from: "copy.tgz", head: before, replaced: null });
    const store = await opened(data);
    expect([store.readOnly, store.problems]).toEqual([null, []]);
    expect((await store.recentRows(1)).length).toBeGreaterThan(0);
  });

  test("over a station that is there: only when asked, and what was there is kept and named", async () => {
    const { place, at } = await demo();
    const copy = join(place, "copy.tgz");
    await at("backup", copy);
    expect(await at("restore", copy)).toMatchObject({ code: 64, err: expect.stringContaining("add --replace") });
    expect((await at("restore", copy, "--replace", "--json")).code).toBe(0); // the entry of this very backup is no loss
    const refused = await at("restore", copy, "--replace");
    expect(refused).toMatchObject({ code: 64, out: "" });
    expect(refused.err).toMatch(/its log is newer than the backup: entry \d+ would vanish from it.*--despite-newer/);
    const { code, out } = await at("restore", copy, "--replace", "--despite-newer");
    expect(code).toBe(0);
    expect(out).toMatch(
      /\nthe station that was there is kept in .*station\.before-2026-11-24-0312-2\nin there alone, and not in the restored log: entry \d+\n/,
    );
    expect((await at("verify")).code).toBe(0);
    expect(readdirSync(place).sort()).toEqual([
      "copy.tgz",
      "station",
      "station.before-2026-11-24-0312",
      "station.before-2026-11-24-0312-2",
    ]);
  });

  test("of something that is no backup is 65 and touches nothing", async () => {
    const place = folder();
    writeFileSync(join(place, "holiday.tgz"), "not an archive");
    const { code, out, err } = await run(["restore", join(place, "holiday.tgz"), "--data", join(place, "station")]);
    expect([code, out]).toEqual([65, ""]);
    expect(err).toMatch(
      /^sievewright: .*holiday\.tgz can't be restored: it (is no whole archive|has no manifest\.json)/,
    );
    expect(readdirSync(place)).toEqual(["holiday.tgz"]);
  });

  test("as JSON", async () => {
    const { place, at, head } = await demo();
    const before = await head();
    await at("backup", join(place, "copy"));
    const { out } = await run(["restore", join(place, "copy"), "--json", "--data", join(place, "again")]);
    expect(JSON.parse(out)).toEqual({ files: expect.any(Number), head: before, keptIn: null, vanished: null });
  });
});

describe("restore over a station that asks people to sign on", () => {
  const PIN = { SB: "471108", KO: "190734" } as const;
  /** A backup from before sign-on was set up, and the station as it is since, with SB administrator and KO operator. */
  async function since() {
    const made = await demo(2);
    const copy = join(made.place, "early.tgz");
    await made.at("backup", copy);
    const setUp = ["operator", "setup", "SB", "--name", "S. Baro", "--data", made.data];
    expect((await run(setUp, { hidden: [PIN.SB, PIN.SB] })).code).toBe(0);
    const add = ["operator", "add", "KO", "--name", "K. Ohm", "--role", "operator", "--as", "SB", "--data", made.data];
    const env = { SIEVEWRIGHT_PIN: PIN.SB, SIEVEWRIGHT_NEW_PIN: PIN.KO };
    expect((await run(add, { env })).code).toBe(0);
    const over = (pin: string, ...more: string[]) =>
      run(["restore", copy, "--replace", "--despite-newer", "--data", made.data, ...more], {
        env: { SIEVEWRIGHT_PIN: pin },
      });
    const asksStill = async () => (await made.at("operator", "list")).out.startsWith("people sign on at this station");
    return { ...made, over, asksStill };
  }

  test.each([
    ["nobody", "", []],
    ["an operator", PIN.KO, ["--as", "KO"]],
    ["a wrong PIN", "999999", ["--as", "SB"]],
    ["a stranger", PIN.SB, ["--as", "XX"]],
  ] as const)("is refused to %s, exit 77, and the station stays", async (_, pin, more) => {
    const { over, asksStill, place } = await since();
    expect(await over(pin, ...more)).toMatchObject({ code: 77, out: "" });
    expect(await asksStill()).toBe(true);
    expect(readdirSync(place).sort()).toEqual(["early.tgz", "station"]);
  });

  test("is done for an administrator of it, and the log that is moved aside tells who did it and from what", async () => {
    const { over, place } = await since();
    expect(await over(PIN.SB, "--as", "SB")).toMatchObject({ code: 0, err: "" });
    const aside = join(place, "station.before-2026-11-24-0312");
    const entries = (await run(["log", "--json", "--data", aside])).out
      .trimEnd()
      .split("\n")
      .map((one) => JSON.parse(one));
    expect(entries.find((one) => one.found?.startsWith("this station gives way"))).toMatchObject({
      kind: "finding",
      by: "SB",
      signedOn: true,
      found: expect.stringMatching(
        /to the backup early\.tgz \(up to entry \d+, .*kept as station\.before-2026-11-24-0312$/,
      ),
    });
    expect((await run(["verify", "--data", aside])).code).toBe(0);
  });

  test("whose list of people is gone gives way to nobody, and says what to do", async () => {
    const { over, data } = await since();
    rmSync(join(data, "operators.json"));
    const { code, err } = await over(PIN.SB, "--as", "SB");
    expect(code).toBe(77);
    expect(err).toMatch(/list of people is gone.*operator recover/);
    expect(existsSync(data)).toBe(true);
  });

  test("and can't be opened any more still proves its administrator", async () => {
    const { over, data, place } = await since();
    writeFileSync(join(data, "station.json"), "{");
    expect(await over(PIN.KO, "--as", "KO")).toMatchObject({ code: 77, err: expect.stringContaining("administrator") });
    expect(await over("999999", "--as", "SB")).toMatchObject({ code: 77 });
    expect(await over(PIN.SB, "--as", "SB")).toMatchObject({ code: 0, err: "" });
    expect(readdirSync(place)).toContain("station.before-2026-11-24-0312");
  });
});
