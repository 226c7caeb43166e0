import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { peakAccelerationG } from "../../../src/procedure/motion/acceleration.ts";
import { aidWords, deviations } from "../../../src/procedure/program/deviations.ts";
import { type Program, type ProgramRun, ProgramSchema } from "../../../src/record/program.ts";

const PLAN: Program = {
  schema: "sievewright.program/1",
  code: "SAND-10",
  name: "filter sand, 10 min",
  motion: "vertical throw",
  durationS: 600,
  strokeMm: 1.2,
  frequencyHz: 50,
  onS: 10,
  offS: 2,
  aids: [{ aid: "balls", material: "rubber", count: 3, onUm: [250, 125] }, "lid"],
};
const AS_PLANNED: ProgramRun = {
  code: "SAND-10",
  motion: "vertical throw",
  durationS: 600,
  strokeMm: 1.2,
  frequencyHz: 50,
  onS: 10,
  offS: 2,
  aids: PLAN.aids,
  wet: false,
};

describe("a run of the shaker", () => {
  test("as planned deviates in nothing", () => expect(deviations(PLAN, AS_PLANNED)).toEqual([]));

  test("of which nothing was noted deviates in nothing", () => expect(deviations(PLAN, {})).toEqual([]));

  test.each<[string, ProgramRun]>([
    ["program SAND-5 instead of SAND-10", { code: "SAND-5" }],
    ["motion tapping instead of vertical throw", { motion: "tapping" }],
    ["ran 8 min instead of 10 min", { durationS: 480 }],
    ["ran 10 min 30 s instead of 10 min", { durationS: 630 }],
    ["stroke 1.50 mm instead of 1.20 mm", { strokeMm: 1.5 }],
    ["frequency 60.00 Hz instead of 50.00 Hz", { frequencyHz: 60 }],
    ["time on 20.00 s instead of 10.00 s", { onS: 20 }],
    ["pause 0.00 s instead of 2.00 s", { offS: 0 }],
    ["sieving wet instead of dry", { wet: true }],
    ["without 3 rubber balls on 250 um, 125 um", { aids: ["lid"] }],
    ["with brush, which the program does not have", { aids: [...(PLAN.aids ?? []), { aid: "brush" }] }],
  ])("%s", (words, run) => expect(deviations(PLAN, run)).toEqual([words]));

  test("tells every difference, one line each", () => {
    const lines = deviations(PLAN, { ...AS_PLANNED, durationS: 60, strokeMm: 0.5, wet: true, aids: [] });
    expect(lines).toEqual([
      "ran 1 min instead of 10 min",
      "stroke 0.50 mm instead of 1.20 mm",
      "without 3 rubber balls on 250 um, 125 um",
      "without lid",
      "sieving wet instead of dry",
    ]);
  });

  test("may be 2 % off, and 2 s on a short run", () => {
    expect(deviations(PLAN, { durationS: 612 })).toEqual([]);
    expect(deviations(PLAN, { durationS: 613 })).not.toEqual([]);
    expect(deviations({ ...PLAN, durationS: 30 }, { durationS: 32 })).toEqual([]);
    expect(deviations({ ...PLAN, durationS: 30 }, { durationS: 33 })).not.toEqual([]);
    expect(deviations(PLAN, { strokeMm: 1.22 })).toEqual([]);
    expect(deviations(PLAN, { strokeMm: 1.23 })).not.toEqual([]);
  });

  test("as noted by itself never deviates from a program with its settings", () =>
    fc.assert(
      fc.property(
        fc.record({
          durationS: fc.integer({ min: 1, max: 7200 }),
          strokeMm: fc.double({ min: 0.1, max: 5, noNaN: true }),
          frequencyHz: fc.double({ min: 1, max: 100, noNaN: true }),
          tapsPerMin: fc.integer({ min: 1, max: 300 }),
        }),
        (settings) => {
          expect(deviations({ ...PLAN, ...settings }, settings)).toEqual([]);
        },
      ),
    ));
});

describe("stroke and acceleration", () => {
  const { strokeMm: _, ...withoutStroke } = PLAN;
  const byAcceleration: Program = { ...withoutStroke, peakAccelerationG: 6 };

  test("of program and run are compared by way of the frequency", () => {
    const strokeMm = 6 / peakAccelerationG(1, 50);
    expect(deviations(byAcceleration, { strokeMm })).toEqual([]);
    expect(deviations(byAcceleration, { strokeMm: 2 * strokeMm })).toEqual([
      "peak acceleration 12.00 g instead of 6.00 g",
    ]);
    expect(deviations(PLAN, { peakAccelerationG: 1.2 * peakAccelerationG(1, 50) })).toEqual([]);
    expect(deviations(PLAN, { peakAccelerationG: 3 })).toEqual(["stroke 0.60 mm instead of 1.20 mm"]);
  });

  test("at another frequency of the run: the same stroke is another acceleration", () => {
    const strokeMm = 6 / peakAccelerationG(1, 50);
    expect(deviations(byAcceleration, { strokeMm, frequencyHz: 60 })).toEqual([
      "peak acceleration 8.64 g instead of 6.00 g",
      "frequency 60.00 Hz instead of 50.00 Hz",
    ]);
  });

  test("are not compared where no frequency is known", () => {
    const { frequencyHz: __, ...plan } = byAcceleration;
    expect(deviations(plan, { strokeMm: 1 })).toEqual([]);
  });
});

describe("a sieving aid in words", () => {
  test.each([
    ["lid", "lid"],
    [{ aid: "brush" }, "brush"],
    [{ aid: "balls", count: 3, material: "rubber" }, "3 rubber balls"],
    [{ aid: "flow agent", doseG: 0.5, material: "silica" }, "0.5 g of silica flow agent"],
    [{ aid: "rings", count: 2, onUm: [63] }, "2 rings on 63 um"],
  ] as const)("%j is %s", (aid, words) =>
    expect(aidWords(typeof aid === "string" ? aid : { ...aid, onUm: "onUm" in aid ? [...aid.onUm] : undefined })).toBe(
      words,
    ),
  );
});

describe("the program's schema", () => {
  test("takes the plan above", () => expect(ProgramSchema.parse(PLAN)).toEqual(PLAN));

  test("still takes aids as plain words", () =>
    expect(ProgramSchema.safeParse({ ...PLAN, aids: ["3 rubber balls"] }).success).toBe(true));
});
