import { describe, expect, test } from "vitest";
import { balanceState } from "../../../src/procedure/balance/balanceState.ts";
import { judgeProcedure, type ProcedureVerdict } from "../../../src/procedure/verdict/judgeProcedure.ts";
import type { Program } from "../../../src/record/program.ts";
import { factsOf, rulesOf, withFull } from "./testRun.ts";

/** Invented nights at the plant: the whole judgement as an operator would read it. */
const NOW = "2026-11-24T03:12:00+01:00";
const balanceReading = (readG: number) =>
  balanceState(
    [
      {
        at: "2026-11-23T22:04:00+01:00",
        balance: "BAL-1",
        by: "KO",
        readings: [{ nominalG: 500, readG, toleranceG: 0.1 }],
      },
    ],
    NOW,
    { per: "shift", began: "2026-11-23T22:00:00+01:00" },
  );
const program: Program = {
  schema: "sievewright.program/1",
  code: "SAND-10",
  name: "filter sand, 10 min",
  motion: "vertical throw",
  durationS: 600,
};

const answers = ({ checks }: ProcedureVerdict) =>
  checks
    .filter((check) => check.state !== "not asked")
    .map((check) => [check.check, check.state, check.required ? "required" : "optional", check.text]);
const words = ({ notices }: ProcedureVerdict) =>
  notices.map((notice) => [notice.severity, notice.id, notice.text, notice.remedy]);

describe("filter sand by ASTM C136, everything done", () => {
  const endPoint = [
    { apertureUm: 1400, beforeG: 5.71, afterG: 5.7 },
    { apertureUm: 1000, beforeG: 56.46, afterG: 56.3 },
    { apertureUm: 710, beforeG: 110.53, afterG: 110.3 },
    { apertureUm: 500, beforeG: 80.41, afterG: 80.2 },
    { apertureUm: 355, beforeG: 37.1, afterG: 37 },
  ];
  const facts = factsOf(
    {},
    {
      balance: balanceReading(500),
      readabilityG: 0.01,
      program,
      run: { durationS: 600 },
      endPoint,
      sieves: endPoint.map(({ apertureUm }) => ({ apertureUm, state: "fit", text: "" })),
      moisturePct: 0.05,
    },
  );
  const rules = rulesOf(
    { maxLossPct: 0.3, chargeG: { min: 250, max: 350 } },
    {
      ruleSet: "astm-c136-2020",
      frameMm: 203,
      balance: { required: true },
      endPoint: { required: true },
      program: { required: true },
      moisture: { maxPct: 0.5, required: true },
      sieves: { required: true },
    },
  );
  const judged = judgeProcedure(facts, rules);

  test("is valid without a word", () => {
    expect(judged.verdict).toBe("valid");
    expect(words(judged)).toEqual([]);
  });

  test("answers nine questions", () =>
    expect(answers(judged)).toEqual([
      ["balance", "met", "required", "the balance is checked"],
      ["sieves", "met", "required", "the sieves are fit for use"],
      ["charge", "met", "optional", "charge 300.2 g, wanted at least 250.0 g, at most 350.0 g"],
      ["readability", "met", "optional", "the balance reads 0.010 g, fine enough for this charge"],
      ["moisture", "met", "required", "moisture 0.05 %, limit 0.5 %"],
      ["program", "met", "required", "ran as program SAND-10 says"],
      ["load", "met", "optional", "heaviest load 55 % of its limit, the 710 um sieve"],
      ["end point", "met", "required", "end point reached, at most 0.08 % passed in the check"],
      ["loss", "met", "required", "loss 0.290 g (0.10 %), limit 0.3 %"],
    ]));

  test("shows the rules with their standing", () =>
    expect(judged.rules.map((rule) => [rule.rule, rule.standing])).toEqual([
      ["charge", "memory"],
      ["readability", "seen"],
      ["load", "seen"],
      ["end point", "seen"],
      ["loss", "own"],
    ]));

  test.each([
    ["balance", { balance: null }],
    ["sieves", { sieves: [] }],
    ["moisture", { moisturePct: null }],
    ["program", { run: null }],
    ["end point", { endPoint: endPoint.slice(1) }],
  ] as const)("is not checked once the %s is left out", (check, without) => {
    const lacking = judgeProcedure({ ...facts, ...without }, rules);
    expect(lacking.verdict).toBe("not checked");
    expect(lacking.checks.filter((c) => c.state === "not done").map((c) => c.check)).toEqual([check]);
    expect(lacking.notices.map((notice) => notice.severity)).toEqual(["warning"]);
  });
});

