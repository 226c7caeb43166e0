import { describe, expect, test } from "vitest";
import type { Entered, TrailItem } from "../../src/record/test.ts";
import { checkMinuteIn, ranIn } from "../../src/run/stillStanding.ts";

/** Entries as "fullG@710 493.5", "portion 2", "checkMinute started": one each, a second apart. */
const entries = (...words: string[]): TrailItem[] =>
  words.map((text, second) => {
    const [head = "", ...rest] = text.split(" ");
    const [field = "", aperture] = head.split("@");
    const figure = Number(rest.join(" "));
    return {
      at: `2026-11-24T03:00:0${second}+01:00`,
      field: field as Entered,
      ...(aperture === undefined ? {} : { apertureUm: Number(aperture) }),
      from: null,
      to: Number.isNaN(figure) ? rest.join(" ") : figure,
    };
  });

describe("the check minute that stands", () => {
  test("is none before one was begun", () => {
    expect(checkMinuteIn([])).toBeNull();
    expect(checkMinuteIn(entries("fullG@710 493.5", "fullG@0 358.6"))).toBeNull();
  });

  test("has what each sieve weighed when it began, coarsest first, however they were weighed", () => {
    expect(
      checkMinuteIn(entries("fullG@0 358.6", "fullG@500 459.1", "fullG@710 493.5", "checkMinute started")),
    ).toEqual({
      at: "2026-11-24T03:00:03+01:00",
      before: [
        { apertureUm: 710, fullG: 493.5 },
        { apertureUm: 500, fullG: 459.1 },
        { apertureUm: 0, fullG: 358.6 },
      ],
    });
  });

  test("has a corrected mass as it was corrected, and not what was weighed after it began", () => {
    const found = checkMinuteIn(
      entries("fullG@710 439.5", "fullG@710 493.5", "checkMinute started", "fullG@710 493.4"),
    );
    expect(found?.before).toEqual([{ apertureUm: 710, fullG: 493.5 }]);
  });

  test("is the latest of several", () => {
    const found = checkMinuteIn(
      entries("fullG@710 493.5", "checkMinute started", "fullG@710 489.5", "checkMinute started"),
    );
    expect(found).toEqual({ at: "2026-11-24T03:00:03+01:00", before: [{ apertureUm: 710, fullG: 489.5 }] });
  });

  test("ends with its portion", () => {
    expect(checkMinuteIn(entries("fullG@710 493.5", "checkMinute started", "portion 2"))).toBeNull();
    const second = checkMinuteIn(entries("fullG@710 493.5", "portion 2", "fullG@710 470.1", "checkMinute started"));
    expect(second?.before).toEqual([{ apertureUm: 710, fullG: 470.1 }]);
  });
});

describe("what ran otherwise and stands", () => {
  test("is nothing where nothing was noted", () => {
    expect(ranIn(entries("shaking started", "shaking ended"))).toBeUndefined();
  });

  test("is all that was noted, the later note over the earlier one", () => {
    const noted = entries("ran durationS 480, frequencyHz 45", "shaking ended", "ran durationS 500");
    expect(ranIn(noted)).toEqual({ durationS: 500, frequencyHz: 45 });
  });
});
