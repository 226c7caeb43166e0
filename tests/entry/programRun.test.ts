import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parseRunOtherwise } from "../../src/entry/programRun.ts";
import { UNPRINTABLE } from "../../src/entry/quoted.ts";
import { ProgramRunSchema } from "../../src/record/program.ts";

const read = (text: string) => {
  const found = parseRunOtherwise(text);
  return found.ok ? found.value : found.reason;
};

describe("what ran otherwise", () => {
  test.each([
    ["8 min; 45 Hz", { durationS: 480, frequencyHz: 45 }],
    ["1.0 mm", { strokeMm: 1 }],
    ["1,2mm", { strokeMm: 1.2 }],
    ["3 g", { peakAccelerationG: 3 }],
    ["90 s", { durationS: 90 }],
    ["0.5 MIN", { durationS: 30 }],
    ["  45hz ;1.0 mm; 8 min ", { frequencyHz: 45, strokeMm: 1, durationS: 480 }],
  ])("%j is %j: figure and unit, with or without a space, in any order", (text, ran) => {
    expect(read(text)).toEqual(ran);
  });

  test.each([
    ["", '"" is not read: say it like 1.0 mm; 45 Hz; 8 min'],
    ["8", '"8" is not read'],
    ["min", '"min" is not read'],
    ["8 min 45 Hz", '"8 min 45 Hz" is not read'],
    ["8 min;", '"" is not read'],
    ["8 hours", '"8 hours" is not read'],
    ["-8 min", '"-8 min" is not read'],
    ["1.2.3 mm", "has two separators"],
    ["8. min", "ends in a separator"],
    ["0 min", '"0 min" must be more than 0'],
    ["45 Hz; x", '"x" is not read'],
  ])("%j can't be read, and the part that can't is named", (text, reason) => {
    expect(read(text)).toContain(reason);
  });

  test.each([
    ["1441 min", '"1441 min" is more than 1440 min'],
    ["86401 s", '"86401 s" is more than 86400 s'],
    ["2000 Hz", '"2000 Hz" is more than 1000 Hz'],
    ["101 mm", '"101 mm" is more than 100 mm'],
    ["101 g", '"101 g" is more than 100 g'],
  ])("%j is more than a record holds and is refused, so that the draft stays fit to be saved", (text, reason) => {
    expect(read(text)).toBe(reason);
  });

  test("said twice is refused: 8 min; 30 s is neither of them", () => {
    expect(read("8 min; 30 s")).toBe('"30 s" says a setting twice: say it once');
    expect(read("45 Hz; 1 mm; 50 hz")).toBe('"50 hz" says a setting twice: say it once');
  });

  test("is fit for the record, whatever was typed, or is refused in printable words", () => {
    const word = fc.constantFrom(
      "1",
      "0.5",
      "2000",
      "86400",
      "1440",
      "1000.1",
      "mm",
      "g",
      "Hz",
      "min",
      "s",
      ";",
      " ",
      ".",
    );
    const typed = fc.oneof(
      fc.array(word, { maxLength: 8 }).map((words) => words.join("")),
      fc.string({ unit: "binary" }),
    );
    fc.assert(
      fc.property(typed, (text) => {
        const found = parseRunOtherwise(text);
        if (found.ok) expect(ProgramRunSchema.safeParse(found.value).success).toBe(true);
        else expect(found.reason).not.toMatch(UNPRINTABLE);
      }),
      { numRuns: 300 },
    );
  });

  test("reads every figure it is told, in its own unit", () => {
    const figure = fc.integer({ min: 1, max: 10_000 }).map((n) => n / 100);
    fc.assert(
      fc.property(figure, figure, figure, (strokeMm, frequencyHz, durationS) => {
        expect(read(`${strokeMm} mm; ${frequencyHz} Hz; ${durationS} s`)).toEqual({ strokeMm, frequencyHz, durationS });
      }),
    );
  });
});