describe("a night on which everything goes wrong", () => {
  const judged = judgeProcedure(
    factsOf(
      { weighings: withFull(710, 581.73) },
      {
        balance: balanceReading(500.4),
        readabilityG: 1,
        program,
        run: { durationS: 120, wet: true },
        endPoint: [{ apertureUm: 710, beforeG: 200, passedG: 6 }],
        sieves: [
          { apertureUm: 500, serial: "S-0500-1", state: "out of service", text: "torn cloth" },
          { apertureUm: 355, state: "overdue", text: "inspection was due on 3 Nov" },
        ],
        moisturePct: 2,
      },
    ),
    rulesOf(
      { maxLossPct: 0.3, chargeG: { min: 350 } },
      { ruleSet: "en-933-1-2012", frameMm: 200, moisture: { maxPct: 0.5 } },
    ),
  );

  test("is invalid", () => expect(judged.verdict).toBe("invalid"));

  test("says what, and what to do, the gravest first", () =>
    expect(words(judged)).toEqual([
      [
        "invalidates",
        "balance-failed",
        "the balance failed its check: 500.0 g read 500.4 g, allowed 0.100 g either way",
        "take it out of use, have it put right and checked, then weigh again",
      ],
      [
        "invalidates",
        "sieve-out-of-service",
        "the 500 um sieve (S-0500-1) is out of service: torn cloth",
        "put another sieve of this aperture in the stack and repeat the test",
      ],
      [
        "invalidates",
        "program-deviation",
        "the shaker did not run as program SAND-10 says: ran 2 min instead of 10 min; sieving wet instead of dry",
        "set the shaker as the program says and repeat, or check the end point to show that sieving was complete",
      ],
      [
        "invalidates",
        "sieve-overloaded",
        "the 710 um sieve held 200.5 g, 152 % of the 132.4 g that it may hold",
        "sieve in two portions and add what each sieve held, or put a relief sieve above",
      ],
      [
        "invalidates",
        "end-point-not-reached",
        "the 710 um sieve still let 6.00 g (3.00 %) through in the check",
        "put the stack back on the shaker, then check the 710 um sieve again; if this comes often, lengthen the program",
      ],
      [
        "invalidates",
        "gain-high",
        "gain 89.71 g (29.88 %) is above the limit of 0.3 %",
        "look first for one digit wrong: the charge, 390.2 g instead of 300.2 g; weigh each sieve and the pan clean and empty again: grains of an earlier test may have come loose; else repeat the test",
      ],
      [
        "warning",
        "sieve-overdue",
        "the 355 um sieve is overdue: inspection was due on 3 Nov",
        "hold the sieve to the light, clean it and record its inspection",
      ],
      [
        "warning",
        "charge-small",
        "a charge of 300.2 g is too small to stand for the material",
        "split a portion of at least 350.0 g and repeat the test",
      ],
      [
        "warning",
        "balance-coarse",
        "the balance reads in steps of 1.00 g, too coarse for a charge of 300.2 g",
        "use a balance that reads 0.300 g or finer, or a larger charge",
      ],
      [
        "warning",
        "moisture-high",
        "moisture 2.00 % is above 0.5 %: damp fines cling and count as coarse",
        "dry the portion as the site's rules allow, let it cool and repeat the test",
      ],
    ]));

  test("meets none of its checks", () =>
    expect(judged.checks.filter((check) => check.state === "met").map((check) => check.check)).toEqual([]));
});

describe("washed sand by EN 933-1", () => {
  const judged = judgeProcedure(
    factsOf({ chargeG: 320.4, washedG: 300.2 }),
    rulesOf({ washed: true }, { ruleSet: "en-933-1-2012", frameMm: 300, charge: { largestParticleMm: 2 } }),
  );

  test("is valid: the closure is against the dry mass after washing", () => {
    expect(judged.verdict).toBe("valid");
    expect(answers(judged)).toEqual([
      ["charge", "met", "optional", "charge 320.4 g, wanted at least 200.0 g"],
      ["washing", "met", "required", "washing took 20.20 g (6.30 %)"],
      ["load", "met", "optional", "heaviest load 37 % of its limit, the 710 um sieve"],
      ["end point", "not done", "optional", "the end point was not checked"],
      ["loss", "met", "required", "loss 0.290 g (0.10 %), limit 1 %"],
    ]);
  });

  test("notes that nobody checked the end point", () =>
    expect(words(judged)).toEqual([
      [
        "note",
        "end-point-unknown",
        "the end point was not checked",
        "sieve each loaded sieve alone for 1 min over a clean pan and weigh what passes",
      ],
    ]));
});

