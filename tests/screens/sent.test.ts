import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Scanner } from "../../src/record/scanner.ts";
import { pressed } from "../../src/screens/dispatch.ts";
import type { App, Effect, PlaceName } from "../../src/screens/place.ts";
import { PLACE_NAMES } from "../../src/screens/rooms.ts";
import type { Store } from "../../src/store/store.ts";
import { knownOf } from "../care/knownWorld.ts";
import { ITEMS, recorded } from "../run/knownSieves.ts";
import { anApp, recordedRow, STATION, Stage } from "./stage.ts";
import { VISITS } from "./visits.ts";
import { demoPlant, Walker } from "./walking.ts";

const scanner: Scanner = {
  prefixes: { lot: "L:", product: "P:", line: "N:", samplingPoint: "B:", set: "T:", sieve: "S:", operator: "U:" },
};
const care = knownOf(
  ITEMS,
  recorded(26, () => 0),
);
const station = { ...STATION, scanner };
const at = (change: Partial<App> = {}) => new Stage(anApp({ station, care, ...change }));
const draftOf = ({ app }: Stage) => {
  if (app.place.name !== "run") throw new Error(`in ${app.place.name}`);
  return app.place.run.draft;
};

describe("a scan that says what it is, on the set-out page", () => {
  test.each([
    ["product in hand", 0],
    ["line in hand", 2],
    ["charge in hand", 4],
  ])("goes to its own field with the %s, and hands stay there", (_, fields) => {
    const stage = at().types("n");
    for (let i = 0; i < fields; i++) stage.presses("enter");
    const before = stage.app.place.name === "run" ? stage.app.place.run.at : -1;
    stage.scans("L:4499-C").scans("N:Screen deck B").scans("B:belt 4", false);
    expect(draftOf(stage)).toMatchObject({ lot: "4499-C", line: "Screen deck B", samplingPoint: "belt 4" });
    expect(stage.app.place).toMatchObject({ run: { at: before === 2 ? 4 : before } });
    expect(draftOf(stage).trail.map(({ field }) => field)).toEqual(expect.arrayContaining(["lot", "line"]));
  });

  test("leaves what was being typed as it was", () => {
    const stage = at().types("n").presses("enter", "enter", "enter", "enter").types("300.");
    stage.scans("L:4499-C");
    expect(stage.screen()).toMatch(/charge +300\.▌/);
    expect(stage.screen()).toContain("lot 4499-C is taken");
    expect(stage.enters("20").screen()).toContain("weigh empty 0/6");
    expect(draftOf(stage)).toMatchObject({ chargeG: 300.2, lot: "4499-C" });
  });

  test("in its own field is an entry, and leads on", () => {
    const stage = at().types("n").presses("enter").scans("L:4499-C");
    expect(stage.screen()).toMatch(/▸ line/);
    expect(draftOf(stage).lot).toBe("4499-C");
  });

  test("lot before product: the product brings no other lot", () => {
    const stage = at().types("n").scans("L:4499-C").scans("P:TH-BAR");
    expect(draftOf(stage)).toMatchObject({ lot: "4499-C", product: { code: "TH-BAR" } });
  });

  test("takes a set, by itself or by one of its sieves", () => {
    expect(draftOf(at().types("n").scans("T:SET-B")).set).toBe("SET-B");
    expect(draftOf(at().types("n").scans("S:S-710-b")).set).toBe("SET-B");
  });

  test.each([
    ["P:TH-XXX", 'no product is called "TH-XXX"'],
    ["N:Mill 9", 'no line is called "Mill 9"'],
    ["S:S-1", "no sieve of the register is called S-1"],
    ["T:SET-Z", "no set of the register is called SET-Z"],
    ["U:KO", "that is asked when the test is signed"],
  ])("%s is refused: %s, and nothing is changed", (text, why) => {
    const stage = at().types("n");
    const before = draftOf(stage);
    expect(stage.scans(text).screen()).toContain(why);
    expect(draftOf(stage)).toEqual(before);
  });

  test("a mass is no lot: it is refused where a word is asked, and taken where the charge is", () => {
    const stage = at().types("n").presses("enter").scans("+ 300.20 g");
    expect(stage.screen()).toContain("+ 300.20 g is a mass: Down leads to the charge");
    expect(draftOf(stage).lot).toBe("4470-A");
    stage.presses("enter", "enter", "enter").scans("S N + 300.20 g");
    expect(draftOf(stage).chargeG).toBe(300.2);
  });
});

const weighing = () => at().types("n").presses("enter", "enter", "enter", "enter").enters("300.20");

