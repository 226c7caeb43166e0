import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Draft } from "../../src/record/draft.ts";
import type { Product } from "../../src/record/product.ts";
import { standing } from "../../src/record/test.ts";
import { ranFrom, ranWords } from "../../src/run/ranWords.ts";
import type { RunEvent, Setting } from "../../src/run/run.ts";
import { takenBack } from "../../src/run/trail.ts";
import { BARLEY, EMPTY_G, FILTER_SAND, FULL_G, Hands, SETTING } from "./hands.ts";

const WASHED: Product = { ...FILTER_SAND, code: "TH-MAS", method: { washed: true } };
const ALL: Setting = {
  ...SETTING,
  products: [FILTER_SAND, BARLEY, WASHED],
  last: new Map([...SETTING.last, ["TH-0510", { lot: "4470-Z", line: "Dryer 1", samplingPoint: "discharge" }]]),
};
const draftOf = ({ run }: Hands) => run.draft;
const last = ({ run }: Hands) => run.draft.trail.at(-1);
const setOutAgain = (hands: Hands) => hands.does({ type: "stageChosen", stage: "set out" });

describe("a word taken back", () => {
  test("accepted as it stood stays there, to be accepted again by Enter alone", () => {
    const hands = new Hands().enter(4).undoes().undoes().undoes();
    expect(draftOf(hands)).toMatchObject({ lot: "4471-B", line: "Dryer 1", samplingPoint: "discharge" });
    hands.enter(3).enters("300.2");
    expect(draftOf(hands)).toMatchObject({ stage: "weigh empty", line: "Dryer 1", samplingPoint: "discharge" });
  });

  test("typed over another has that one stand again, with its field in hand", () => {
    const hands = new Hands().enter(2).enters("Screen").undoes();
    expect(draftOf(hands).line).toBe("Dryer 1");
    expect(hands.run.at).toBe(2);
    expect(last(hands)).toMatchObject({ field: "line", from: "Screen deck B", to: "Dryer 1", undo: true });
  });
});

test("a word that another product brought stands again, not the one accepted before that product", () => {
  const hands = new Hands(ALL).enter().enters("4472-A");
  setOutAgain(hands).enters("TH-BAR").enters("M2-8").undoes();
  expect(draftOf(hands).lot).toBe("M2-7");
});

describe("a product taken back", () => {
  test("has the one before stand again with its stack, program and last words", () => {
    const hands = new Hands(ALL).enters("TH-BAR").undoes();
    expect(draftOf(hands)).toMatchObject({ product: FILTER_SAND, lot: "4470-Z", program: { code: "V10" } });
    expect(draftOf(hands).weighings).toHaveLength(6);
    expect(last(hands)).toMatchObject({ field: "product", from: "TH-BAR rev 1", to: "TH-0510 rev 3", undo: true });
    expect(hands.run.at).toBe(0);
  });

  test("has what was accepted under the one before stand again as well", () => {
    const hands = new Hands(ALL, WASHED).enter().enters("0911").enter(2).enters("320").enters("300.2");
    setOutAgain(hands).enters("TH-BAR");
    expect(draftOf(hands)).toMatchObject({ lot: "M2-7" });
    expect(draftOf(hands)).not.toHaveProperty("washedG");
    expect(draftOf(hands.undoes())).toMatchObject({ product: WASHED, lot: "0911", chargeG: 320, washedG: 300.2 });
  });

  test("accepted as it stood stays, and so do the masses weighed since on its stack", () => {
    const hands = new Hands(ALL).setsOut().weighs(EMPTY_G.slice(0, 2));
    setOutAgain(hands).enter().undoes();
    expect(draftOf(hands).product).toBe(FILTER_SAND);
    expect(draftOf(hands).weighings[1]?.emptyG).toBe(EMPTY_G[1]);
  });

  test("is refused when the library has the one before no longer, and the trail does not claim it", () => {
    const hands = new Hands(ALL).enters("TH-BAR");
    hands.run = { ...hands.run, setting: { ...ALL, products: [BARLEY] } };
    const before = draftOf(hands);
    expect(hands.undoes().run.message).toBe("TH-0510 rev 3 is not in the library any more: choose the product anew");
    expect(draftOf(hands)).toBe(before);
  });
});

