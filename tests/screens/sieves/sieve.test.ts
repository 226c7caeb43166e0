import { describe, expect, test } from "vitest";
import type { EffectiveApertures } from "../../../src/care/effective/effectiveFromTests.ts";
import { accepted, refused } from "../../../src/entry/outcome.ts";
import { determined, undetermined } from "../../../src/record/determination.ts";
import type { Role } from "../../../src/record/roles.ts";
import { effectiveRead, sieveTold } from "../../../src/screens/sieves/careAnswers.ts";
import type { LifeEntry } from "../../../src/store/careReading.ts";
import type { SuspectReading } from "../../../src/store/suspectReading.ts";
import { columnsOf } from "../../../src/terminal/sanitise.ts";
import { anApp, Stage } from "../stage.ts";
import { atSieve, done, ITEMS, known, MATERIAL, S710, tests } from "./world.ts";

const WIDE = { columns: 120, rows: 40 };
const flat = (stage: Stage, size = WIDE): string => stage.screen(size).replace(/\s+/g, " ");
const signedOn = (role: Role) => ({ session: { initials: "KO", name: "K. Orr", role } });
const RISEN = known(tests(30, { from: 14, eachG: 0.03 }));

describe("the page of a sieve", () => {
  test("tells its state and advice, its use, its masses, what it is, its certificate, its limits with their standing", () => {
    const certified = ITEMS.map((item) =>
      item.schema === "sievewright.sieve/1" && item.serial === S710
        ? {
            ...item,
            certificate: {
              number: "TL-7",
              day: "2026-08-01",
              laboratory: "Tessel Hollow (invented)",
              warp: { meanUm: 712.8, deviationUm: 7.1, measured: 30 },
              weft: { meanUm: 708.6 },
              expandedUm: 2.1,
            },
          }
        : item,
    );
    const screen = flat(atSieve(known(tests(30, { from: 14, eachG: 0.03 }), certified)));
    expect(screen).toContain("S-0710-1 · 710 um");
    expect(screen).toMatch(/state fit ✓ inspection not due/);
    expect(screen).toMatch(/grains caught in the mesh: clean it by brush or ultrasonic bath, then weigh it again/);
    expect(screen).toContain("used 30 tests, 0 min (30 tests without a known time), 3.6 kg passed since 2026-10-01");
    expect(screen).toMatch(/clean 402\.0\d g, off by \+0\.\d\d g/);
    expect(screen).toContain("No. 25; woven wire; kept at rack 2; set SET-A; first used 2026-10-01");
    expect(screen).toContain(
      "no. TL-7 of 2026-08-01, Tessel Hollow (invented); warp mean 712.8 um s 7.1 um of 30; weft mean 708.6 um; U 2.1 um (k = 2)",
    );
    expect(screen).toMatch(
      /mean within Y 24\.7 um either way, none more than X 112\.3 um above \(computed; .*recalled/,
    );
  });

  test("that was brushed since says so, on its page and on the bench, and asks for no cleaning twice", () => {
    const risen = tests(30, { from: 14, eachG: 0.03 });
    const brushed = done({ did: "cleaning", serials: [S710], how: "brush" });
    const page = flat(atSieve(known([...risen, brushed])));
    expect(page).toContain("cleaned since (2026-11-23), weighed again with the next test on record");
    expect(page).not.toContain("clean it by brush");
    const bench = new Stage(anApp({ care: known([...risen, brushed]) })).screen(WIDE);
    expect(bench).toMatch(/care +S-0710-1 \(710 um\): was \d\.\d+ g heavier; cleaned since, weighed again/);
    const weighed = done({ did: "cleaning", serials: [S710], how: "brush" }, "2026-11-12T09:00:00+01:00");
    expect(flat(atSieve(known([...risen, weighed])))).not.toContain("cleaned since");
  });

  test("says that a serial is not registered", () => {
    const place = { name: "sieve", serial: "S-9", page: "sieve", told: null, effective: null } as const;
    const stage = new Stage(anApp({ care: known(), place, behind: [{ name: "bench", at: 0 }] }));
    expect(stage.screen()).toContain("S-9 is not registered");
    expect(stage.types("c").app.message).toContain("c does nothing here");
  });

  test("offers what its state allows: a sieve out of service is returned, a retired one only that", () => {
    const footer = (stage: Stage) => stage.lines(WIDE).at(-1) ?? "";
    expect(footer(atSieve())).toMatch(/c clean.*i inspect.*q quarantine/);
    expect(footer(atSieve())).not.toContain("r return");
    const kept = known([done({ did: "quarantine", serials: [S710], reason: "a tear" })]);
    expect(footer(atSieve(kept))).toMatch(/r return.*c clean/);
    expect(flat(atSieve(kept))).not.toContain("nothing to do");
    expect(flat(atSieve(kept))).toContain("not to be used: inspect it (i), then return it to service (r)");
    expect(footer(atSieve(kept))).not.toContain("q quarantine");
    const retired = footer(atSieve(known(), {}, "S-0355-9"));
    expect(retired).toContain("r return");
    expect(retired).not.toContain("c clean");
  });

  test("spares typing what the role may not do", () => {
    const operator = atSieve(known(), signedOn("operator"));
    expect(operator.types("x").app.message).toMatch(/return or retire a sieve takes somebody of quality/);
    expect(operator.types("m").app.message).toMatch(/measure or repair a sieve takes/);
    expect(operator.types("e").app.message).toMatch(/register sieves and weights takes/);
    expect(operator.types("q").app.place.name).toBe("careForm");
    expect(atSieve(known(), { readOnly: "another window" }).types("c").app.message).toBe("another window");
  });

  test("turns its pages both ways and scrolls what is too long for the window", () => {
    const stage = atSieve(RISEN);
    const page = () => (stage.app.place.name === "sieve" ? stage.app.place.page : "");
    stage.types("v");
    expect(page()).toBe("life");
    stage.presses("left", "left");
    expect(page()).toBe("effective");
    stage.presses("right");
    expect(page()).toBe("sieve");
    const small = { columns: 60, rows: 16 };
    stage.app = { ...stage.app, window: small };
    const first = stage.screen(small);
    expect(first).toMatch(/rows 1 to 9 of \d+: Page up, Page down/);
    expect(stage.presses("down").screen(small)).not.toBe(first);
    expect(stage.presses("up").screen(small)).toBe(first);
  });
});

describe("its effective apertures by reference materials", () => {
  const run = (number: number, at: string, passingPct: number) =>
    done(
      { did: "reference check", material: MATERIAL, found: [{ serial: S710, apertureUm: 710, passingPct }] },
      at,
      number,
    );
  const checks = [run(901, "2026-10-23T09:00:00+02:00", 42), run(902, "2026-11-23T09:00:00+01:00", 44)].flatMap(
    (entry) => (entry.kind === "care" && entry.care.did === "reference check" ? [{ ...entry, care: entry.care }] : []),
  );

  test("are a page of its own: a chart over time against Y, then each run in words, newest first", () => {
    const stage = atSieve(known(tests(3))).types("vvv");
    expect(stage.screen()).toContain("reading the log ...");
    stage.app = sieveTold(stage.app, S710, { entries: [], older: 0, checks });
    const screen = stage.screen(WIDE);
    expect(screen).toContain("[by material]");
    expect(screen).toContain("effective aperture in um, 2 of 2 runs");
    expect(screen).toMatch(/\+Y 734\.7┤/);
    expect(screen).toMatch(/nominal 710\.0┤/);
    expect(screen.indexOf("no. 902")).toBeLessThan(screen.indexOf("no. 901"));
    for (const size of [
      { columns: 60, rows: 16 },
      { columns: 80, rows: 24 },
    ]) {
      for (const text of stage.lines(size)) expect(columnsOf(text)).toBeLessThanOrEqual(size.columns);
    }
  });

  test("say what to do where it was never run with one", () => {
    const stage = atSieve(known(tests(3))).types("vvv");
    stage.app = sieveTold(stage.app, S710, { entries: [], older: 0, checks: [] });
    expect(flat(stage)).toContain("never run with a reference material: run one like a test on this stack");
  });
});

describe("its life", () => {
  const entries: readonly LifeEntry[] = [
    { kind: "out of reach", number: 9, at: "2026-11-22", reason: "the day 2026-11-22 can't be read" },
    ...[
      done({
        did: "cleaning",
        serials: [S710],
        how: "ultrasonic",
        after: [{ serial: S710, emptyG: 402.01 }],
        note: "5 min",
      }),
      done({ did: "quarantine", serials: [S710], reason: "dropped" }),
      done({ did: "return to service", serials: [S710], reason: "measured and right" }),
      done({ did: "repair", serials: [S710], what: "rim soldered" }),
      done({ did: "inspection", serial: S710, looks: { light: "good", tears: "faulty" } }),
      done({ did: "retirement", serials: [S710], reason: "torn" }),
    ].flatMap((entry) => (entry.kind === "care" ? [entry] : [])),
  ];

  test("is told newest first, from the log, then from the register", () => {
    const stage = atSieve(known(tests(3))).types("v");
    expect(stage.screen()).toContain("reading the log ...");
    stage.app = sieveTold(stage.app, S710, { entries, older: 3, checks: [] });
    const screen = flat(stage);
    for (const words of [
      "2026-11-23 09:00 cleaned: ultrasonic, empty 402.01 g after (5 min) KO",
      "put in quarantine: dropped",
      "returned to service: measured and right",
      "repaired: rim soldered",
      "inspected: NOT FIT: the cloth is torn or has loose wires",
      "retired: torn",
      "an entry that can't be read: the day 2026-11-22 can't be read",
      "and 3 older entries in the log",
      "2026-10-01 first used, by the register",
    ])
      expect(screen).toContain(words);
  });

  test("arrives even while the operator looks at the help", () => {
    const stage = atSieve(known(tests(3)))
      .types("v")
      .presses("f1");
    stage.app = sieveTold(stage.app, S710, { entries: [], older: 0, checks: [] });
    expect(stage.presses("escape").screen()).toContain("the log tells nothing of it yet");
  });
});

describe("its empty masses", () => {
  const empties = (stage: Stage) => stage.types("vv");

  test("are drawn with the cleaned level and the masses from which on a change is told, every sign explained", () => {
    const screen = empties(atSieve(RISEN)).screen(WIDE);
    expect(screen).toMatch(/30 empty weighings, 2026-11-10 to 2026-11-13, in g/);
    expect(screen).toMatch(/clean 402\.0\d/);
    expect(screen).toContain("empty mass ●  outside ◆  clean ··  told from ╌╌ on  cleaned ┊");
    expect(screen.split("◆").length).toBeGreaterThan(5);
    expect(screen.replace(/\s+/g, " ")).toContain("grains caught in the mesh");
    expect(screen).toContain("do: clean it by brush or ultrasonic bath");
    expect(screen).toContain("more than 0.05 g");
  });

  test("a sieve that weighs what it weighs when clean says so, with no sign outside", () => {
    const screen = empties(atSieve(known(tests(30)))).screen(WIDE);
    expect(screen).toContain("weighs what it weighs when clean");
    expect(screen.split("◆")).toHaveLength(2);
  });

  test("a cleaning stands in the chart", () => {
    const cleaned = done({ did: "cleaning", serials: [S710], how: "brush" }, "2026-11-12T06:30:00+00:00");
    const before = empties(atSieve(known(tests(30)))).screen(WIDE);
    const after = empties(atSieve(known([...tests(30), cleaned]))).screen(WIDE);
    expect(after.split("┊").length).toBeGreaterThan(before.split("┊").length);
  });

  test("a sieve that was never weighed empty says so", () => {
    expect(empties(atSieve()).screen()).toContain("never weighed empty");
  });
});

describe("its effective aperture from routine tests", () => {
  const one = (apertureUm: number, serial: string, more: object = {}) => ({
    apertureUm,
    serial,
    effectiveUm: determined(apertureUm * 1.05, "um"),
    fromUm: apertureUm * 1.04,
    toUm: apertureUm * 1.06,
    allowedUm: { fromUm: apertureUm * 0.97, toUm: apertureUm * 1.03 },
    againstY: "beyond" as const,
    suspect: false,
    tests: 40,
    advice: null,
    ...more,
  });
  const found: EffectiveApertures = {
    sieves: [
      one(1400, "S-1400-1", {
        effectiveUm: undetermined("it has no coarser neighbour"),
        fromUm: null,
        toUm: null,
        againstY: "not judged",
      }),
      one(710, S710, {
        suspect: true,
        advice: "the 710 um sieve (S-0710-1) sieves like 746 um: look it over and measure it; no result is changed",
      }),
    ],
    tests: 40,
    notes: ["ranges hold for all sieves together at 95 %"],
  };
  const reading: SuspectReading = {
    product: "TH-0510",
    serials: ["S-1400-1", S710],
    rightSince: null,
    testsBefore: 0,
    found,
    problem: null,
  };

  test("is worked out when first looked at, with a word while it is", () => {
    const stage = atSieve(RISEN).presses("left");
    expect(stage.effects.at(-1)).toEqual({ do: "readEffective", serial: S710 });
    expect(stage.screen()).toContain("working out what the latest tests say");
    const asked = stage.effects.length;
    stage.presses("left", "right");
    expect(stage.effects).toHaveLength(asked);
  });

  test("stands with its range against Y, says how sure it is, and that it changes nothing", () => {
    const stage = atSieve(RISEN).presses("left");
    stage.app = effectiveRead(stage.app, S710, accepted(reading));
    const screen = flat(stage);
    expect(screen).toContain(
      "from the latest 40 valid tests of TH-0510 on this stack, each sieve against its neighbours; never changes a result by itself",
    );
    expect(screen).toMatch(/▸ S-0710-1 710 um 745\.5 um 738\.4 um 752\.6 um SUSPECT ! ✗/);
    expect(screen).toMatch(/S-1400-1 1\.40 mm – – – not judged \?/);
    expect(screen).toContain("! the 710 um sieve (S-0710-1) sieves like 746 um");
    const before = {
      ...reading,
      testsBefore: 40,
      rightSince: "2026-10-01T08:00:00Z",
      problem: "a day is out of reach",
    };
    stage.app = effectiveRead(stage.app, S710, accepted(before));
    expect(flat(stage)).toContain("against 40 tests from when the stack was known to be right (2026-10-01)");
    expect(flat(stage)).toContain("some tests are missing: a day is out of reach");
    expect(screen).toContain("how sure: ranges hold for all sieves together at 95 %");
  });

  test("has one unit a row, and words below it that agree with its sign", () => {
    const screenOf = (change: object) => {
      const own = one(1000, S710, { effectiveUm: determined(1019, "um"), fromUm: 987, toUm: 1198, ...change });
      const stage = atSieve(RISEN).presses("left");
      stage.app = effectiveRead(stage.app, S710, accepted({ ...reading, found: { ...found, sieves: [own] } }));
      return flat(stage);
    };
    const reaching = screenOf({ againstY: "reaches beyond" });
    expect(reaching).toMatch(/1\.019 mm 0\.987 mm 1\.198 mm range beyond Y ~/);
    expect(reaching).toContain("the tests are not sure enough to place it within Y");
    expect(reaching).not.toContain("not suspect");
    expect(screenOf({ againstY: "within" })).toContain("this sieve is not suspect");
    expect(screenOf({ againstY: "beyond" })).toContain("the tests place this sieve beyond Y");
  });

  test("says why where there is none, and where another sieve is suspect", () => {
    const stage = atSieve(RISEN, {}, "S-1400-1").presses("left");
    stage.app = effectiveRead(stage.app, "S-1400-1", accepted(reading));
    expect(flat(stage)).toContain("this sieve: it has no coarser neighbour");
    expect(flat(stage)).toContain("! the 710 um sieve (S-0710-1) sieves like 746 um");
    stage.app = effectiveRead(
      stage.app,
      "S-1400-1",
      refused("no valid test in the log tells the serial of this sieve"),
    );
    expect(stage.screen()).toContain("no valid test in the log tells the serial of this sieve");
  });
});

test.each([
  [60, 16],
  [80, 24],
  [120, 40],
])("every page fits %i x %i", (columns, rows) => {
  const stage = atSieve(RISEN);
  for (let page = 0; page < 4; page++) {
    const lines = stage.lines({ columns, rows });
    expect(lines.length).toBeLessThan(rows);
    for (const text of lines) expect(text.length).toBeLessThanOrEqual(columns);
    stage.types("v");
  }
});

test("another sieve is opened by scanning it; Esc leads back to the list all the same", () => {
  const stage = atSieve(RISEN).scans("s-1000-1");
  expect(stage.app.place).toMatchObject({ name: "sieve", serial: "S-1000-1" });
  expect(stage.effects.at(-1)).toEqual({ do: "readSieve", serial: "S-1000-1" });
  expect(stage.scans("521.40 g").app.message).toBe('"521.40 g" is not the serial of a registered sieve');
  expect(stage.presses("escape").app.place.name).toBe("sieves");
});