describe("a scan that says what it is, while weighing", () => {
  test("of a sieve is confirmed in its row; another row's is told with its row, and typing stays", () => {
    expect(weighing().scans("S:S-1400-a").screen()).toContain("1.40 mm S-1400-a is in hand");
    const other = weighing().scans("S:S-500-a");
    expect(other.screen()).toContain("S-500-a is the 500 um sieve, the 1.40 mm sieve is to be weighed");
    expect(other.app.place).toMatchObject({ run: { at: 0 } });
  });

  test.each(["L:4471-X", "P:TH-BAR", "N:Screen deck B"])(
    "%s: another one is told at once, and nothing changes",
    (text) => {
      const stage = weighing();
      const before = draftOf(stage);
      expect(stage.scans(text).screen()).toMatch(/was scanned, this test is of [^:]*: nothing is\s+changed/);
      expect(draftOf(stage)).toBe(before);
    },
  );

  test("the test's own lot is confirmed", () =>
    expect(weighing().scans("L:4470-a").screen()).toContain("lot 4470-A: it is this test's own"));

  test("on the shaker, too, where the message line tells it", () => {
    const stage = weighing();
    for (const grams of [412.31, 398.74, 381.2, 366.95, 359.4, 354.1]) stage.enters(`${grams}`).presses("enter");
    while (draftOf(stage).stage !== "shake") stage.presses("enter");
    stage.scans("L:4471-X");
    expect(stage.app.message).toContain("lot 4471-X was scanned, this test is of lot 4470-A");
  });

  test("a reading that is not at rest, or a tare, is refused with the reason; the next one replaces it", () => {
    const stage = weighing().scans("N + 412.31 g ?");
    expect(stage.screen()).toContain("the balance says it is not at rest");
    expect(draftOf(stage).weighings[0]?.emptyG).toBeNull();
    stage.scans("T 412.31 g");
    expect(stage.screen()).toContain("is the tare");
    stage.scans("N + 412.31 g S");
    expect(draftOf(stage).weighings[0]?.emptyG).toBe(412.31);
  });

  test("a digit after a reading that is not at rest begins a mass of its own", () => {
    const stage = weighing().scans("412.31 g ?").types("9");
    expect(stage.screen()).toMatch(/1\.40 mm +9▌/);
  });

  test("a line too long for its field stands there as its mass, in block digits too", () => {
    const stage = weighing().scans("ST +   9412.31 g", false);
    expect(stage.screen()).toMatch(/1\.40 mm +9412\.31▌/);
    stage.app = { ...stage.app, big: true };
    expect(stage.screen()).toContain("██");
    expect(stage.screen()).not.toContain("ST +");
  });

  test("the station's own marks count", () => {
    const stage = at({ station: { ...station, scanner: { balance: { moving: ["!"] } } } });
    stage.types("n").presses("enter", "enter", "enter", "enter").enters("300.20").scans("412.31 g !");
    expect(stage.screen()).toContain("not at rest (!)");
  });

  test("without an end waits in the field for an Enter", () => {
    const stage = weighing().scans("412.31", false);
    expect(stage.screen()).toMatch(/1\.40 mm +412\.31▌/);
    expect(draftOf(stage).weighings[0]?.emptyG).toBeNull();
  });
});

describe("a scan on the bench", () => {
  test("of a lot sets a test of it out, with nothing accepted yet and nothing saved", () => {
    const stage = at().scans("L:4499-C");
    expect(stage.screen()).toMatch(/lot +4499-C/);
    expect(draftOf(stage).trail).toEqual([]);
    expect(stage.effects.filter((e) => e.do === "save")).toEqual([]);
  });

  test("of a lot tested before takes its product, and says so", () => {
    const row = { ...recordedRow(2, "M2-7"), product: "TH-BAR" };
    const stage = at({ recent: [recordedRow(), row] }).scans("L:m2-7");
    expect(draftOf(stage)).toMatchObject({ product: { code: "TH-BAR" } });
    expect(stage.screen()).toContain("was tested as no. 2: j on the bench shows all its tests");
  });

  test("of a lot in work points at its test", () => {
    const stage = weighing().presses("escape", "escape").scans("L:4470-A");
    expect(stage.screen()).toContain("lot 4470-A is in work: Enter takes its test up");
    expect(stage.app.drafts).toHaveLength(1);
  });

  test.each([
    ["P:TH-BAR", "run"],
    ["S:S-710-a", "sieve"],
    ["T:SET-A", "sieves"],
  ] as const)("%s leads to %s", (text, place) => expect(at().scans(text).app.place.name).toBe(place));

  test("of a product while this window only reads says so", () =>
    expect(at({ readOnly: "somebody else writes" }).scans("P:TH-BAR").screen()).toContain("somebody else writes"));

  test("a mass is told to be for no test", () =>
    expect(at().scans("+ 412.31 g").screen()).toContain("was sent, and no test is in hand"));
});

