import { describe, expect, test } from "vitest";
import type { CareKnown } from "../../src/care/known.ts";
import type { LogEntry } from "../../src/record/logEntry.ts";
import type { Product } from "../../src/record/product.ts";
import { beyondMeansWords } from "../../src/run/beyondMeans.ts";
import { fieldInHand, fieldsOf, type Setting } from "../../src/run/run.ts";
import { careEntry, knownOf, sieveOf } from "../care/knownWorld.ts";
import { BARLEY, EMPTY_G, FILTER_SAND, Hands, SETTING } from "./hands.ts";
import { A, ITEMS, recorded, STACK_UM, sieves } from "./knownSieves.ts";

const settingWith = (care: CareKnown): Setting => ({ ...SETTING, care });
const hands = (care: CareKnown) => new Hands(settingWith(care));
const scans = (h: Hands, text: string) => h.does({ type: "scanned", text, ended: true, at: h.moment() });
const serialsIn = (h: Hands) => h.run.draft.weighings.map((w) => w.serial);
const STEADY = recorded(20, () => 0);
const known = (entries: readonly LogEntry[] = STEADY) => knownOf(ITEMS, entries);
/** Set out with the set that stands there: the hands are on the first empty sieve. */
const setOut = (care = known()) => hands(care).toField("chargeG").enters("300.20");

describe("the set of sieves", () => {
  test("is asked for only where one makes up the stack of the product", () => {
    expect(fieldsOf(hands(known()).run)).toContain("set");
    expect(fieldsOf(new Hands().run)).not.toContain("set");
    expect(fieldsOf(new Hands(settingWith(known()), BARLEY).run)).not.toContain("set");
  });

  test("is the one used last: Enter fills the serial of every row, and notes each sieve's condition", () => {
    const h = setOut();
    expect(serialsIn(h)).toEqual([...A.serials, undefined]);
    expect(h.run.draft).toMatchObject({ set: "SET-A", stage: "weigh empty" });
    expect(h.run.draft.sieves).toHaveLength(5);
    expect(h.run.draft.sieves?.[0]).toMatchObject({ serial: "S-1400-a", state: "fit" });
    expect(h.run.draft.trail).toContainEqual(expect.objectContaining({ field: "set", from: null, to: "SET-A" }));
  });

  test("used last goes in without an Enter of its own, and says so; not where nothing is known of last time", () => {
    const h = hands(known()).enter(4);
    expect(fieldInHand(h.run)).toBe("chargeG");
    expect(h.run.note).toBe("set SET-A is taken, as last time; Up leads to it");
    expect(h.run.draft).toMatchObject({ set: "SET-A" });
    expect(fieldInHand(hands(knownOf(ITEMS)).enter(4).run)).toBe("set");
  });

  test("chosen before stays, and Enters pass it by", () => {
    const h = hands(known());
    scans(h, "SET-B");
    expect(fieldInHand(h.enter(4).run)).toBe("chargeG");
    expect(h.run.draft.set).toBe("SET-B");
  });

  test("says that it was read, the one that stands there too", () => {
    const h = hands(known());
    for (const text of ["SET-B", "SET-B", "S-1400-b"]) {
      scans(h, text);
      expect(h.run.note).toBe("set SET-B is taken");
    }
  });

  test("with something to be said of it is asked for", () => {
    const out = careEntry(99, "2026-11-20T08:00:00+01:00", {
      did: "quarantine",
      serials: ["S-710-a"],
      reason: "dented",
    });
    expect(fieldInHand(hands(known([...STEADY, out])).enter(4).run)).toBe("set");
  });

  test("is another one by its number, its code, a scan of it or of one of its sieves, wherever the hands are", () => {
    expect(hands(known()).toField("set").enters("2").run.draft.set).toBe("SET-B");
    expect(hands(known()).toField("set").enters("set-b").run.draft.set).toBe("SET-B");
    const lot = hands(known()).enter();
    expect(fieldInHand(lot.run)).toBe("lot");
    expect(scans(lot, "SET-B").run.draft.set).toBe("SET-B");
    expect(fieldInHand(lot.run)).toBe("lot");
    expect(lot.run.draft.lot).toBe("4471-B");
    expect(scans(hands(known()), "S-710-b").run.draft.set).toBe("SET-B");
  });

  test("can be none, and is taken back by undo", () => {
    const h = setOut();
    expect(serialsIn(hands(known()).toField("set").enters("none"))).toEqual([...STACK_UM, 0].map(() => undefined));
    h.does({ type: "undone", at: h.moment() }).does({ type: "undone", at: h.moment() });
    expect(fieldInHand(h.run)).toBe("set");
    expect(fieldInHand(h.enter().run)).toBe("chargeG");
    h.does({ type: "undone", at: h.moment() });
    expect(serialsIn(h).every((one) => one === undefined)).toBe(true);
    expect(h.run.draft).not.toHaveProperty("set");
    expect(h.run.draft).not.toHaveProperty("sieves");
  });

  test("goes with another product", () => {
    const h = hands(known()).toField("chargeG").toField("product");
    expect(h.enters("TH-BAR").run.draft).not.toHaveProperty("set");
  });

  test("says at once which of its sieves are not fit, and holds nothing up", () => {
    const out = careEntry(99, "2026-11-20T08:00:00+01:00", {
      did: "quarantine",
      serials: ["S-710-a"],
      reason: "dented",
    });
    const h = hands(known([...STEADY, out])).toField("chargeG");
    expect(h.run.message).toBe("S-710-a: quarantine since 2026-11-20: dented");
    expect(fieldInHand(h.run)).toBe("chargeG");
    expect(h.run.draft.sieves?.find((one) => one.serial === "S-710-a")).toMatchObject({ state: "out of service" });
  });

  test("that nothing is known of yet appears without moving the hands", () => {
    const h = new Hands().enter(4);
    expect(fieldInHand(h.run)).toBe("chargeG");
    h.does({ type: "careLearnt", care: known() });
    expect(fieldInHand(h.run)).toBe("chargeG");
    expect(fieldsOf(h.run)).toContain("set");
  });

  test("tells the certified mean apertures to the test, where their uncertainty is known", () => {
    const certificate = {
      day: "2026-01-08",
      laboratory: "Invented Metrology",
      warp: { meanUm: 712 },
      weft: { meanUm: 714 },
    };
    const of = (more: object) => [...sieves("a").map((s) => (s.apertureUm === 710 ? { ...s, ...more } : s)), A];
    const with1 = hands(knownOf(of({ certificate: { ...certificate, expandedUm: 3 } }))).toField("chargeG");
    expect(with1.run.draft.knownApertures).toEqual([
      { apertureUm: 710, serial: "S-710-a", meanUm: 713, expandedUm: 3 },
    ]);
    expect(hands(knownOf(of({ certificate }))).toField("chargeG").run.draft).not.toHaveProperty("knownApertures");
  });
});

