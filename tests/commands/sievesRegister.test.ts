import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { must, opened } from "../store/opened.ts";
import { sandEntry, sandRegister, sandTests } from "../store/suspectWorld.ts";
import { BLINDED, blinding, careStation, quarantined, quiet, SERIALS } from "./careStation.ts";
import { folder, run } from "./inProcess.ts";

const LATER = { now: "2027-06-01T08:00:00+02:00" };

describe("sieves --due", () => {
  test("says that nothing is due, exit 0", async () => {
    const { at } = await careStation(quiet(3));
    expect(await at(["sieves", "--due"])).toEqual({
      code: 0,
      err: "",
      out: "nothing is due on 2026-11-24, and nothing is to be done about sieves, balance or weights\n",
    });
  });

  test("names what grains were caught in, since when and what to do; what is in quarantine and why", async () => {
    const { at, json } = await careStation([...blinding(), quarantined("S-0500-1")]);
    const { code, out } = await at(["sieves", "--due"]);
    expect(code).toBe(0);
    expect(out).toMatch(/^S-0710-1 +710 um +fit ✓$/m);
    expect(out.replace(/\s+/g, " ")).toMatch(
      /the 710 um sieve \(S-0710-1\) weighs 0\.\d\d g more than when clean, slowly risen since 2026-11-0[34]: grains caught in the mesh: clean it by brush/,
    );
    expect(out).toMatch(/^S-0500-1 +500 um +QUARANTINE ✗\n +quarantine since 2026-11-24: dented rim$/m);
    expect(out).not.toContain("S-1400-1");
    const due = await json(["sieves", "--due"]);
    expect(due).toMatchObject({ schema: "sievewright.due/1", day: "2026-11-24", balances: [], weights: [] });
    expect(due.sieves.map(({ serial }: { serial: string }) => serial)).toEqual([BLINDED, "S-0500-1"]);
    expect(due.sieves[0]).toMatchObject({ state: "fit", tare: { state: "caught" }, counts: { tests: 30 } });
  });

  test("names sieves that are overdue, once each, and leaves out what is retired", async () => {
    const { at } = await careStation(quiet(2));
    expect((await at(["sieve", "retire", "S-1400-1", "--reason", "torn", "--as", "KO"])).code).toBe(0);
    const { out } = await at(["sieves", "--due"], LATER);
    expect(out).toMatch(/^S-0710-1 +710 um +OVERDUE !\n +! inspect it: 212 of 183 days since 2026-11-01$/m);
    expect(out).not.toContain("S-1400-1");
  });

  test("names a balance whose calibration is over and one that failed its check", async () => {
    const { data, at } = await careStation();
    const store = await opened(data);
    const calibration = { day: "2025-01-01", laboratory: "invented", due: "2026-01-01" };
    const item = { schema: "sievewright.balance/1", id: "B1", capacityG: 3200, readabilityG: 0.01 } as const;
    must(await store.record({ kind: "registered", at: LATER.now, by: "KO", item: { ...item, calibration } }));
    await store.close();
    expect((await at(["sieves", "--due"])).out).toMatch(
      /^B1 +balance +OVERDUE !\n +calibration overdue since 2026-01-01$/m,
    );
    const again = await opened(data);
    const readings = [{ nominalG: 500, readG: 501, toleranceG: 0.03 }];
    const check = { at: LATER.now, balance: "B1", by: "KO", readings };
    must(await again.record({ kind: "balance check", at: LATER.now, by: "KO", check }));
    await again.close();
    expect((await at(["sieves", "--due"])).out).toMatch(/^B1 +balance +FAILED ✗$[\s\S]+! its latest check failed/m);
  });

  test("takes no lock and changes no file", async () => {
    const { data, at } = await careStation(blinding());
    const index = join(data, "index", "care.json");
    const before = readFileSync(index, "utf8");
    await at(["sieves", "--due"]);
    await at(["sieves"]);
    await at(["sieve", "show", BLINDED]);
    expect(readFileSync(index, "utf8")).toBe(before);
    expect(existsSync(join(data, "station.lock"))).toBe(false);
  });
});

