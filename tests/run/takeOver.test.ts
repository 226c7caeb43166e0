import { describe, expect, test } from "vitest";
import type { CareKnown } from "../../src/care/known.ts";
import type { Product } from "../../src/record/product.ts";
import { takenOverIn } from "../../src/record/takenOver.ts";
import type { TestRecord } from "../../src/record/test.ts";
import type { EmptiedTest } from "../../src/run/emptied.ts";
import type { Setting } from "../../src/run/run.ts";
import { careEntry, knownOf } from "../care/knownWorld.ts";
import { EMPTY_G, FILTER_SAND, FULL_G, Hands, SETTING } from "./hands.ts";
import { ITEMS, recorded } from "./knownSieves.ts";

const SAND: Product = { ...FILTER_SAND, method: { ...FILTER_SAND.method, emptyMasses: "each shift" } };
const BEGAN = "2026-11-23T22:00:00+01:00";

/** A recorded test of this shift, weighed by hand at about 3 o'clock. */
function earlier(change: Partial<TestRecord> = {}, setting: Setting = SETTING, product = SAND): EmptiedTest {
  const hands = new Hands(setting, product);
  hands.toField("chargeG").enters("300.2");
  const { stage: _stage, ...draft } = hands.weighs(EMPTY_G).shakes().weighs(FULL_G).run.draft;
  return { number: 57, voided: false, test: { ...(draft as unknown as TestRecord), ...change } };
}

const SIEVES_G = EMPTY_G.slice(0, 5);
const PAN_G = EMPTY_G.slice(5);

const emptied = (all: readonly EmptiedTest[], setting: Setting = SETTING): Setting => ({ ...setting, emptied: all });

function takes(setting: Setting, product = SAND, shiftBegan = BEGAN): Hands {
  const hands = new Hands(setting, product);
  hands.toField("chargeG").enters("300.2");
  return hands.does({ type: "emptiesTakenOver", shiftBegan, at: hands.moment() });
}

const massesIn = ({ run }: Hands) => run.draft.weighings.map(({ emptyG }) => emptyG);

describe("empty masses taken over", () => {
  test("fill every sieve in one go, each with the test and the moment it was weighed, and then the pan is asked", () => {
    const hands = takes(emptied([earlier()]));
    expect(massesIn(hands)).toEqual([...SIEVES_G, null]);
    expect(hands.run.draft.stage).toBe("weigh empty");
    expect(hands.run.draft.weighings[hands.run.at]?.apertureUm).toBe(0);
    expect(hands.run.note).toMatch(/^empty masses of no\. 57 \(11-24 \d\d:\d\d\) taken over; now weigh the pan empty$/);
    const items = hands.run.draft.trail.filter(({ field }) => field === "emptyG");
    expect(items).toHaveLength(5);
    expect(items[0]).toMatchObject({ apertureUm: 1400, from: null, to: 412.31, takenOver: { number: 57 } });
    hands.weighs(PAN_G);
    expect(massesIn(hands)).toEqual(EMPTY_G);
    expect(hands.run.draft.stage).toBe("shake");
    expect(takenOverIn(hands.run.draft).map(({ apertureUm }) => apertureUm)).toEqual([1400, 1000, 710, 500, 355]);
  });

  test("go on where the pan is weighed already; once all sieves are, only the pan is left", () => {
    const first = new Hands(emptied([earlier()]), SAND).setsOut();
    for (let row = 0; row < 5; row++) first.does({ type: "rowDown" });
    first.weighs(PAN_G).does({ type: "emptiesTakenOver", shiftBegan: BEGAN, at: first.moment() });
    expect(first.run.draft.stage).toBe("shake");
    expect(first.run.note).toContain("taken over; e weighs a row anew");
    const left = new Hands(emptied([earlier()]), SAND).setsOut().weighs(SIEVES_G);
    left.does({ type: "emptiesTakenOver", shiftBegan: BEGAN, at: left.moment() });
    expect(left.run.message).toContain("the pan is weighed for every test: weigh it");
    expect(massesIn(left)).toEqual([...SIEVES_G, null]);
  });

  test("leave rows alone that are weighed already, and one may be weighed anew after", () => {
    const hands = new Hands(emptied([earlier()]), SAND).setsOut().weighs([412.35]);
    hands.does({ type: "emptiesTakenOver", shiftBegan: BEGAN, at: hands.moment() });
    expect(massesIn(hands)).toEqual([412.35, ...SIEVES_G.slice(1), null]);
    hands.weighs(PAN_G).does({ type: "stageChosen", stage: "weigh empty" }).does({ type: "rowDown" }).enters("398.77");
    expect(takenOverIn(hands.run.draft).map(({ apertureUm }) => apertureUm)).toEqual([710, 500, 355]);
  });

  test("are taken back one by one, and the mass that stood there before counts again", () => {
    const hands = takes(emptied([earlier()]));
    hands.does({ type: "undone", at: hands.moment() });
    expect(massesIn(hands)).toEqual([...SIEVES_G.slice(0, 4), null, null]);
    expect(hands.run.draft.stage).toBe("weigh empty");
  });

  test("keep the test and the moment in which they were weighed, however often they are taken over", () => {
    const first = earlier();
    const second = {
      number: 58,
      voided: false,
      test: takes(emptied([first])).weighs(PAN_G).run.draft as unknown as TestRecord,
    };
    const hands = takes(emptied([second, first]));
    expect(takenOverIn(hands.run.draft).every(({ number }) => number === 57)).toBe(true);
  });

  test("a mass corrected later in the record is none that was taken over", () => {
    const { draft } = takes(emptied([earlier()])).run;
    const weighings = draft.weighings.map((w) => (w.apertureUm === 710 ? { ...w, emptyG: 381.3 } : w));
    expect(takenOverIn({ ...draft, weighings }).map(({ apertureUm }) => apertureUm)).toEqual([1400, 1000, 500, 355]);
  });
});