describe("the mean apertures that a product's curve is drawn over", () => {
  const over = (apertures: "certified" | "effective", care: CareKnown) => {
    const product: Product = { ...FILTER_SAND, method: { ...FILTER_SAND.method, apertures } };
    return new Hands({ ...settingWith(care), products: [product] }, product);
  };
  const certificate = (apertureUm: number) => ({
    day: "2026-01-08",
    laboratory: "Invented Metrology",
    warp: { meanUm: apertureUm * 1.002 },
    expandedUm: 2,
  });
  const certified = (but: number | null = null) =>
    knownOf([
      ...sieves("a").map((s) => (s.apertureUm === but ? s : { ...s, certificate: certificate(s.apertureUm) })),
      A,
    ]);

  test("are copied into the test with the set, each with what it rests on; none for a curve over nominal ones", () => {
    const h = over("certified", certified()).toField("chargeG");
    expect(h.run.message).toBeNull();
    expect(h.run.draft.meanApertures).toHaveLength(5);
    expect(h.run.draft.meanApertures?.[0]).toEqual({
      apertureUm: 1400,
      serial: "S-1400-a",
      meanUm: 1402.8,
      expandedUm: 2,
      restsOn: { certificate: { day: "2026-01-08", laboratory: "Invented Metrology" } },
    });
    expect(hands(certified()).toField("chargeG").run.draft).not.toHaveProperty("meanApertures");
  });

  test("that leave a limit at an outermost sieve undeterminable are told before anything is weighed", () => {
    const inside = knownOf([
      ...sieves("a").map((s) => {
        const warp = { meanUm: s.apertureUm * (s.apertureUm === 1400 ? 0.99 : 1) };
        return { ...s, certificate: { ...certificate(s.apertureUm), warp } };
      }),
      A,
    ]);
    const draft = over("certified", inside).toField("chargeG").run.draft;
    expect(beyondMeansWords(draft)).toBe(
      "with these sieves no limit at 1.40 mm will be determined, unless all or nothing passes there: the mean aperture of an outermost sieve lies inside its nominal one",
    );
    expect(beyondMeansWords(draft, 1400)).not.toBeNull();
    expect(beyondMeansWords(draft, 500)).toBeNull();
    const retained = [{ apertureUm: 1000, retainedPct: { max: 20 } }];
    const limited = { ...draft, product: { ...draft.product, envelope: retained } };
    expect(beyondMeansWords(limited)).toContain("no limit at 1.00 mm will be determined");
    expect(beyondMeansWords({ ...draft, product: { ...draft.product, envelope: [] } })).toBeNull();
    expect(over("certified", inside).toField("chargeG").enters("300.20").run.message).toContain("no limit at 1.40 mm");
  });

  test("that are lacking are told before anything is weighed, and kept as lacking", () => {
    const h = over("certified", certified(500)).toField("chargeG");
    expect(h.run.message).toContain("the 500 um sieve (S-500-a): it has no certificate in the register");
    expect(h.run.message).toContain("no size will be determined");
    expect(h.run.draft.meanApertures?.[3]).toEqual({
      apertureUm: 500,
      serial: "S-500-a",
      lacks: "it has no certificate in the register",
    });
    expect(over("effective", certified()).toField("chargeG").run.message).toContain(
      "never run with a reference material",
    );
  });

  test("that are lacking because no sieve is told are told when the empty sieves are to be weighed", () => {
    const h = over("certified", certified()).toField("set").enters("none").enters("300.20");
    expect(h.run.draft.stage).toBe("weigh empty");
    expect(h.run.message).toContain("no serial is told");
    expect(over("certified", certified()).toField("chargeG").enters("300.20").run.message).toBeNull();
  });

  test("follow the sieve that is scanned in a row, go with the set, and come back by undo", () => {
    const both = knownOf([
      ...sieves("a").map((s) => ({ ...s, certificate: certificate(s.apertureUm) })),
      ...sieves("b"),
      A,
    ]);
    const h = over("certified", both).toField("chargeG").enters("300.20");
    scans(h, "S-1400-b");
    expect(h.run.draft.meanApertures?.[0]).toMatchObject({
      serial: "S-1400-b",
      lacks: expect.stringMatching(/no certificate/),
    });
    expect(h.run.note).toBe("1.40 mm S-1400-b is in hand, instead of S-1400-a");
    expect(h.run.message).toContain("no size will be determined: the 1.40 mm sieve (S-1400-b): it has no certificate");
    h.does({ type: "undone", at: h.moment() });
    expect(h.run.draft.meanApertures?.[0]).toMatchObject({ serial: "S-1400-a", meanUm: 1402.8 });
  });

  test("are those of the effective apertures, with the entry of the check", () => {
    const check = careEntry(99, "2026-11-20T08:00:00+01:00", {
      did: "reference check",
      material: {
        schema: "sievewright.referenceMaterial/1",
        code: "TH-RM1",
        name: "invented beads",
        certificate: { day: "2026-01-08", laboratory: "Invented Metrology" },
        points: [
          { apertureUm: 2000, passingPct: 100, expandedPct: 1 },
          { apertureUm: 300, passingPct: 0, expandedPct: 1 },
        ],
      },
      found: [1400, 1000, 710, 500, 355].map((apertureUm) => ({
        serial: `S-${apertureUm}-a`,
        apertureUm,
        passingPct: (100 * Math.log(apertureUm / 300)) / Math.log(2000 / 300),
      })),
    });
    const h = over("effective", knownOf([...sieves("a"), A], [check])).toField("chargeG");
    expect(h.run.message).toBeNull();
    expect(h.run.draft.meanApertures?.[2]).toMatchObject({
      meanUm: expect.closeTo(710, 6),
      restsOn: { check: { number: 99, day: "2026-11-20", material: "TH-RM1" } },
    });
  });
});

