import { describe, expect, test } from "vitest";
import type { Care } from "../../../src/record/care.ts";
import { CareSchema } from "../../../src/record/care.ts";
import { notRecorded } from "../../../src/screens/answers.ts";
import { bounceGuard } from "../../../src/screens/bounce.ts";
import { careRecorded } from "../../../src/screens/sieves/careAnswers.ts";
import { must } from "../../store/opened.ts";
import type { Stage } from "../stage.ts";
import { atSieve, atSieves, done, known, recorded, S710, SERIALS, tests } from "./world.ts";

const careOf = (stage: Stage): Care | undefined => {
  const entry = recorded(stage).at(-1);
  return entry?.kind === "care" ? entry.care : undefined;
};

describe("a cleaning", () => {
  test("of the sieve in hand: how, its empty mass afterwards, a note, who signs", () => {
    const stage = atSieve(known(tests(20)))
      .types("c")
      .presses("enter")
      .enters("2");
    expect(stage.screen()).toContain("cleaning of S-0710-1");
    stage.enters("402,01").enters("5 min in the bath").presses("enter");
    const [entry] = recorded(stage);
    expect(entry).toEqual({
      kind: "care",
      by: "KO",
      care: {
        did: "cleaning",
        serials: [S710],
        how: "ultrasonic",
        after: [{ serial: S710, emptyG: 402.01 }],
        note: "5 min in the bath",
      },
    });
    expect(CareSchema.safeParse(careOf(stage)).success).toBe(true);
    expect(stage.app.message).toBe("recording ...");
  });

  test("of a whole set by its code, each sieve weighed or not; by serials too", () => {
    const stage = atSieve().types("c").enters("set-a").enters("brush");
    for (const serial of SERIALS) {
      expect(stage.screen()).toContain(`empty ${serial}`);
      stage.enters(serial === S710 ? "402" : "");
    }
    stage.presses("enter", "enter");
    expect(careOf(stage)).toMatchObject({ serials: SERIALS, after: [{ serial: S710, emptyG: 402 }] });
    const two = atSieve()
      .types("c")
      .enters("s-1400-1, S-0500-1")
      .enters("br")
      .presses("enter", "enter", "enter", "enter");
    expect(careOf(two)).toEqual({ did: "cleaning", serials: ["S-1400-1", "S-0500-1"], how: "brush" });
  });

  test("refuses what is neither a sieve nor a set, nor a mass, nor a way of cleaning", () => {
    const stage = atSieve().types("c").enters("S-77");
    expect(stage.app.message).toBe('"S-77" is neither a sieve nor a set here');
    stage.presses("backspace", "backspace", "backspace", "backspace", "enter").enters("hammer");
    expect(stage.app.message).toBe("choose by number, or by the first letters");
    stage
      .presses(...Array(6).fill("backspace"))
      .enters("tap")
      .enters("heavy");
    expect(stage.app.message).toMatch(/"heavy" is not a number/);
    expect(recorded(stage)).toEqual([]);
  });

  test("doubts once a mass that lies off the clean level; Enter again takes it", () => {
    const stage = atSieve(known(tests(20)))
      .types("c")
      .presses("enter")
      .enters("brush")
      .enters("403.5");
    expect(stage.app.message).toMatch(/S-0710-1 weighs 403\.50 g, clean it weighed 402\.00 g: clean and weigh again/);
    expect(stage.presses("enter").screen()).toContain("anything besides");
    const right = atSieve(known(tests(20)))
      .types("c")
      .presses("enter")
      .enters("brush")
      .enters("402.03");
    expect(right.app.message).toBeNull();
  });

  test("a bouncing Enter takes neither the doubt nor the signature", () => {
    const stage = atSieve(known(tests(20)))
      .types("c")
      .presses("enter")
      .enters("brush");
    const bounced = bounceGuard();
    expect(bounced(stage.app, { name: "enter" }, 0)).toBe(false);
    stage.enters("403.5");
    expect(bounced(stage.app, { name: "enter" }, 40)).toBe(true);
    stage.presses("enter");
    expect(bounced(stage.app, { name: "enter" }, 1000)).toBe(false);
    stage.presses("enter");
    expect(stage.screen()).toContain("your initials");
    expect(bounced(stage.app, { name: "enter" }, 1040)).toBe(true);
  });

  test("a second Enter while it is on its way sends nothing again; what is refused is sent again by Enter", () => {
    const stage = atSieve().types("c").presses("enter").enters("brush").presses("enter", "enter", "enter", "enter");
    expect(recorded(stage)).toHaveLength(1);
    stage.app = notRecorded(stage.app, "the disk is full");
    expect(recorded(stage.presses("enter"))).toHaveLength(2);
  });

  test("whoever is signed on signs, and is not asked", () => {
    const session = { initials: "ML", name: "M. Lind", role: "operator" as const };
    const stage = atSieve(known(), { session }).types("c").presses("enter").enters("brush").presses("enter", "enter");
    expect(recorded(stage)).toMatchObject([{ by: "ML" }]);
  });
});

