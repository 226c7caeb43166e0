import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { assessTest } from "../../src/assess/assessTest.ts";
import { type Draft, DraftSchema } from "../../src/record/draft.ts";
import type { RunEvent } from "../../src/run/run.ts";
import { resumeRun } from "../../src/run/start.ts";
import { BARLEY, EMPTY_G, FULL_G, Hands, SETTING } from "./hands.ts";

/** A draft as it comes back from its file. */
const readBack = (draft: Draft): Draft => {
  const read = DraftSchema.safeParse(JSON.parse(JSON.stringify(draft)));
  if (!read.success) throw read.error;
  return read.data;
};
/** Power cut: what is on disk is taken up again by a program that was started anew. */
function restarted(hands: Hands): Hands {
  const again = new Hands();
  again.run = resumeRun(readBack(hands.run.draft), SETTING);
  return again;
}

const at = "2026-11-24T03:05:00+01:00";
const DEEDS: readonly RunEvent[] = [
  ...Array.from({ length: 4 }, (): RunEvent => ({ type: "accepted", at })),
  { type: "scanned", text: "300.2", ended: true, at },
  ...EMPTY_G.map((grams): RunEvent => ({ type: "scanned", text: String(grams), ended: true, at })),
  { type: "shakingStarted", at },
  { type: "shakingEnded", at: "2026-11-24T03:15:00+01:00" },
  ...FULL_G.map((grams): RunEvent => ({ type: "scanned", text: String(grams), ended: true, at })),
];
const whole = () => DEEDS.reduce((hands, event) => hands.does(event), new Hands());

describe("a power cut", () => {
  test("after any weighing costs nothing that was accepted: the test ends as if there had been none", () => {
    const uncut = whole().run.draft;
    const first = DEEDS.findIndex((event) => event.type === "scanned" && event.text === String(EMPTY_G[0]));
    for (let cut = first; cut <= DEEDS.length; cut++) {
      let hands = DEEDS.slice(0, cut).reduce((done, event) => done.does(event), new Hands());
      hands = restarted(hands);
      for (const event of DEEDS.slice(cut)) hands.does(event);
      expect(hands.run.draft).toEqual(uncut);
    }
  });

  test("on the set-out page leads back to its first field, with every word that was accepted in its place", () => {
    const hands = restarted(new Hands().enter().enters("4472-A").enters("2"));
    expect(hands.run).toMatchObject({ at: 0, draft: { stage: "set out", lot: "4472-A", line: "Screen deck B" } });
    expect(hands.enter(4).enters("300.2").run.draft.stage).toBe("weigh empty");
  });

  test("loses what was typed and not accepted, and nothing else", () => {
    const hands = new Hands().setsOut().weighs(EMPTY_G.slice(0, 2)).types("381.");
    expect(restarted(hands).run).toMatchObject({ typed: "", at: 2 });
    expect(restarted(hands).run.draft).toEqual(hands.run.draft);
  });

  test("while the shaker runs stops no countdown: it is a difference of moments", () => {
    const hands = new Hands().setsOut().weighs(EMPTY_G).does({ type: "shakingStarted", at });
    expect(restarted(hands).run.draft.shaking).toEqual(hands.run.draft.shaking);
  });

  test("in the check minute keeps it, and what is weighed again counts", () => {
    const hands = new Hands().tests().does({ type: "checkMinuteStarted", at: "2026-11-24T03:20:00+01:00" });
    const again = restarted(hands).enters("418.01");
    expect(again.run.draft.checkMinute).toEqual(hands.run.draft.checkMinute);
    expect(again.run.at).toBe(1);
  });
});

const anyEvent: fc.Arbitrary<RunEvent> = fc.oneof(
  fc.constant<RunEvent>({ type: "accepted", at }),
  fc
    .constantFrom("412.31", "455.2", "300.2", "TH-BAR", "1", "-", "x")
    .map((text): RunEvent => ({ type: "scanned", text, ended: true, at })),
  fc.constantFrom<RunEvent>(
    { type: "undone", at },
    { type: "rowDown" },
    { type: "rowUp" },
    { type: "shakingStarted", at },
    { type: "shakingEnded", at },
    { type: "shakingSkipped", reason: "by hand", at },
    { type: "ranOtherwise", ran: { durationS: 480 }, at },
    { type: "checkMinuteStarted", at },
    { type: "portionAdded", at },
    { type: "remarked", text: "dusty", at },
    { type: "stageChosen", stage: "set out" },
    { type: "stageChosen", stage: "weigh full" },
  ),
);
const anyStart = fc.constantFrom(
  () => new Hands(),
  () => new Hands(SETTING, BARLEY),
  () => new Hands().setsOut().weighs(EMPTY_G),
  () => new Hands().tests(),
);

describe("whatever was done", () => {
  test("the draft comes back from its file as it was, and is judged as it was", () => {
    fc.assert(
      fc.property(anyStart, fc.array(anyEvent, { maxLength: 30 }), (start, events) => {
        const { draft } = events.reduce((hands, event) => hands.does(event), start()).run;
        expect(readBack(draft)).toEqual(draft);
        expect(JSON.stringify(assessTest(readBack(draft)))).toBe(JSON.stringify(assessTest(draft)));
      }),
      { numRuns: 120 },
    );
  });

  test("every accepted entry adds one item to the trail, and what adds none changes no figure", () => {
    const figures = ({ stage: _stage, ...draft }: Draft) => draft;
    fc.assert(
      fc.property(anyStart, fc.array(anyEvent, { maxLength: 30 }), (start, events) => {
        const hands = start();
        for (const event of events) {
          const before = hands.run.draft;
          hands.does(event);
          const added = hands.run.draft.trail.length - before.trail.length;
          expect([0, 1]).toContain(added);
          if (added === 0) expect(figures(hands.run.draft)).toEqual(figures(before));
        }
      }),
      { numRuns: 120 },
    );
  });

  test("the row in hand is there, and no doubt outlives what it doubted", () => {
    fc.assert(
      fc.property(anyStart, fc.array(anyEvent, { maxLength: 30 }), (start, events) => {
        const hands = start();
        for (const event of events) {
          hands.does(event);
          const { at: row, draft, doubt, typed } = hands.run;
          const rows = draft.stage === "set out" ? 7 : draft.weighings.length;
          expect(row >= 0 && row < rows).toBe(true);
          if (doubt) expect(typed.trim()).not.toBe("");
        }
      }),
      { numRuns: 120 },
    );
  });
});