describe("a serial scanned on a weighing row", () => {
  test("confirms that the right sieve is in hand", () => {
    const h = scans(setOut(), "S-1400-a");
    expect(h.run.note).toBe("1.40 mm S-1400-a is in hand");
    expect(h.run.draft.trail.at(-1)).toMatchObject({ field: "serial", apertureUm: 1400, to: "S-1400-a" });
    expect(h.run.at).toBe(0);
  });

  test("puts a sieve of another set in its row and says so", () => {
    const h = scans(setOut(), "s-1400-B");
    expect(h.run.note).toBe("1.40 mm S-1400-b is in hand, instead of S-1400-a");
    expect(h.enters("412.31").run).not.toHaveProperty("note");
    h.does({ type: "undone", at: h.moment() });
    expect(serialsIn(h)[0]).toBe("S-1400-b");
    expect(h.run.draft.sieves?.map((one) => one.serial)).toContain("S-1400-b");
    h.does({ type: "undone", at: h.moment() });
    expect(serialsIn(h)[0]).toBe("S-1400-a");
  });

  test.each([
    ["S-1000-a", "S-1000-a is the 1.00 mm sieve, the 1.40 mm sieve is to be weighed: Up and Down move to its row"],
    ["S-63-z", "S-63-z is the 63 um sieve, the 1.40 mm sieve is to be weighed: it is not of this stack"],
  ])("%s of another aperture is told at once by name, and taken for nothing", (scan, why) => {
    const h = scans(setOut(), scan);
    expect(h.run.message).toBe(why);
    expect(serialsIn(h)[0]).toBe("S-1400-a");
    expect(h.enters("412.31").run.draft.weighings[0]?.emptyG).toBe(412.31);
  });

  test("of a sieve that is out of service is told; scanned again it is taken, and the record says so", () => {
    const out = careEntry(99, "2026-11-20T08:00:00+01:00", {
      did: "quarantine",
      serials: ["S-1400-b"],
      reason: "dented",
    });
    const h = scans(setOut(known([...STEADY, out])), "S-1400-b");
    expect(h.run.message).toContain("S-1400-b is out of service, quarantine since 2026-11-20: dented: take another");
    expect(serialsIn(h)[0]).toBe("S-1400-a");
    scans(h, "S-1400-b");
    expect(serialsIn(h)[0]).toBe("S-1400-b");
    expect(h.run.draft.trail.at(-1)?.warned).toContain("out of service");
  });

  test("of a sieve that is out of service is told of though another row is in hand", () => {
    const out = careEntry(99, "2026-11-20T08:00:00+01:00", { did: "quarantine", serials: ["S-710-a"], reason: "torn" });
    const h = scans(setOut(known([...STEADY, out])), "S-710-a");
    expect(h.run.message).toContain("the 1.40 mm sieve is to be weighed");
    expect(h.run.message).toContain("S-710-a is in quarantine since 2026-11-20: torn");
  });

  test("or not: the mass of a sieve that is out of service is doubted once, and the record says so", () => {
    const out = careEntry(99, "2026-11-20T08:00:00+01:00", {
      did: "quarantine",
      serials: ["S-1400-a"],
      reason: "torn",
    });
    const h = setOut(known([...STEADY, out])).enters("412.31");
    const why = "S-1400-a is in quarantine since 2026-11-20: torn; Enter again weighs it all the same";
    expect(h.run.doubt?.text).toBe(why);
    expect(h.enter().run.draft.trail.at(-1)).toMatchObject({ field: "emptyG", to: 412.31, warned: why });
    h.does({ type: "rowUp" });
    expect(h.enters("412.32").run.doubt).toBeNull();
    expect(h.run.draft.weighings[0]?.emptyG).toBe(412.32);
  });

  test("of another sieve than the one weighed empty is told, for the net mass would be wrong; scanned again it is taken", () => {
    const h = setOut().enters("412.31");
    h.does({ type: "rowUp" });
    scans(h, "S-1400-b");
    expect(h.run.message).toContain("the 1.40 mm sieve was weighed empty as S-1400-a (412.31 g), not as S-1400-b");
    expect(serialsIn(h)[0]).toBe("S-1400-a");
    scans(h, "S-1400-b");
    expect(serialsIn(h)[0]).toBe("S-1400-b");
    expect(h.run.draft.trail.at(-1)?.warned).toContain("weighed empty as S-1400-a");
  });

  test("nor is a set taken in its place at once, neither by a scan nor at its field", () => {
    const h = setOut().enters("412.31");
    scans(h, "SET-B");
    expect(h.run.message).toContain("weighed empty as S-1400-a");
    expect(serialsIn(h)[0]).toBe("S-1400-a");
    scans(h, "SET-B");
    expect(serialsIn(h)[0]).toBe("S-1400-b");
    const field = setOut().enters("412.31");
    field.does({ type: "stageChosen", stage: "set out" }).toField("set").enters("SET-B");
    expect(field.run.message).toContain("weighed empty as S-1400-a");
    expect(serialsIn(field)[0]).toBe("S-1400-a");
    field.enter();
    expect(serialsIn(field)[0]).toBe("S-1400-b");
  });

  test("of digits alone is a mass where it could be one; what names no sieve is an entry as before", () => {
    const numbered = knownOf([...STACK_UM.map((um, i) => sieveOf(`41${i}`, um)), sieveOf("880417", 1400)]);
    const h = scans(hands(numbered).enter(4).enters("300.20"), "412");
    expect(h.run.draft.weighings[0]?.emptyG).toBe(412);
    const other = scans(hands(numbered).enter(4).enters("300.20"), "880417");
    expect(serialsIn(other)[0]).toBe("880417");
    expect(scans(setOut(), "+  412.31 g").run.draft.weighings[0]?.emptyG).toBe(412.31);
  });
});

