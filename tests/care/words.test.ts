import { expect, test } from "vitest";
import { inTime } from "../../src/care/inTime.ts";
import { wholeBelow } from "../../src/care/random.ts";
import { dayOf, grams, lengthWords, offsetWords, sieveName } from "../../src/care/words.ts";

test("a sieve is named by its aperture, and by its serial where it is known", () => {
  expect(sieveName({ apertureUm: 710 })).toBe("the 710 um sieve");
  expect(sieveName({ apertureUm: 1400, serial: "S-1400-1" })).toBe("the 1.40 mm sieve (S-1400-1)");
  expect(sieveName({ apertureUm: 0 })).toBe("the pan");
});

test("masses are told as fine as the balance reads, and no finer", () => {
  expect(grams(0.4237, 0.01)).toBe("0.42 g");
  expect(grams(0.4237, 0.1)).toBe("0.4 g");
  expect(grams(0.4237, 0.05)).toBe("0.42 g");
  expect(grams(12.4, 1)).toBe("12 g");
});

test("lengths have one decimal below 1 mm; offsets their sign", () => {
  expect(lengthWords(712.44)).toBe("712.4 um");
  expect(lengthWords(2012.4)).toBe("2012 um");
  expect(offsetWords(-3.21)).toBe("-3.2 um");
  expect(offsetWords(3.25)).toBe("+3.3 um");
});

test("the day of a moment is that of its own clock", () =>
  expect(dayOf("2026-11-24T00:30:00+01:00")).toBe("2026-11-24"));

test("whole numbers are drawn below their bound, even at the edge of chance", () => {
  expect(wholeBelow(5, () => 0)).toBe(0);
  expect(wholeBelow(5, () => 0.9999999999999999)).toBe(4);
});

test("things are put in order of time, whatever their offsets; what is in order stays the same list", () => {
  const [first, second] = [{ at: "2026-11-24T10:00:00+01:00" }, { at: "2026-11-24T09:30:00+00:00" }];
  expect(inTime([second, first])).toEqual([first, second]);
  const ordered = [first, second, second];
  expect(inTime(ordered)).toBe(ordered);
  expect(inTime([])).toEqual([]);
});