describe("sieves without an aperture", () => {
  test("lists the register, each sieve with its state, use and how far it is off clean", async () => {
    const { at, json } = await careStation(blinding());
    const { code, out } = await at(["sieves"]);
    expect(code).toBe(0);
    expect(out).toMatch(/^ +S-0710-1 +710 um +fit ✓ +30 +3\.6 +2027-05-03 +\+0\.45 g +! +SET-A$/m);
    expect(out).toMatch(/^ +SET-A +filter sand, first set: 1\.40 mm, 1\.00 mm, 710 um, 500 um$/m);
    for (const row of out.split("\n")) expect(row.length).toBeLessThanOrEqual(80);
    const register = await json(["sieves"]);
    expect(register.schema).toBe("sievewright.register/1");
    expect(register.sieves.map(({ item }: { item: { serial: string } }) => item.serial)).toEqual(SERIALS);
    expect(register.sieves[2].condition.tare.state).toBe("caught");
  });

  test("says how sieves are registered where there are none", async () => {
    const data = join(folder(), "s");
    await (await opened(data)).close();
    expect((await run(["sieves", "--data", data])).out).toContain("no sieve is registered: sievewright register FILE");
  });

  test.each([
    [["sieves", "600", "--due"], 64, "an aperture and --due: ask for one at a time"],
    [["sieves", "--due", "--suspects"], 64, "--due and --suspects: ask for one at a time"],
    [["sieves", "--product", "X"], 64, "--product goes with --suspects"],
    [["sieves"], 66, "there is no station in"],
  ])("%j ends with %i", async (argv, code, told) => {
    const ran = await run(argv);
    expect(ran).toMatchObject({ code, out: "" });
    expect(ran.err).toContain(told);
  });
});

describe("sieves --suspects", () => {
  test("tells by the tests of a product which sieve is off, with its range against Y", async () => {
    const data = join(folder(), "s");
    const store = await opened(data);
    must(await store.recordAll([...sandRegister(), ...sandTests(18, 0.12, 8).map(sandEntry)]));
    const loading = { fromPath: "test", bytesSha256: "0".repeat(64), by: "KO", at: LATER.now };
    const { SAND_PRODUCT } = await import("../store/suspectWorld.ts");
    must(await store.addProduct(SAND_PRODUCT, loading));
    await store.close();
    const { code, out } = await run(["sieves", "--suspects", "--product", "TH-SIM", "--data", data]);
    expect(code).toBe(0);
    expect(out).toMatch(/^sieves of TH-SIM by its latest 18 tests, each sieve against its neighbours$/m);
    expect(out).toMatch(/^ +S-355 +355 um +\d+\.\d um +\d+\.\d um +\d+\.\d um +SUSPECT ! +(may be )?beyond Y [~✗]$/m);
    expect(out.replace(/\s+/g, " ")).toContain("no result is changed");
    expect(out.replace(/\s+/g, " ")).toContain("It advises and never changes a result.");
    const told = JSON.parse((await run(["sieves", "--suspects", "--json", "--data", data])).out);
    expect(told).toMatchObject({ schema: "sievewright.suspects/1", without: [] });
    expect(told.readings[0].found.sieves.find((s: { suspect: boolean }) => s.suspect).serial).toBe("S-355");
  });

  test("of a product without such tests says so, of an unknown one ends with 66", async () => {
    const { at } = await careStation();
    expect((await at(["sieves", "--suspects"])).out).toContain("no product is in the library");
    const unknown = await at(["sieves", "--suspects", "--product", "TH-9"]);
    expect(unknown).toMatchObject({ code: 66, err: expect.stringContaining("TH-9 is not in the library") });
  });
});