describe("at an empty weighing the history of the sieve speaks", () => {
  const blinding = recorded(26, (um, k) => (um === 710 && k >= 14 ? 0.06 * (k - 13) : 0));
  const at710 = (care: CareKnown) => setOut(care).enters("412.31").enters("398.74");

  test("of grains caught, how many g and since when; a second Enter takes the mass, which is then warned", () => {
    const h = at710(known(blinding)).enters("382.00");
    expect(h.run.doubt?.text).toMatch(
      /^the 710 um sieve \(S-710-a\) weighs 0\.7\d g more than when clean, slowly risen since 2026-11-0\d: grains caught in the mesh: clean it/,
    );
    h.enter();
    expect(h.run.draft.weighings[2]?.emptyG).toBe(382);
    expect(h.run.draft.trail.at(-1)?.warned).toContain("grains caught");
  });

  test("and is content once it was brushed and weighs what it weighs when clean", () => {
    const brushed = careEntry(99, "2026-11-23T08:00:00+01:00", { did: "cleaning", serials: ["S-710-a"], how: "brush" });
    const h = at710(known([...blinding, brushed]));
    expect(h.enters("381.21").run.doubt).toBeNull();
    const still = at710(known([...blinding, brushed])).enters("382.00");
    expect(still.run.doubt?.text).toContain("more than when clean, this once");
  });

  test("of another sieve by one weighing alone", () => {
    expect(at710(known()).enters("389.00").run.doubt?.text).toMatch(
      /7\.80 g more than when clean, this once: weigh it again/,
    );
  });

  test("of the balance where all moved together, once in a test", () => {
    const h = setOut(known(recorded(26, (_, k) => (k >= 18 ? 0.3 : 0)))).enters("412.61");
    expect(h.run.doubt?.text).toMatch(
      /all empty sieves weigh about 0\.30? g more: the balance, not the sieves: check the balance/,
    );
    h.enter();
    expect(h.enters("399.04").run.doubt).toBeNull();
  });

  test("and says nothing of steady sieves", () => {
    const h = setOut().weighs(EMPTY_G);
    expect(h.run.draft.stage).toBe("shake");
    expect(h.run.draft.trail.filter((item) => item.warned !== undefined)).toEqual([]);
  });

  test("a sieve with a short history is compared with what it weighed last, not with another set's", () => {
    const usual = new Map([[1400, { lowShare: 0, highShare: 1, emptyG: 300 }]]);
    const h = new Hands({ ...settingWith(known(recorded(3, () => 0))), usual }).enter(5).enters("300.20");
    expect(h.enters("412.40").run.doubt).toBeNull();
    const off = new Hands({ ...settingWith(known(recorded(3, () => 0))), usual })
      .enter(5)
      .enters("300.20")
      .enters("420");
    expect(off.run.doubt?.text).toContain("empty last time");
  });
});