describe("ground barley by the feed method", () => {
  const weighings = [
    [1000, 300, 340],
    [500, 300, 335],
    [63, 250, 270],
    [0, 200, 205],
  ] as const;
  const facts = factsOf({ chargeG: 100.3, weighings });

  test("is not checked as long as neither method nor product limits the loss", () => {
    const judged = judgeProcedure(facts, rulesOf({}, { ruleSet: "asae-s319-4" }));
    expect(judged.verdict).toBe("not checked");
    expect(words(judged)).toEqual([
      [
        "warning",
        "loss-unlimited",
        "ANSI/ASAE S319.4 has no limit of loss here, nor has the product",
        "set maxLossPct in the product's method",
      ],
      [
        "note",
        "end-point-unknown",
        "the end point was not checked",
        "sieve the 63 um sieve alone for 5 min over a clean pan and weigh what passes",
      ],
    ]);
  });

  test("is valid once the product sets one and the finest loaded sieve was checked", () => {
    const checked = { ...facts, endPoint: [{ apertureUm: 63, beforeG: 20, afterG: 19.9 }] };
    const judged = judgeProcedure(checked, rulesOf({ maxLossPct: 1 }, { ruleSet: "asae-s319-4" }));
    expect(judged.verdict).toBe("valid");
    expect(answers(judged)).toEqual([
      ["charge", "met", "optional", "charge 100.3 g, wanted at least 100.0 g"],
      ["end point", "met", "optional", "end point reached, at most 0.10 % passed in the check"],
      ["loss", "met", "required", "loss 0.300 g (0.30 %), limit 1 %"],
    ]);
  });
});

describe("a pharmaceutical powder of 50 g", () => {
  const weighings = [
    [250, 300, 320],
    [125, 300, 325],
    [0, 200, 204.2],
  ] as const;
  const judgedAfter = (afterG: number) =>
    judgeProcedure(
      factsOf(
        { chargeG: 50, weighings },
        {
          endPoint: [
            { apertureUm: 250, beforeG: 20, afterG: 19.5 },
            { apertureUm: 125, beforeG: 25, afterG },
          ],
        },
      ),
      rulesOf({}, { ruleSet: "usp-786" }),
    );

  test("is invalid while a sieve still changes by more than 5 %", () => {
    const judged = judgedAfter(23.5);
    expect(judged.verdict).toBe("invalid");
    expect(words(judged)).toEqual([
      [
        "invalidates",
        "end-point-not-reached",
        "the 125 um sieve still let 1.50 g (6.00 %) through in the check",
        "put the stack back on the shaker, then check the 125 um sieve again; if this comes often, lengthen the program",
      ],
    ]);
  });

  test("is valid at 5 %, its loss of 1.6 % being allowed by this method alone", () => {
    const judged = judgedAfter(23.75);
    expect(judged.verdict).toBe("valid");
    expect(answers(judged)).toEqual([
      ["charge", "met", "optional", "charge 50.00 g, wanted at least 25.00 g, at most 100.0 g"],
      ["end point", "met", "optional", "end point reached, at most 5.00 % passed in the check"],
      ["loss", "met", "required", "loss 0.800 g (1.60 %), limit 5 %"],
    ]);
  });
});

describe("blast abrasive of 103 g where 100 g are wanted", () => {
  const judged = judgeProcedure(
    factsOf(
      {
        chargeG: 103,
        weighings: [
          [500, 300, 360],
          [0, 200, 242.9],
        ],
      },
      { readabilityG: 0.5 },
    ),
    rulesOf({ maxLossPct: 0.5 }, { ruleSet: "iso-11125-2", charge: { outside: "invalidates" } }),
  );

  test("is invalid where the product holds to the portion", () => {
    expect(judged.verdict).toBe("invalid");
    expect(words(judged)).toEqual([
      [
        "invalidates",
        "charge-large",
        "a charge of 103.0 g is larger than the method wants",
        "split it once more, or sieve it in portions",
      ],
      [
        "warning",
        "balance-coarse",
        "the balance reads in steps of 0.500 g, too coarse for a charge of 103.0 g",
        "use a balance that reads 0.100 g or finer, or a larger charge",
      ],
    ]);
  });

  test("tells which rules were in force", () =>
    expect(judged.rules).toEqual([
      {
        rule: "charge",
        text: "99.50 g to 100.5 g",
        standing: "seen",
        source: "EN ISO 11125-2, clauses 3 to 5",
      },
      {
        rule: "readability",
        text: "the balance reads 0.100 g",
        standing: "seen",
        source: "EN ISO 11125-2, clauses 3 to 5",
      },
      { rule: "loss", text: "loss or gain at most 0.5 %", standing: "own", source: "the product" },
    ]));
});

describe("a charge that nobody weighed", () => {
  const judged = judgeProcedure(
    factsOf({ chargeG: null }),
    rulesOf(
      { chargeG: { min: 250, max: 350 }, maxLossPct: 0.3 },
      { ruleSet: "own", load: { rule: "own", limitG: 150 } },
    ),
  );

  test("leaves the test not checked, and says so once as a warning and once as a note", () => {
    expect(judged.verdict).toBe("not checked");
    expect(words(judged)).toEqual([
      [
        "warning",
        "loss-unknown",
        "the charge was not weighed, so no loss can be told",
        "next time weigh the charge before it goes on the stack",
      ],
      [
        "note",
        "charge-unknown",
        "the charge was not weighed",
        "next time weigh the charge before it goes on the stack",
      ],
    ]);
  });

  test("does not keep the loads from being judged", () =>
    expect(answers(judged)).toContainEqual([
      "load",
      "met",
      "optional",
      "heaviest load 74 % of its limit, the 710 um sieve",
    ]));
});
