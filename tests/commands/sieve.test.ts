import { describe, expect, test } from "vitest";
import { BLINDED, blinding, careStation, SERIALS } from "./careStation.ts";
import { file, run } from "./inProcess.ts";

const around = (meanUm: number, n = 20): string =>
  `warp_um,weft_um\n${Array.from({ length: n }, (_, i) => `${meanUm + (i % 2 === 0 ? 2 : -2)},${meanUm}`).join("\n")}\n`;
const inspect = (serial: string, ...more: string[]) => ["sieve", "inspect", serial, "--good", "all", ...more];

describe("sieve inspect", () => {
  test("judges measured apertures against Y and X, tells where the limits come from, and goes on record", async () => {
    const { at, last } = await careStation();
    const measured = file("m.csv", around(720));
    const ran = await at(
      inspect(BLINDED, "--measured", measured, "--in-cloth", "20", "--instrument", "microscope", "--by", "ML"),
    );
    expect(ran).toMatchObject({ code: 0, err: "" });
    expect(ran.out).toMatch(/^inspection of the 710 um sieve \(S-0710-1\): fit ✓$/m);
    expect(ran.out).toMatch(/^ +warp +20 +720\.0 um \+\/- 1\.0 um +\+10\.0 um ✓ +2\.1 um +\+12\.0 um ✓ +0 %$/m);
    expect(ran.out).toMatch(/^ +limits +Y 24\.7 um +X \+112\.3 um$/m);
    expect(ran.out.replace(/\s+/g, " ")).toContain(
      "limits computed: formulas of ISO 3310-1, recalled; the edition in force decides",
    );
    expect(ran.out).toMatch(/^recorded as no\. \d+$/m);
    expect(await last()).toMatchObject({
      kind: "care",
      by: "ML",
      care: { did: "inspection", serial: BLINDED, measured: { inCloth: 20, instrument: "microscope" } },
    });
  });

  test("of apertures beyond Y ends with 1, says by how much, and takes the sieve out of service", async () => {
    const { at, json } = await careStation();
    const ran = await at(inspect(BLINDED, "--measured", file("m.csv", around(740))));
    expect(ran.code).toBe(1);
    expect(ran.out.replace(/\s+/g, " ")).toContain(
      "mean along the warp 740.0 um (+30.0 um), Y allows 24.7 um either way",
    );
    expect((await json(["sieves"])).sieves[2].condition).toMatchObject({
      state: "out of service",
      registered: "in service",
    });
  });

  test("that left a look out or measured too few ends with 2 and says what", async () => {
    const { at } = await careStation();
    const looked = await at(["sieve", "inspect", BLINDED, "--good", "light,seat", "--dry-run"]);
    expect(looked.code).toBe(2);
    expect(looked.out).toMatch(/^ +\? not looked at: wrinkles$/m);
    const few = await at(
      inspect(BLINDED, "--measured", file("m.csv", around(711, 4)), "--in-cloth", "12", "--dry-run"),
    );
    expect(few).toMatchObject({ code: 2, out: expect.stringContaining("4 of 12 measured along the warp") });
  });

  test("--faulty outweighs --good all; --dry-run records nothing", async () => {
    const { at, last } = await careStation();
    const before = await last();
    const ran = await at(inspect(BLINDED, "--faulty", "tears", "--dry-run"));
    expect(ran.code).toBe(1);
    expect(ran.out).toContain("the cloth is torn or has loose wires");
    expect(ran.out).toContain("not recorded: only tried");
    expect(await last()).toEqual(before);
  });

  test("as JSON has the figures in full", async () => {
    const { at } = await careStation();
    const { out } = await at(inspect(BLINDED, "--measured", file("m.csv", around(720)), "--json"));
    const told = JSON.parse(out);
    expect(told).toMatchObject({ serial: BLINDED, recorded: expect.any(Number), result: "fit" });
    expect(told.directions[0]).toMatchObject({ direction: "warp", measured: 20, meanUm: 720, meanWithinY: true });
  });

  test.each([
    [["sieve", "inspect", BLINDED], 64, "nothing was looked at or measured"],
    [inspect(BLINDED, "--faulty", "rust"), 64, "--faulty rust: give light, wrinkles, tears, solder, seat, or all"],
    [inspect(BLINDED, "--in-cloth", "20"), 64, "--in-cloth goes with --measured FILE"],
    [inspect(BLINDED, "--measured", "none.csv"), 66, "there is no such file"],
    [inspect("S-9"), 66, "S-9 is no registered sieve"],
    [inspect(BLINDED, "--note", "x".repeat(401)), 64, "--note: give 1 to 400 characters"],
  ])("%j ends with %i", async (argv, code, told) => {
    const { at } = await careStation();
    const ran = await at(argv);
    expect(ran).toMatchObject({ code, out: "" });
    expect(ran.err).toContain(told);
  });

  test("tells line and column of what can't be read in the file of apertures", async () => {
    const { at } = await careStation();
    const ran = await at(inspect(BLINDED, "--measured", file("m.csv", "warp_um,weft_um\n711,x\n")));
    expect(ran).toMatchObject({ code: 65, out: "", err: expect.stringContaining("line 2, weft_um") });
  });
});