test("a sentence is kept as it came, whatever it begins with", () => {
  const stage = at().presses("ctrl+n").scans("L: left the dryer at 120 C", false);
  expect(stage.app.place).toMatchObject({ name: "event", form: "note", typed: "L: left the dryer at 120 C" });
});

test("in a list a scan is looked for whole, whatever was typed before", () => {
  const stage = at().types("p").types("zzz").scans("P:TH-BAR", false);
  expect(stage.app.place).toMatchObject({ name: "products", filter: "TH-BAR" });
});

describe("signing takes a hand", () => {
  const result = () => {
    const stage = weighing();
    while (draftOf(stage).stage === "weigh empty") stage.types("400").presses("enter", "enter");
    stage.presses("enter").waits(601).presses("enter");
    while (draftOf(stage).stage === "weigh full") stage.types("450").presses("enter", "enter");
    return stage.presses("enter");
  };

  test("a scan neither takes the disposition nor signs; a badge only fills the initials in", () => {
    const stage = result();
    expect(stage.app.place.name).toBe("sign");
    stage.scans("release");
    expect(stage.app.place).toMatchObject({ name: "sign", field: "disposition" });
    stage.presses("enter").scans("U:KO");
    expect(stage.app.place).toMatchObject({ name: "sign", field: "initials", typed: "KO" });
    expect(stage.screen()).toContain("takes an Enter by hand");
    expect(stage.effects.some((e) => e.do === "record")).toBe(false);
  });
});

/** What somebody must have meant: nothing of it may come of what a scanner sends. */
const DONE: readonly Effect["do"][] = [
  ...(["record", "amend", "endTest", "recordCheck", "recordEvent", "keepPage", "drop", "quit"] as const),
  ...(["freezeLimits", "recordCare", "registerFile", "draftProduct", "discardProductDraft", "publishProduct"] as const),
  ...(["importShared", "keepTheme"] as const),
];
const isDone = (effect: Effect): boolean =>
  DONE.includes(effect.do) || (effect.do === "people" && effect.ask.is !== "sign on");

/** Where a scan may lead by itself: what it names, or the first row that a list finds. */
const LEADS: Partial<Record<PlaceName, readonly PlaceName[]>> = {
  bench: ["run", "sieve", "sieves", "signOn"],
  products: ["product"],
  sieves: ["sieve", "careForm"],
  sieve: ["sieve"],
  plan: ["plan"],
};

function fired(app: App, text: string, ended: boolean): string[] {
  const { app: after, effects } = pressed(app, { name: "entry", text, ended }, "2026-11-25T03:00:00+01:00");
  const where = `${JSON.stringify(text)}${ended ? " and its end" : ""} in ${app.place.name}`;
  const moved = after.place.name !== app.place.name && !LEADS[app.place.name]?.includes(after.place.name);
  return [
    ...effects.filter(isDone).map((effect) => `${where}: ${effect.do}`),
    ...(moved ? [`${where}: leads to ${after.place.name}`] : []),
    ...(after.drafts.length < app.drafts.length ? [`${where}: a test is gone`] : []),
  ];
}

const LETTERS = [..."abcdefghijklmnopqrstuvwxyz0123456789?+-"];

describe("no burst ever sets anything off", () => {
  let folder: string;
  let store: Store;
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), "sievewright-sent-"));
    store = await demoPlant(folder);
  }, 120_000);
  afterAll(async () => {
    await store.close();
    await rm(folder, { recursive: true, force: true });
  });

  test.each(PLACE_NAMES)(
    "in %s: every key of the keyboard as a burst, with and without an end",
    async (name) => {
      const faults: string[] = [];
      const walker = new Walker(store, (app) => {
        const prefixed = { ...app, station: { ...app.station, scanner } };
        for (const letter of [...LETTERS, "quit", "enter", "release", "L:4471", "U:KO", "P:TH-MAS", "+ 5.20 g"])
          for (const ended of [true, false]) faults.push(...fired(prefixed, letter, ended));
      });
      await walker.comes((app) => app.recent !== null && app.care !== undefined);
      await VISITS[name](walker);
      expect(faults).toEqual([]);
    },
    60_000,
  );

  test("nor does any text", () =>
    fc.assert(
      fc.property(fc.string({ unit: "grapheme", maxLength: 20 }), fc.boolean(), (text, ended) => {
        for (const stage of [at(), at().types("n"), weighing()]) expect(fired(stage.app, text, ended)).toEqual([]);
      }),
      { numRuns: 60 },
    ));
});