const care = (more: Parameters<typeof careEntry>[] = []): CareKnown =>
  knownOf(ITEMS, [...recorded(26, () => 0), ...more.map((args) => careEntry(...args))]);
const known = (more: Parameters<typeof careEntry>[] = []): Setting => ({ ...SETTING, care: care(more) });

describe("they are refused, and nothing is changed", () => {
  const refused = (setting: Setting, product = SAND, began = BEGAN): string => {
    const hands = takes(setting, product, began);
    expect(massesIn(hands).every((grams) => grams === null)).toBe(true);
    return hands.run.message ?? "";
  };

  test("where the method weighs for each test", () => {
    const each: Product = { ...SAND, method: { ...SAND.method, emptyMasses: "each test" } };
    expect(refused(emptied([earlier()]), each)).toContain("TH-0510 weighs the sieves empty for each test");
    expect(refused(emptied([earlier()]), FILTER_SAND)).toContain("TH-0510 weighs the sieves empty for each test");
  });

  /** No. 58 took its empty masses over from no. 57. */
  const second = (first: EmptiedTest): EmptiedTest => ({
    number: 58,
    voided: false,
    test: takes(emptied([first])).weighs(PAN_G).run.draft as unknown as TestRecord,
  });
  const corrected = (one: EmptiedTest): EmptiedTest => ({
    ...one,
    test: {
      ...one.test,
      weighings: one.test.weighings.map((w) => (w.apertureUm === 710 ? { ...w, emptyG: 381.3 } : w)),
    },
  });

  test("where the test in which they were weighed is void by now, was corrected or can't be read", () => {
    const first = earlier();
    expect(refused(emptied([second(first), { ...first, voided: true }]))).toMatch(/no\. 57, in which .* is void/);
    expect(refused(emptied([second(first), corrected(first)]))).toContain("the 710 um sieve was corrected in no. 57");
    expect(refused(emptied([second(first)]))).toContain("can't be read");
  });

  test("where a mass that was taken over was corrected later: it was never weighed like that", () => {
    const first = earlier();
    expect(refused(emptied([corrected(second(first)), first]))).toContain("its empty mass was corrected there");
    expect(massesIn(takes(emptied([corrected(first)])))[2]).toBe(381.3);
  });

  test("of an invalid test: a wrong empty mass may be why", () => {
    const signed = { test: "invalid", product: "not judged", lossPct: 2 } as unknown as TestRecord["signed"];
    expect(refused(emptied([earlier({ signed })]))).toContain("no. 57, the latest on these sieves, is invalid");
  });

  test("where a sieve was weighed empty again since, in another test", () => {
    const setting = known();
    const source = { ...earlier({}, setting), number: 20 };
    expect(refused(emptied([source], setting))).toContain("was weighed empty again in no. 26");
  });

  test("where no serial is told, though sieves of that aperture are registered", () => {
    const setting = known();
    const weighings = earlier({}, setting).test.weighings.map(({ serial: _, ...row }) => row);
    const hands = new Hands(emptied([earlier({ weighings }, setting)], setting), SAND);
    const { run } = hands.toField("chargeG").enters("300.2");
    hands.run = { ...run, draft: { ...run.draft, weighings: run.draft.weighings.map(({ serial: _, ...row }) => row) } };
    hands.does({ type: "emptiesTakenOver", shiftBegan: BEGAN, at: hands.moment() });
    expect(hands.run.message).toContain("no serial of the 1.40 mm sieve is told");
  });

  test("without a test of this stack", () => expect(refused(SETTING)).toContain("no test of this stack is on record"));

  test("where that test is void", () =>
    expect(refused(emptied([{ ...earlier(), voided: true }]))).toContain(
      "no. 57, the latest on these sieves, is void",
    ));

  test("of another balance", () =>
    expect(refused(emptied([earlier({ balance: { ...SETTING.balance, id: "B2" } })]))).toContain(
      "no. 57 was weighed on balance B2, this test is on B1",
    ));

  test("of another shift", () =>
    expect(refused(emptied([earlier()]), SAND, "2026-11-24T06:00:00+01:00")).toContain("in another shift (11-24"));

  test("where the balance failed since", () => {
    const reading = { weight: "W", nominalG: 500, readG: 510, toleranceG: 0.03 };
    const last = { at: "2026-11-24T03:30:00+01:00", by: "KO", balance: "B1", readings: [reading] };
    const balanceKnown = { last, shiftBegan: BEGAN, dayBegan: BEGAN };
    expect(refused({ ...emptied([earlier()]), balanceKnown })).toContain("balance B1 failed its latest check");
  });

  test("where a mass was doubted when it was weighed", () => {
    const { test: source } = earlier();
    const trail = source.trail.map((item) =>
      item.field === "emptyG" && item.apertureUm === 710 ? { ...item, warned: "12 g off" } : item,
    );
    expect(refused(emptied([earlier({ trail })]))).toContain("the 710 um sieve was doubted when it was weighed");
  });

  test("where a sieve has another serial", () => {
    const setting = known();
    const source = earlier({}, setting);
    const weighings = source.test.weighings.map((w) => (w.apertureUm === 710 ? { ...w, serial: "S-710-b" } : w));
    const other = { ...source, test: { ...source.test, weighings } };
    expect(refused(emptied([other], setting))).toContain("the 710 um sieve is S-710-a here, no. 57 had S-710-b");
    expect(massesIn(takes(emptied([{ ...other, number: 58 }, source], setting)))).toEqual([...SIEVES_G, null]);
  });

  test.each([
    [{ did: "cleaning", serials: ["S-710-a"], how: "brush" }, "S-710-a was cleaned since it was weighed"],
    [{ did: "repair", serials: ["S-710-a"], what: "rim" }, "S-710-a was repaired since it was weighed"],
    [{ did: "quarantine", serials: ["S-710-a"], reason: "dented" }, "S-710-a is in quarantine"],
  ] as const)("where a sieve had a %o since", (done, why) => {
    const setting = known();
    const source = earlier({}, setting);
    const since = known([[99, "2026-11-24T04:00:00+01:00", { ...done, serials: [...done.serials] }]]);
    expect(refused(emptied([source], since))).toContain(why);
  });

  test("where a sieve was cleaned since, whatever was noted of it after that", () => {
    const source = earlier({}, known());
    const since = known([
      [98, "2026-11-24T04:00:00+01:00", { did: "cleaning", serials: ["S-710-a"], how: "brush" }],
      [99, "2026-11-24T04:10:00+01:00", { did: "inspection", serial: "S-710-a", looks: { solder: "good" } }],
    ]);
    expect(refused(emptied([source], since))).toContain("S-710-a was cleaned since it was weighed");
  });

  test("where grains are caught in a sieve by its own history", () => {
    const blinding = recorded(26, (um, k) => (um === 710 && k >= 14 ? 0.06 * (k - 13) : 0));
    const setting = { ...SETTING, care: knownOf(ITEMS, blinding) };
    expect(refused(emptied([earlier({}, known())], setting))).toContain("grains caught in the mesh");
  });
});
