import { describe, expect, test } from "vitest";
import type { CareKnown } from "../../src/care/known.ts";
import { readCare } from "../../src/screens/effects/care.ts";
import type { Desk } from "../../src/screens/effects/desk.ts";
import { mannerOf } from "../../src/words/manner.ts";
import { careEntry, knownOf, sieveOf } from "../care/knownWorld.ts";
import { EMPTY_G, FULL_G } from "../run/hands.ts";
import { ITEMS, recorded } from "../run/knownSieves.ts";
import { inLanguage } from "../words/tongues.ts";
import { anApp, Stage } from "./stage.ts";

const BLINDING = recorded(26, (um, k) => (um === 710 && k >= 14 ? 0.06 * (k - 13) : 0));
const care = knownOf(ITEMS, BLINDING);
const two = (grams: number) => grams.toFixed(2);
/** Set out with the set that stands there, hands on the first empty sieve. */
const weighing = (more = care) =>
  new Stage(anApp({ care: more })).types("n").presses("enter", "enter", "enter", "enter").enters("300.20");
/** What is known of the sieves is read again behind the scenes, as after every entry of the care log. */
const readAgain = (stage: Stage, known: CareKnown) =>
  readCare({
    store: { care: { known: async () => known } },
    now: () => stage.now(),
    app: () => stage.app,
    show: (app: typeof stage.app) => {
      stage.app = app;
    },
  } as unknown as Desk);
const at710 = () => weighing().enters("412.31").enters("398.74");

describe("the set of sieves on the set-out page", () => {
  test("says in the language of the screens that it was taken", async () => {
    const stage = new Stage(anApp({ care })).types("n").presses("enter", "enter", "enter", "enter");
    const manner = mannerOf({}, "de");
    await inLanguage("de", () => (stage.app = { ...stage.app, manner }));
    expect(stage.screen()).toContain("Satz SET-A ist genommen, wie beim letzten Mal");
  });

  test("goes in as it was used last without a key of its own, says so, and is open to change", () => {
    const stage = new Stage(anApp({ care })).types("n").presses("enter", "enter", "enter", "enter");
    expect(stage.screen()).toMatch(/▸ charge/);
    expect(stage.screen()).toContain("set SET-A is taken, as last time; Up leads to it");
    stage.presses("up");
    expect(stage.screen()).toMatch(/▸ set of sieves +SET-A +set A▌/);
    expect(stage.screen()).toContain("scan the set or one of its sieves; Enter takes the one shown");
    expect(stage.screen()).toMatch(/1 {2}SET-A +set A\n +2 {2}SET-B +set B\n +3 {2}none/);
    stage.presses("enter");
    expect(stage.effects.filter((e) => e.do === "save").at(-1)).toMatchObject({ draft: { set: "SET-A" } });
  });

  test("is no field where nothing is registered: no key more than before", () => {
    const stage = new Stage().types("n").presses("enter", "enter", "enter", "enter").enters("300.20");
    expect(stage.screen()).toContain("weigh empty 0/6");
    expect(stage.screen()).not.toContain("sieve,");
  });

  test("costs no key, be it taken as last time or scanned", () => {
    const keyed = weighing();
    const scanned = new Stage(anApp({ care })).types("n").scans("SET-A").presses("enter", "enter", "enter", "enter");
    scanned.enters("300.20");
    expect(scanned.screen()).toContain("S-1400-a");
    expect(keyed.screen()).toContain("S-1400-a");
  });
});