describe("what is done to a sieve with a reason", () => {
  const kept = known([done({ did: "quarantine", serials: [S710], reason: "dropped" })]);
  test.each([
    ["q", known(), { did: "quarantine", serials: [S710], reason: "dropped on the floor" }],
    ["x", known(), { did: "retirement", serials: [S710], reason: "dropped on the floor" }],
    ["r", kept, { did: "return to service", serials: [S710], reason: "dropped on the floor" }],
    ["m", known(), { did: "repair", serials: [S710], what: "dropped on the floor" }],
  ])("%s asks for it, and records it", (key, care, expected) => {
    const stage = atSieve(care).types(key).enters("no");
    expect(stage.app.message).toBe("say it in words");
    stage.presses("backspace", "backspace").enters("dropped on the floor").presses("enter", "enter");
    expect(careOf(stage)).toEqual(expected);
    expect(CareSchema.safeParse(careOf(stage)).success).toBe(true);
  });

  test("Esc goes back a question with the answer in the field, and from the first one leaves, recording nothing", () => {
    const stage = atSieve().types("q").enters("dropped").presses("escape");
    expect(stage.app.place).toMatchObject({ name: "careForm", answers: [], typed: "dropped" });
    expect(stage.presses("escape").app.place.name).toBe("sieve");
    expect(recorded(stage)).toEqual([]);
  });

  test("once it is on record its page is there again, with what was recorded; what is refused stays to be mended", () => {
    const stage = atSieve().types("q").enters("dropped").presses("enter", "enter");
    const refused = notRecorded(stage.app, "the disk is full");
    expect(refused.place.name).toBe("careForm");
    const entry = done({ did: "quarantine", serials: [S710], reason: "dropped" });
    const after = careRecorded(stage.app, entry);
    expect(after.place.name).toBe("sieve");
    expect(after.message).toBe("no. 900: sieve S-0710-1 quarantined (dropped)");
  });
});