describe("sieve clean, quarantine, repair, return, retire", () => {
  test("a cleaning with what the sieve weighs afterwards starts its own level anew", async () => {
    const { at, last } = await careStation(blinding());
    const ran = await at(["sieve", "clean", BLINDED, "--how", "ultrasonic", "--weighed", "402,01", "--note", "10 min"]);
    expect(ran).toMatchObject({
      code: 0,
      out: expect.stringMatching(/^no\. \d+: sieve S-0710-1 cleaned: ultrasonic\n$/),
    });
    expect((await last()).care).toEqual({
      did: "cleaning",
      serials: [BLINDED],
      how: "ultrasonic",
      after: [{ serial: BLINDED, emptyG: 402.01 }],
      note: "10 min",
    });
  });

  test("a set's code stands for all its sieves", async () => {
    const { at, json } = await careStation();
    expect((await at(["sieve", "clean", "SET-A", "--how", "brush"])).code).toBe(0);
    expect((await at(["sieve", "quarantine", "SET-A", "--reason", "dropped"])).code).toBe(0);
    const states = async () =>
      (await json(["sieves"])).sieves.map((s: { condition: { registered: string } }) => s.condition.registered);
    expect(await states()).toEqual(SERIALS.map(() => "quarantine"));
    expect((await at(["sieve", "return", ...SERIALS, "--reason", "looked over, not dented"])).code).toBe(0);
    expect(await states()).toEqual(SERIALS.map(() => "in service"));
    expect((await at(["sieve", "repair", BLINDED, "--reason", "rim soldered"])).code).toBe(0);
    expect((await at(["sieve", "retire", BLINDED, "--reason", "worn", "--json"])).code).toBe(0);
    expect(await states()).toEqual(["in service", "in service", "retired", "in service"]);
  });

  test.each([
    [["clean", BLINDED, "--how", "hammer"], 64, "--how hammer: give brush, ultrasonic, wash, tap"],
    [["clean", "SET-A", "--how", "brush", "--weighed", "400"], 64, "--weighed is of one sieve"],
    [["clean", BLINDED, "--how", "brush", "--weighed", "-3"], 64, "give the empty mass in g"],
    [["clean", "S-9", "--how", "brush"], 66, "S-9 is neither a registered sieve nor a set"],
    [["quarantine", BLINDED], 64, "required option '--reason <text>' not specified"],
    [["quarantine", BLINDED, "--reason", "  "], 64, "--reason: give 1 to 200 characters"],
  ])("%j ends with %i", async (argv, code, told) => {
    const { at } = await careStation();
    const ran = await at(["sieve", ...argv]);
    expect(ran).toMatchObject({ code, out: "" });
    expect(ran.err).toContain(told);
  });
});

describe("sieve show", () => {
  test("tells how it stands and what to do, draws its empty masses, and tells its life newest first", async () => {
    const { at } = await careStation(blinding());
    await at(["sieve", "clean", BLINDED, "--how", "brush", "--weighed", "402.02"]);
    const { code, out } = await at(["sieve", "show", BLINDED]);
    expect(code).toBe(0);
    expect(out).toMatch(/^state +fit ✓/m);
    expect(out).toMatch(
      /^used +30 tests, 0 min \(30 tests without a known time\), 3\.6 kg passed\n +since 2026-11-01$/m,
    );
    expect(out).toMatch(/^empty +402\.02 g on 2026-11-24; clean 402\.00 g, off by \+0\.02 g$/m);
    expect(out).toMatch(/^31 empty weighings in g$/m);
    expect(out.indexOf("cleaned: brush, empty 402.02 g after")).toBeLessThan(out.indexOf("registered, by KO"));
    for (const row of out.split("\n")) expect(row.length).toBeLessThanOrEqual(80);
    const told = JSON.parse((await at(["sieve", "show", BLINDED, "--json"])).out);
    expect(told).toMatchObject({ day: "2026-11-24", sieve: { serial: BLINDED }, life: { ever: { tests: 30 } } });
  });

  test("in ASCII where the terminal has no more", async () => {
    const { at } = await careStation(blinding());
    expect((await at(["sieve", "show", BLINDED], { env: { LANG: "C" } })).out).toMatch(/^[\x00-\x7f]*$/);
  });

  test("of a stranger ends with 66", async () => {
    const { at } = await careStation();
    expect(await at(["sieve", "show", "S-9"])).toMatchObject({ code: 66, out: "" });
    expect((await run(["sieve"])).code).toBe(64);
    expect((await run(["sieve", "clean", "--help"])).out).toContain("Wire ends are sharp");
  });
});