describe("shaking taken back", () => {
  test("cut short after it ran, was stopped at that moment, and runs again when that is taken back", () => {
    const hands = new Hands()
      .setsOut()
      .weighs(EMPTY_G)
      .does({ type: "shakingStarted", at: "2026-11-24T03:05:00+01:00" });
    hands.does({ type: "shakingSkipped", reason: "clamp loose", at: "2026-11-24T03:09:00+01:00" });
    expect(draftOf(hands).shaking).toMatchObject({ endedAt: "2026-11-24T03:09:00+01:00", skipped: "clamp loose" });
    hands.undoes();
    expect(draftOf(hands)).toMatchObject({ stage: "shake", shaking: { endedAt: null, skipped: null } });
    expect(draftOf(hands).shaking.startedAt).toBe("2026-11-24T03:05:00+01:00");
  });

  test("skipped before it was started has no end", () => {
    const hands = new Hands().setsOut().weighs(EMPTY_G);
    hands.does({ type: "shakingSkipped", reason: "by hand", at: hands.moment() });
    expect(draftOf(hands).shaking).toMatchObject({ startedAt: null, endedAt: null });
  });

  test("that has stopped can't be stopped or cut short again", () => {
    const hands = new Hands().setsOut().weighs(EMPTY_G).shakes();
    const { shaking, trail } = draftOf(hands);
    hands.does({ type: "shakingSkipped", reason: "late", at: hands.moment() });
    hands.does({ type: "shakingEnded", at: hands.moment() });
    expect(hands.run.message).toBe("the shaker has stopped already: u takes that back");
    expect(draftOf(hands)).toMatchObject({ shaking, trail });
  });
});

test("remarks taken back have the one before stand again", () => {
  const hands = new Hands().tests();
  for (const text of ["lid rattled", "lid rattled, dusty"]) hands.does({ type: "remarked", text, at: hands.moment() });
  expect(draftOf(hands.undoes()).remark).toBe("lid rattled");
  expect(draftOf(hands.undoes()).remark).toBe("");
});

test("nothing is taken back where nothing stands", () => {
  expect(takenBack(draftOf(new Hands()), "2026-11-24T03:00:00+01:00")).toBeNull();
});

test("what ran otherwise reads back from its words as it was", () => {
  const figure = fc.double({ min: 1e-3, max: 1e5, noNaN: true });
  const ran = fc.record(
    { strokeMm: figure, peakAccelerationG: figure, frequencyHz: figure, durationS: figure },
    { requiredKeys: [] },
  );
  fc.assert(
    fc.property(
      ran.filter((settings) => Object.keys(settings).length > 0),
      (settings) => {
        expect(ranFrom(ranWords(settings))).toEqual(settings);
      },
    ),
  );
});

/** What a test is judged by, without the way that led there. */
const judged = ({ trail: _trail, stage: _stage, checkMinute, washedG, moistG, dryG, ...rest }: Draft) => ({
  ...rest,
  checkMinute: checkMinute ?? null,
  masses: [washedG ?? null, moistG ?? null, dryG ?? null],
});

const at = "2026-11-24T03:30:00+01:00";
const anyDeed: fc.Arbitrary<RunEvent[]> = fc.oneof(
  { weight: 6, arbitrary: fc.constant<RunEvent[]>([{ type: "accepted", at }]) },
  {
    weight: 6,
    arbitrary: fc
      .constantFrom("412.31", "455.2", "300.2", "th-b", "th-m", "1", "2", "Dry", "480")
      .map((text): RunEvent[] => [{ type: "scanned", text, ended: true, at }]),
  },
  {
    weight: 4,
    arbitrary: fc.constantFrom<RunEvent[]>(
      [{ type: "shakingStarted", at }],
      [{ type: "shakingEnded", at }],
      [{ type: "shakingSkipped", reason: "by hand", at }],
      [{ type: "ranOtherwise", ran: { durationS: 480 }, at }],
      [{ type: "ranOtherwise", ran: { frequencyHz: 45 }, at }],
      [{ type: "portionAdded", at }],
      [{ type: "checkMinuteStarted", at }],
      [{ type: "remarked", text: "dusty", at }],
      [{ type: "disposed", disposition: "hold", at }],
      [{ type: "disposed", disposition: "release", at }],
      [{ type: "stageChosen", stage: "set out" }],
      [{ type: "stageChosen", stage: "weigh full" }],
      [{ type: "rowDown" }],
      [{ type: "rowUp" }],
    ),
  },
);

test("whatever was done, taking the latest entry back leads to what was judged before it", () => {
  const starts = [
    () => new Hands(ALL),
    () => new Hands(ALL).setsOut().weighs(EMPTY_G),
    () => new Hands(ALL).tests(),
    () => new Hands(ALL, WASHED).setsOut("320").enters("300.2").weighs(EMPTY_G).shakes().weighs(FULL_G),
  ];
  fc.assert(
    fc.property(fc.nat(3), fc.array(anyDeed, { minLength: 1, maxLength: 25 }), (start, deeds) => {
      const hands = starts[start]?.() ?? new Hands(ALL);
      for (const event of deeds.flat()) {
        const { draft: before } = hands.run;
        hands.does(event);
        const entries = standing(draftOf(hands).trail).length - standing(before.trail).length;
        const product = draftOf(hands).trail.at(-1)?.field === "product";
        if (entries !== 1 || product) continue;
        const back = new Hands(ALL);
        back.run = hands.run;
        if (back.run.typed !== "") back.undoes();
        expect(judged(draftOf(back.undoes()))).toEqual(judged(before));
      }
    }),
    { numRuns: 300 },
  );
});
