import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { SamplingRule } from "../../src/record/station.ts";
import { type Facts, type LineEvent, lineState, type Sampled } from "../../src/shift/lineState.ts";
import { dueOf, isTightened, lateDuring, planDue } from "../../src/shift/sampling.ts";

const RULE: SamplingRule = { product: "TH-0510", line: "Dryer 1", everyHours: 2 };
const FROM = "2026-11-25T06:00:00+01:00";
const at = (clock: string) => `2026-11-25T${clock}:00+01:00`;

const tested = (clock: string, change: Partial<Sampled> = {}): Sampled => ({
  product: "TH-0510",
  line: "Dryer 1",
  samplingPoint: "discharge",
  lot: "4471",
  at: at(clock),
  test: "valid",
  verdict: "pass",
  ...change,
});

const event = (clock: string, what: LineEvent["what"], change: Partial<LineEvent> = {}): LineEvent => ({
  kind: "line adjusted",
  number: 1,
  at: at(clock),
  day: "2026-11-25",
  station: "TH-DRY1",
  by: "KO",
  previous: "0".repeat(64),
  line: "Dryer 1",
  what,
  detail: "",
  ...change,
});

const facts = (tests: readonly Sampled[], events: readonly LineEvent[] = []): Facts => ({ tests, events });
const due = (rule: SamplingRule, known: Facts, now: string) => {
  const { state, at: since, why } = dueOf(rule, known, at(now), FROM);
  return { state, at: since === null ? null : new Date(since).toISOString().slice(11, 16), why };
};

describe("every so many hours", () => {
  test("is counted from the last test", () => {
    expect(due(RULE, facts([tested("07:10"), tested("06:20")]), "09:00")).toEqual({
      state: "done",
      at: "08:10",
      why: "every 2 h",
    });
  });

  test.each([
    ["09:09", "done"],
    ["09:10", "due"],
    ["09:25", "due"],
    ["09:26", "late"],
  ])("at %s, two hours after 07:10 being 09:10, it is %s", (now, state) => {
    expect(due(RULE, facts([tested("07:10")]), now).state).toBe(state);
  });

  test("is due from the beginning of the shift where nothing was tested", () => {
    expect(due(RULE, facts([]), "06:05")).toEqual({ state: "due", at: "05:00", why: "every 2 h" });
  });

  test("starts anew when the line was started again", () => {
    const known = facts([tested("06:30")], [event("07:00", "stopped"), event("10:00", "started")]);
    expect(due(RULE, known, "10:05")).toEqual({ state: "due", at: "09:00", why: "every 2 h" });
  });

  test("a longer grace delays only what counts as late", () => {
    expect(due({ ...RULE, graceMinutes: 60 }, facts([tested("07:10")]), "09:40").state).toBe("due");
  });

  test.each([
    ["an invalid test", { test: "invalid" as const }],
    ["a voided one", { amended: { corrections: 0, voided: true, waived: false } }],
    ["one of another sampling point", { samplingPoint: "belt 4" }],
    ["one of another line", { line: "Mill 2" }],
  ])("%s does not count as done", (_, change) => {
    const rule = { ...RULE, samplingPoint: "discharge" };
    expect(due(rule, facts([tested("06:30"), tested("07:30", change)]), "08:31").state).toBe("due");
  });

  test("an invalid test that was waived does", () => {
    const waived = tested("07:30", { test: "invalid", amended: { corrections: 0, voided: false, waived: true } });
    expect(due(RULE, facts([tested("06:30"), waived]), "08:31").state).toBe("done");
  });
});

describe("a line", () => {
  test("that stands still asks for nothing", () => {
    expect(due(RULE, facts([tested("06:10")], [event("07:00", "stopped")]), "12:00")).toEqual({
      state: "idle",
      at: null,
      why: "Dryer 1 stands still",
    });
  });

  test("that was tested for another product runs that one", () => {
    expect(due(RULE, facts([tested("06:10"), tested("07:00", { product: "TH-MAS" })]), "12:00").why).toBe(
      "Dryer 1 runs TH-MAS",
    );
  });

  test("that was changed over runs what the changeover names, until a test says otherwise", () => {
    const known = facts([tested("06:10")], [event("07:00", "changeover", { product: "TH-MAS" })]);
    expect(lineState("Dryer 1", known)).toEqual({ product: "TH-MAS", since: at("07:00"), stopped: false });
    expect(lineState("Dryer 1", { ...known, tests: [tested("08:00")] }).product).toBe("TH-0510");
  });

  test("of which nothing is known is taken to run", () => {
    expect(lineState("Dryer 1", facts([]))).toEqual({ product: null, since: null, stopped: false });
  });
});

describe("every lot", () => {
  const EACH: SamplingRule = { product: "TH-0510", line: "Dryer 1", everyLot: true };

  test("is due from when a new lot was announced until it is tested", () => {
    const begun = [event("08:00", "new lot", { lot: "4472" })];
    expect(due(EACH, facts([tested("07:00")], begun), "08:05")).toEqual({
      state: "due",
      at: "07:00",
      why: "lot 4472 is new",
    });
    expect(due(EACH, facts([tested("08:10", { lot: "4472" })], begun), "08:15").state).toBe("done");
  });

  test("has nothing due while no lot was announced", () => {
    expect(due(EACH, facts([tested("07:00")]), "12:00")).toEqual({ state: "done", at: null, why: "nothing due" });
  });
});

