import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  NELSON_RULES,
  RUN_RULE_IDS,
  RUN_RULES,
  type RunRuleId,
  WESTERN_ELECTRIC_RULES,
} from "../../../src/control/rules/rules.ts";
import { runSignals } from "../../../src/control/rules/signals.ts";

const STANDARD = { centre: 0, sigma: 1 };

/** Places, from 1, where a rule sees its pattern end, with the side. */
const seen = (rule: RunRuleId, sigmas: readonly number[]) =>
  runSignals(sigmas, STANDARD, [rule]).map(({ index, side }) => `${index + 1} ${side}`);

const times = (count: number, value: number) => Array.from({ length: count }, () => value);

interface Case {
  readonly what: string;
  readonly sigmas: readonly number[];
  readonly at: readonly string[];
}

const CASES: Readonly<Record<RunRuleId, readonly Case[]>> = {
  "1-beyond-3-sigma": [
    { what: "a value beyond, on either side", sigmas: [0, 3.01, -3.2, 1], at: ["2 above", "3 below"] },
    { what: "not a value on the limit", sigmas: [3, -3], at: [] },
  ],
  "2-of-3-beyond-2-sigma": [
    { what: "two neighbours", sigmas: [2.1, 2.5, 0], at: ["2 above"] },
    { what: "two with one between", sigmas: [-2.1, 0, -2.1, 0], at: ["3 below"] },
    { what: "not two with two between", sigmas: [2.1, 0, 0, 2.1], at: [] },
    { what: "not one on either side", sigmas: [2.1, -2.1, 0], at: [] },
    { what: "not values on the line", sigmas: [2, 2, 2], at: [] },
    { what: "each further value of a run", sigmas: [2.2, 2.2, 2.2], at: ["2 above", "3 above"] },
  ],
  "4-of-5-beyond-1-sigma": [
    { what: "four in a row", sigmas: times(4, 1.1), at: ["4 above"] },
    { what: "four of five", sigmas: [-1.1, -1.2, 0.5, -1.3, -1.4], at: ["5 below"] },
    { what: "not three of five", sigmas: [1.1, 0, 1.1, 0, 1.1], at: [] },
    { what: "not where the newest is back within", sigmas: [1.1, 1.1, 1.1, 0.9, 0.9], at: [] },
    { what: "not values on the line", sigmas: times(6, -1), at: [] },
  ],
  "8-on-one-side": [
    { what: "eight above", sigmas: times(8, 0.1), at: ["8 above"] },
    { what: "a ninth again", sigmas: times(9, -0.1), at: ["8 below", "9 below"] },
    { what: "not seven", sigmas: [-1, ...times(7, 0.1)], at: [] },
    { what: "not across a value on the centre line", sigmas: [...times(4, 0.1), 0, ...times(4, 0.1)], at: [] },
  ],
  "9-on-one-side": [
    { what: "nine below", sigmas: times(9, -0.1), at: ["9 below"] },
    { what: "not eight", sigmas: [0.1, ...times(8, -0.1)], at: [] },
  ],
  "6-rising-or-falling": [
    { what: "six points, so five steps up", sigmas: [-2, -1, 0, 0.1, 0.2, 0.3], at: ["6 rising"] },
    { what: "six down", sigmas: [2, 1.9, 1, 0, -1, -1.1], at: ["6 falling"] },
    { what: "not five", sigmas: [0.5, 0, 0.1, 0.2, 0.3, 0.4], at: [] },
    { what: "not with two equal ones", sigmas: [0, 0.1, 0.2, 0.2, 0.3, 0.4], at: [] },
  ],
  "14-up-and-down": [
    { what: "fourteen in turn", sigmas: Array.from({ length: 14 }, (_, i) => (i % 2) / 10), at: ["14 either"] },
    { what: "not thirteen", sigmas: [0.5, ...Array.from({ length: 13 }, (_, i) => (i % 2) / 10)].slice(1), at: [] },
    {
      what: "not with two equal ones",
      sigmas: Array.from({ length: 14 }, (_, i) => (i === 6 ? 0.1 : (i % 2) / 10)),
      at: [],
    },
  ],
  "15-within-1-sigma": [
    { what: "fifteen on both sides", sigmas: Array.from({ length: 15 }, (_, i) => (-1) ** i * 0.9), at: ["15 either"] },
    { what: "not fourteen", sigmas: times(14, 0.2), at: [] },
    { what: "not with one on the line", sigmas: [...times(14, 0.2), 1], at: [] },
  ],
  "8-outside-1-sigma": [
    { what: "eight on both sides", sigmas: [1.1, -1.1, 1.2, 1.3, -2, 1.1, -1.1, 1.1], at: ["8 either"] },
    { what: "not eight on one side", sigmas: times(8, 1.5), at: [] },
    { what: "not with one on the line", sigmas: [1.1, -1.1, 1, 1.3, -2, 1.1, -1.1, 1.1], at: [] },
    { what: "not seven", sigmas: [1.1, -1.1, 1.2, 1.3, -2, 1.1, -1.1], at: [] },
  ],
};

