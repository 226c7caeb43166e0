import { existsSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test, vi } from "vitest";
import { opened } from "../store/opened.ts";
import { folder, run } from "./inProcess.ts";

vi.setConfig({ testTimeout: 60_000 });

const PIN = "471108";

async function withSignOn() {
  const place = folder();
  const data = join(place, "station");
  const set = await run(["operator", "setup", "SB", "--name", "S. Baro", "--data", data], { hidden: [PIN, PIN] });
  expect(set).toMatchObject({ code: 0, err: "" });
  const copy = join(place, "copy.tgz");
  const backup = (more: readonly string[] = [], setting = {}) =>
    run(["backup", copy, "--data", data, ...more], setting);
  const entries = async () =>
    (await run(["log", "--json", "--data", data])).out
      .trimEnd()
      .split("\n")
      .map((line) => JSON.parse(line));
  return { data, copy, backup, entries };
}

describe("a backup where people sign on", () => {
  test.each([
    ["nobody named", [], {}, "add --as INITIALS; nothing was copied"],
    ["no PIN to be had", ["--as", "SB"], {}, "no terminal to ask for the PIN"],
    ["a wrong PIN", ["--as", "SB"], { env: { SIEVEWRIGHT_PIN: "000000" } }, "initials and PIN don't match"],
  ])("with %s ends with 77 and copies nothing", async (_what, more, setting, err) => {
    const { copy, backup } = await withSignOn();
    const ran = await backup(more, setting);
    expect(ran).toMatchObject({ code: 77, out: "" });
    expect(ran.err).toContain(err);
    expect(existsSync(copy)).toBe(false);
  });

  test("asks for the PIN once, and the log tells of the copy, signed", async () => {
    const { copy, backup, entries } = await withSignOn();
    const before = (await entries()).length;
    expect(await backup(["--as", "SB"], { hidden: [PIN] })).toMatchObject({ code: 0, err: "" });
    expect(existsSync(copy)).toBe(true);
    expect((await entries()).slice(before)).toMatchObject([
      { kind: "sign-on", event: "on" },
      { kind: "backup", by: "SB", to: copy, signedOn: true },
      { kind: "sign-on", event: "off" },
    ]);
  });

  test("is made without while another window has the station open, says so, and ends with 1", async () => {
    const { data, copy, backup } = await withSignOn();
    await opened(data);
    const { code, out, err } = await backup();
    expect(code).toBe(1);
    expect(out).toMatch(/\nnot recorded in the log of the station: another Sievewright/);
    expect(err).toContain("nobody proved to be somebody for this copy");
    expect(existsSync(copy)).toBe(true);
  });
});