describe("weighing empty", () => {
  test("shows which sieve belongs in each row, and by a sign and a word which were scanned", () => {
    const stage = weighing().scans("S-1400-a");
    expect(stage.screen()).toContain("sieve, ✓ scanned");
    expect(stage.screen()).toMatch(/1\.40 mm .*S-1400-a ✓\n/);
    expect(stage.screen()).toContain("1.40 mm S-1400-a is in hand");
    expect(stage.screen()).toMatch(/1\.00 mm .*S-1000-a\n/);
  });

  test("names a wrong sieve at once, and takes its mass all the same", () => {
    const stage = weighing().scans("S-500-a");
    expect(stage.screen()).toContain("! S-500-a is the 500 um sieve, the 1.40 mm sieve is to be weighed");
    expect(stage.enters("412.31").screen()).toMatch(/1\.40 mm +412\.31/);
  });

  test("says at once what is caught in the mesh; b notes the brushing, and the sieve is weighed again", async () => {
    const stage = at710().enters("382.00");
    expect(stage.screen()).toContain("grains caught in the mesh");
    stage.types("b");
    expect(stage.effects.at(-1)).toMatchObject({
      do: "recordEvent",
      entry: { kind: "care", by: "KO", care: { did: "cleaning", serials: ["S-710-a"], how: "brush" } },
    });
    expect(stage.screen()).not.toContain("grains caught");
    expect(stage.screen()).toMatch(/▸ 710 um +▌/);
    const brushed = careEntry(99, stage.now(), { did: "cleaning", serials: ["S-710-a"], how: "brush" });
    await readAgain(stage, knownOf(ITEMS, [...BLINDING, brushed]));
    expect(stage.enters("381.20").screen()).toMatch(/▸ 500 um/);
  });

  test("tells a cleaning noted after the empty weighing on the rows and on the result", async () => {
    const stage = weighing();
    for (const grams of EMPTY_G) stage.enters(two(grams));
    const brushed = careEntry(99, stage.now(), { did: "cleaning", serials: ["S-500-a"], how: "brush" });
    const known = knownOf(ITEMS, [...BLINDING, brushed]);
    const told = "S-500-a was cleaned at 02:12, after its empty mass of this test";
    expect(stage.screen()).not.toContain(told);
    await readAgain(stage, known);
    stage.presses("enter").waits(700_000).presses("enter");
    expect(stage.screen()).toContain("weigh full");
    expect(stage.screen()).toContain(told);
    for (const grams of FULL_G) stage.enters(two(grams));
    expect(stage.screen()).toContain(told);
  });

  test("notes no brushing without a serial, without a name, or where nothing can be written", () => {
    const unknown = new Stage().types("n").presses("enter", "enter", "enter", "enter").enters("300.20").types("b");
    expect(unknown.screen()).toContain("no serial stands in this row");
    const nameless = new Stage(anApp({ care, operator: "" }));
    nameless.types("n").presses("enter", "enter", "enter", "enter").enters("300.20").types("b");
    expect(nameless.screen()).toContain("nobody has signed here yet");
    expect([...unknown.effects, ...nameless.effects].filter((e) => e.do === "recordEvent")).toEqual([]);
  });

  test("a whole test with known sieves bears set, serials and their condition", () => {
    const stage = weighing(
      knownOf(
        ITEMS,
        recorded(20, () => 0),
      ),
    );
    for (const grams of EMPTY_G) stage.enters(two(grams));
    const saved = stage.effects.findLast((e) => e.do === "save");
    if (saved?.do !== "save") throw new Error("nothing was saved");
    expect(saved.draft).toMatchObject({ set: "SET-A", stage: "shake" });
    expect(saved.draft.sieves).toHaveLength(5);
    expect(saved.draft.weighings.map(({ serial }) => serial)).toEqual([
      "S-1400-a",
      "S-1000-a",
      "S-710-a",
      "S-500-a",
      "S-355-a",
      undefined,
    ]);
  });

  test.each([
    [80, 24],
    [60, 16],
    [120, 40],
  ])("fits a window of %i x %i", (columns, rows) => {
    const lines = at710().enters("382.00").lines({ columns, rows });
    expect(lines.length).toBeLessThanOrEqual(rows - 1);
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(columns);
  });
});

describe("the bench", () => {
  const bench = (items = ITEMS, entries = BLINDING) => new Stage(anApp({ care: knownOf(items, entries) })).screen();

  test("tells what is caught, overdue and out of use, the most pressing first", () => {
    const out = careEntry(98, "2026-11-20T08:00:00+01:00", {
      did: "quarantine",
      serials: ["S-500-b"],
      reason: "dented",
    });
    const stale = sieveOf("S-63-z", 63, { firstUse: "2026-01-01" });
    const screen = bench(
      [...ITEMS.filter((one) => !("serial" in one) || one.serial !== "S-63-z"), stale],
      [...BLINDING, out],
    );
    expect(screen).toMatch(/OUT ! +S-500-b \(500 um\): quarantine since 2026-11-20: dented *\n/);
    expect(screen).toMatch(/care ! +S-710-a \(710 um\): 0\.\d\d g of grains caught since 2026-11-\d\d: clean it *\n/);
    expect(screen).toMatch(/care ! +S-63-z \(63 um\): inspection overdue: 327 of 183 days/);
  });

  test("counts what it has no room for, and says nothing where all is well", () => {
    const many = Array.from({ length: 5 }, (_, k) => sieveOf(`S-${k}-q`, 100 + k, { firstUse: `2026-01-0${k + 1}` }));
    expect(bench(many, [])).toContain("and 3 more of sieves and balance: s shows them");
    expect(bench(ITEMS, [])).not.toContain("care");
  });
});