describe.each(RUN_RULE_IDS)("%s sees", (rule) => {
  test.each(CASES[rule])("$what", ({ sigmas, at }) => {
    expect(seen(rule, sigmas)).toEqual(at);
  });

  const anything = fc.array(fc.double({ min: -4, max: 4, noNaN: true }), { maxLength: 60 });

  test("the same when all is turned round, on the other side", () => {
    const turned: Record<string, string> = { above: "below", below: "above", rising: "falling", falling: "rising" };
    fc.assert(
      fc.property(anything, (sigmas) => {
        const mirrored = seen(
          rule,
          sigmas.map((value) => -value),
        );
        const expected = seen(rule, sigmas).map((one) => one.replace(/\w+$/, (side) => turned[side] ?? side));
        expect(mirrored).toEqual(expected);
      }),
    );
  });

  test("nothing else when more values follow", () => {
    fc.assert(
      fc.property(anything, fc.nat(60), (sigmas, first) => {
        const all = runSignals(sigmas, STANDARD, [rule]).filter(({ index }) => index < first);
        expect(runSignals(sigmas.slice(0, first), STANDARD, [rule])).toEqual(all);
      }),
    );
  });
});

test("a value that arithmetic put on its limit is not beyond it", () => {
  const centre = 0.1 + 0.2;
  const sigma = 0.1;
  expect(runSignals([0.6], { centre, sigma }, ["1-beyond-3-sigma"])).toEqual([]);
  expect(runSignals([0.6000001], { centre, sigma }, ["1-beyond-3-sigma"])).toHaveLength(1);
});

test("rules that are off see nothing; with several on, each place tells of all", () => {
  const run = [4, ...times(7, 3.5)];
  expect(runSignals(run, STANDARD, [])).toEqual([]);
  const last = runSignals(run, STANDARD, WESTERN_ELECTRIC_RULES).filter(({ index }) => index === 7);
  expect(last.map(({ rule }) => rule)).toEqual(WESTERN_ELECTRIC_RULES);
});

test("a signal says in words what is seen and where", () => {
  expect(runSignals(times(8, 0.5), STANDARD, ["8-on-one-side"])).toEqual([
    { index: 7, rule: "8-on-one-side", side: "above", words: "8 on one side, above the centre line" },
  ]);
  expect(runSignals([0, 1, 2, 2.1, 2.2, 2.3], STANDARD, ["6-rising-or-falling"])[0]?.words).toBe(
    "6 steadily rising or falling: rising",
  );
  const turns = Array.from({ length: 14 }, (_, i) => i % 2);
  expect(runSignals(turns, STANDARD, ["14-up-and-down"])[0]?.words).toBe("14 going up and down in turn");
});

test("the two sets differ by how many on one side are too many", () => {
  expect(WESTERN_ELECTRIC_RULES).toContain("8-on-one-side");
  expect(WESTERN_ELECTRIC_RULES).not.toContain("9-on-one-side");
  expect(NELSON_RULES).toContain("9-on-one-side");
  expect(NELSON_RULES).not.toContain("8-on-one-side");
  expect(NELSON_RULES).toHaveLength(8);
  expect(new Set([...NELSON_RULES, ...WESTERN_ELECTRIC_RULES])).toEqual(new Set(RUN_RULE_IDS));
});

test("the words of a rule begin with its number", () => {
  for (const rule of RUN_RULE_IDS) expect(RUN_RULES[rule].words).toMatch(new RegExp(`^${rule.match(/^\d+/)?.[0]} `));
});