describe("registering", () => {
  const registering = (what: string) => atSieves().presses("f3").enters(what);

  test("a sieve with its certificate: every answer finds its place", () => {
    const stage = registering("sieve").enters("S-0600-1").enters("No. 30").presses("enter", "enter").enters("50");
    stage
      .enters("ISO 3310-1:2016")
      .enters("2026-11-20")
      .enters("rack 3")
      .enters("90")
      .enters("200")
      .enters("2026-10-01");
    stage
      .enters("Tessel Hollow (invented)")
      .enters("TL-9")
      .enters("603.1")
      .enters("6,2")
      .enters("599")
      .presses("enter");
    stage.enters("1.8").presses("enter");
    expect(recorded(stage)).toEqual([
      {
        kind: "registered",
        by: "KO",
        item: {
          schema: "sievewright.sieve/1",
          serial: "S-0600-1",
          apertureUm: 600,
          cloth: "woven wire",
          frameMm: 200,
          frameHeightMm: 50,
          standard: "ISO 3310-1:2016",
          firstUse: "2026-11-20",
          location: "rack 3",
          inspection: { days: 90, tests: 200 },
          certificate: {
            number: "TL-9",
            day: "2026-10-01",
            laboratory: "Tessel Hollow (invented)",
            warp: { meanUm: 603.1, deviationUm: 6.2 },
            weft: { meanUm: 599 },
            expandedUm: 1.8,
          },
        },
      },
    ]);
  });

  test("refuses an aperture, a day and a name that are none, in words", () => {
    const stage = registering("sieve").enters("S 1");
    expect(stage.app.message).toMatch(/"S 1" may hold letters, digits, dot, dash and underscore/);
    stage.presses("backspace", "backspace").enters("-2").enters("wide");
    expect(stage.app.message).toMatch(/names no aperture/);
    stage
      .presses(...Array(4).fill("backspace"))
      .enters("600")
      .presses("enter", "enter", "enter", "enter");
    expect(stage.enters("yesterday").app.message).toBe('a day like 2026-11-24, not "yesterday"');
  });

  test("refuses early what the register would refuse: a name of another letter case", () => {
    const stage = registering("sieve").enters("s-0710-1").enters("710");
    stage.presses(...Array(10).fill("enter"));
    expect(stage.app.message).toMatch(/differs from S-0710-1 only by letter case/);
    expect(recorded(stage)).toEqual([]);
  });

  test("a change keeps what stands there, takes away by -, and asks why", () => {
    const stage = atSieve().types("e");
    expect(stage.screen()).toContain("change sieve S-0710-1");
    stage.presses("enter", "enter", "enter", "enter", "enter", "enter").enters("-").presses("enter", "enter", "enter");
    expect(stage.screen()).toContain("why the register is changed");
    stage.enters("moved out of the rack").presses("enter");
    const [entry] = recorded(stage);
    expect(entry).toMatchObject({
      kind: "registered",
      reason: "moved out of the rack",
      item: { serial: S710, apertureUm: 710, firstUse: "2026-10-01", inspection: { days: 183, tests: 40 } },
    });
    expect(entry?.kind === "registered" && "location" in entry.item).toBe(false);
  });

  test("a change that changes nothing is refused", () => {
    const same = registeredAgain();
    expect(same.app.message).toMatch(/registered like this already/);
  });

  function registeredAgain(): Stage {
    const stage = atSieves().presses("f2").types("SET-A").presses("enter");
    return stage.presses("enter", "enter").enters("no reason at all").presses("enter");
  }

  test("a set of registered sieves", () => {
    const stage = registering("set").enters("SET-B").enters("spare").enters("S-1400-1  S-0710-1").presses("enter");
    expect(recorded(stage)).toMatchObject([
      { item: { schema: "sievewright.stack/1", code: "SET-B", name: "spare", serials: ["S-1400-1", "S-0710-1"] } },
    ]);
    const strangers = registering("set").enters("SET-C").enters("spare").enters("S-9").presses("enter");
    expect(strangers.app.message).toMatch(/sieve S-9 of set SET-C is not registered/);
  });

  test("a balance and a check weight with their certificates", () => {
    const balance = registering("balance")
      .enters("B2")
      .presses("enter")
      .enters("II")
      .enters("3,1 kg".replace(",", "."));
    balance.enters("0.01").enters("0.008").enters("2026-10-01").enters("Tessel Hollow (invented)").enters("2027-10-01");
    expect(recorded(balance.presses("enter"))).toMatchObject([
      {
        item: {
          schema: "sievewright.balance/1",
          id: "B2",
          balanceClass: "II",
          capacityG: 3100,
          readabilityG: 0.01,
          repeatabilityG: 0.008,
          calibration: { day: "2026-10-01", laboratory: "Tessel Hollow (invented)", due: "2027-10-01" },
        },
      },
    ]);
    const weight = registering("check").enters("W50").enters("50").enters("F1").enters("2026-10-01").enters("a lab");
    weight.presses("enter").enters("50.0001").enters("0.0003").presses("enter");
    expect(recorded(weight)).toMatchObject([
      {
        item: {
          schema: "sievewright.checkWeight/1",
          weight: "W50",
          nominalG: 50,
          weightClass: "F1",
          certificate: { day: "2026-10-01", laboratory: "a lab", massG: 50.0001, expandedG: 0.0003 },
        },
      },
    ]);
  });

  test("a certificate without a laboratory is told at its field", () => {
    const weight = registering("check").enters("W50").enters("50").enters("none").enters("2026-10-01");
    weight.presses(...Array(5).fill("enter"));
    expect(weight.app.message).toMatch(/certificate\.laboratory .*Esc goes back to it/);
  });

  test("from a file: its path and, for what is there already, why", () => {
    const stage = registering("file").enters("rm-sand.json").presses("enter", "enter");
    expect(stage.effects.at(-1)).toEqual({ do: "registerFile", path: "rm-sand.json", by: "KO", reason: "" });
  });

  test("leads back to the list once it is on record", () => {
    const stage = registering("set").enters("SET-B").enters("spare").enters("S-1400-1").presses("enter");
    const [entry] = recorded(stage);
    if (entry?.kind !== "registered") throw new Error("nothing registered");
    const { care: _care, ...sealed } = done({ did: "repair", serials: [S710], what: "x" }) as {
      care?: unknown;
    } & Record<string, unknown>;
    const after = careRecorded(stage.app, { ...sealed, ...entry } as Parameters<typeof careRecorded>[1]);
    expect(after.place.name).toBe("sieves");
    expect(after.message).toBe("no. 900: set SET-B registered");
  });
});

test.each([
  [60, 16],
  [80, 24],
])("a long form fits %i x %i, the question in hand always in sight", (columns, rows) => {
  const stage = atSieves().presses("f3").enters("sieve").enters("S-0600-1").enters("600");
  for (let i = 0; i < 8; i++) stage.presses("enter");
  stage
    .enters("2026-10-01")
    .enters("a laboratory with a name that goes on and on and on, so that it has to be wrapped");
  const lines = stage.lines({ columns, rows });
  expect(lines.length).toBeLessThan(rows);
  for (const text of lines) expect(text.length).toBeLessThanOrEqual(columns);
  expect(lines.join("\n")).toContain("▌");
  expect(must({ ok: true, value: lines.at(-1) })).toContain("Enter accept");
});