describe("after a change", () => {
  const AFTER: SamplingRule = { ...RULE, after: ["adjustment", "changeover"] };

  test("a sample is due until one follows the change", () => {
    const adjusted = [event("07:20", "dryer temperature")];
    expect(due(AFTER, facts([tested("07:10")], adjusted), "07:30")).toEqual({
      state: "due",
      at: "06:20",
      why: "after a change: dryer temperature",
    });
    expect(due(AFTER, facts([tested("07:25")], adjusted), "07:30").state).toBe("done");
  });

  test("of a kind that the rule does not name nothing more is due", () => {
    const rule: SamplingRule = { ...RULE, after: ["changeover"] };
    expect(due(rule, facts([tested("07:10")], [event("07:20", "speed")]), "07:30").state).toBe("done");
  });
});

describe("the tightened plan", () => {
  const TIGHT: SamplingRule = { ...RULE, tightened: { lots: 2, everyHours: 1 } };
  const failed = tested("07:00", { verdict: "fail", lot: "A" });

  test.each([
    ["right after the fail", [failed], true],
    ["after one more lot has passed", [failed, tested("08:00", { lot: "B" })], true],
    ["after the failed lot itself has passed on a retest", [failed, tested("07:30", { lot: "A" })], true],
    ["until two more lots have passed", [failed, tested("08:00", { lot: "B" }), tested("09:00", { lot: "C" })], false],
    ["not for an invalid fail", [tested("07:00", { verdict: "fail", test: "invalid" })], false],
  ])("%s: %#", (_, tests, tightened) => {
    expect(isTightened(TIGHT, tests)).toBe(tightened);
  });

  test("asks more often", () => {
    expect(due(TIGHT, facts([failed]), "08:00")).toEqual({
      state: "due",
      at: "07:00",
      why: "every 1 h, tightened after a fail",
    });
  });
});

describe("what was late in a shift", () => {
  test("is told with when it was due and when it was taken", () => {
    const late = lateDuring([RULE], facts([tested("06:10"), tested("09:00")]), { began: FROM, until: at("14:00") });
    expect(late.map(({ dueAt, takenAt }) => [new Date(dueAt).toISOString().slice(11, 16), takenAt])).toEqual([
      ["07:10", at("09:00")],
      ["10:00", null],
    ]);
  });

  test("is told although the line was stopped, or another lot announced, before the end", () => {
    const stopped = lateDuring([RULE], facts([tested("06:10")], [event("13:50", "stopped")]), {
      began: FROM,
      until: at("14:00"),
    });
    expect(stopped).toMatchObject([{ takenAt: null, why: "every 2 h" }]);
    const lots = [event("07:00", "new lot", { lot: "A" }), event("10:00", "new lot", { lot: "B" })];
    const rule: SamplingRule = { product: "TH-0510", line: "Dryer 1", everyLot: true };
    const late = lateDuring([rule], facts([tested("10:05", { lot: "B" })], lots), { began: FROM, until: at("14:00") });
    expect(late).toMatchObject([{ takenAt: null, why: "lot A is new" }]);
  });

  test("is told once, with the test that ended it, whatever happened on the line meanwhile", () => {
    const known = facts([tested("06:10"), tested("11:00")], [event("10:00", "speed"), event("10:30", "deck")]);
    const late = lateDuring([RULE], known, { began: FROM, until: at("12:00") });
    expect(late).toMatchObject([{ takenAt: at("11:00"), why: "every 2 h" }]);
  });

  test("is nothing where each sample came in time", () => {
    const tests = ["06:05", "08:05", "10:10", "12:20"].map((clock) => tested(clock));
    expect(lateDuring([RULE], facts(tests), { began: FROM, until: at("14:00") })).toEqual([]);
  });
});

describe("the plan", () => {
  test("shows what is late first, then what is due, then what comes", () => {
    const plan: SamplingRule[] = [
      { product: "TH-BAR", line: "Mill 2", everyHours: 8 },
      { product: "TH-MAS", line: "Screen deck B", everyHours: 2 },
      RULE,
    ];
    const tests = [
      tested("06:10"),
      tested("06:55", { product: "TH-MAS", line: "Screen deck B" }),
      tested("06:00", { product: "TH-BAR", line: "Mill 2" }),
    ];
    expect(planDue(plan, facts(tests), at("09:00"), FROM).map(({ rule, state }) => [rule.product, state])).toEqual([
      ["TH-0510", "late"],
      ["TH-MAS", "due"],
      ["TH-BAR", "done"],
    ]);
  });

  test("does not depend on the order in which tests and events are given", () => {
    const tests = [tested("06:10"), tested("07:00", { verdict: "fail", lot: "B" }), tested("08:20", { lot: "C" })];
    const events = [event("06:40", "speed"), event("08:40", "new lot", { lot: "D" }), event("08:50", "deck")];
    const rule: SamplingRule = { ...RULE, after: ["adjustment"], everyLot: true, tightened: { lots: 3 } };
    const expected = dueOf(rule, facts(tests, events), at("09:00"), FROM);
    fc.assert(
      fc.property(
        fc.shuffledSubarray(tests, { minLength: 3 }),
        fc.shuffledSubarray(events, { minLength: 3 }),
        (t, e) => {
          expect(dueOf(rule, facts(t, e), at("09:00"), FROM)).toEqual(expected);
        },
      ),
    );
  });
});
