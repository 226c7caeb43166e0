import { CLOTHS } from "../../record/sieve.ts";
import { nominalText } from "../../series/apertureText.ts";
import { phrase, say } from "../../words/say.ts";
import { speaking } from "../../words/speaking.ts";
import type { App } from "../place.ts";
import { changed, ending, named, numbered, OPEN, standing } from "./formParts.ts";
import type { CareFormPlace } from "./places.ts";
import { type AnswerOf, answersOf, type CareQuestion } from "./questions.ts";
import { above0, aperture, apertureIn, dayTyped, filled, name, numberOf, whole, words } from "./reads.ts";

const before = (place: CareFormPlace) => changed(place, "sievewright.sieve/1");

/** What the certificate says, asked only where there is one. */
function certificateQuestions(place: CareFormPlace): readonly CareQuestion[] {
  const certificate = before(place)?.certificate;
  const um = above0(speaking().decimal);
  const asked = (word: string, asks: string, value: number | undefined): CareQuestion => ({
    word,
    asks,
    ...standing(value),
    ...OPEN,
    ...numbered(um),
  });
  const { warp, weft } = certificate ?? {};
  return [
    { word: "laboratory", asks: say`who certified it`, ...standing(certificate?.laboratory), read: words(80) },
    {
      word: "number",
      asks: say`number of the certificate; Enter without`,
      ...standing(certificate?.number),
      ...OPEN,
      read: words(60),
    },
    { word: "warp mean", asks: say`mean aperture along the warp in um`, ...standing(warp?.meanUm), ...numbered(um) },
    asked(phrase("warp s"), say`standard deviation along the warp in um; Enter without`, warp?.deviationUm),
    asked(phrase("weft mean"), say`mean aperture along the weft in um; Enter without`, weft?.meanUm),
    asked(phrase("weft s"), say`standard deviation along the weft in um; Enter without`, weft?.deviationUm),
    asked("U", say`expanded uncertainty (k = 2) of the mean in um; Enter without`, certificate?.expandedUm),
  ];
}

/** What every sieve is asked for, whether it is certified or not. */
function plainQuestions(app: App, place: CareFormPlace): readonly CareQuestion[] {
  const sieve = before(place);
  const mm = above0(speaking().decimal);
  return [
    ...named(place, { word: "serial", asks: say`as it stands on the frame, or scan it`, read: name }),
    {
      word: "aperture",
      asks: say`600 um, 0.6 mm, No. 30, 3/8 in.`,
      ...standing(sieve === null ? undefined : nominalText(sieve.apertureUm)),
      read: aperture,
    },
    { word: "cloth", asks: say`what lets the grains through`, options: CLOTHS, usual: sieve?.cloth ?? "woven wire" },
    {
      word: "frame",
      asks: say`diameter of the frame in mm; Enter without`,
      ...standing(sieve?.frameMm ?? 200),
      ...OPEN,
      ...numbered(mm),
    },
    {
      word: "height",
      asks: say`height of the frame in mm; Enter without`,
      ...standing(sieve?.frameHeightMm),
      ...OPEN,
      ...numbered(mm),
    },
    {
      word: "standard",
      asks: say`with its edition, e.g. ISO 3310-1:2016; Enter without`,
      ...standing(sieve?.standard),
      ...OPEN,
      read: words(60),
    },
    {
      word: "first use",
      asks: say`a day like 2026-11-24; counts and dates begin there`,
      ...standing(sieve?.firstUse ?? app.now.slice(0, 10)),
      read: dayTyped,
    },
    {
      word: "kept at",
      asks: say`where it is kept; Enter without`,
      ...standing(sieve?.location),
      ...OPEN,
      read: words(60),
    },
    {
      word: "inspect days",
      asks: say`every so many days; Enter as the station says`,
      ...standing(sieve?.inspection?.days),
      ...OPEN,
      read: whole,
    },
    {
      word: "inspect tests",
      asks: say`every so many tests; Enter without`,
      ...standing(sieve?.inspection?.tests),
      ...OPEN,
      read: whole,
    },
    {
      word: "certified",
      asks: say`day of its certificate, like 2026-11-24; Enter without one`,
      ...standing(sieve?.certificate?.day),
      ...OPEN,
      read: dayTyped,
    },
  ];
}

/** What a sieve is asked for. */
export function sieveQuestions(app: App, place: CareFormPlace): readonly CareQuestion[] {
  const plain = plainQuestions(app, place);
  const isCertified = answersOf(plain, place.answers)("certified") !== "";
  return [...plain, ...(isCertified ? certificateQuestions(place) : []), ...ending(app, place)];
}

function certificateBuilt(place: CareFormPlace, answerOf: AnswerOf): object | undefined {
  if (answerOf("certified") === "") return undefined;
  const former = before(place)?.certificate;
  const { factorK, measured } = former?.warp ?? {};
  const direction = (word: "warp" | "weft", more: object) => ({
    ...more,
    ...filled({ meanUm: numberOf(answerOf(`${word} mean`)), deviationUm: numberOf(answerOf(`${word} s`)) }),
  });
  const same = former?.day === answerOf("certified");
  return filled({
    number: answerOf("number"),
    day: answerOf("certified"),
    laboratory: answerOf("laboratory"),
    warp: direction("warp", same ? filled({ factorK, measured }) : {}),
    weft: answerOf(phrase("weft mean")) === "" ? undefined : direction("weft", same ? filled({ ...former?.weft }) : {}),
    expandedUm: numberOf(answerOf("U")),
  });
}

/** The sieve of a filled form; what no question asks for stays as it was. */
export function sieveBuilt(place: CareFormPlace, answerOf: AnswerOf): object {
  const { certificate: _former, inspection, ...rest } = before(place) ?? {};
  const interval = filled({
    ...inspection,
    days: numberOf(answerOf(phrase("inspect days"))),
    tests: numberOf(answerOf(phrase("inspect tests"))),
  });
  return filled({
    schema: "sievewright.sieve/1",
    serial: answerOf("serial"),
    ...rest,
    apertureUm: apertureIn(answerOf("aperture")),
    cloth: answerOf("cloth"),
    frameMm: numberOf(answerOf("frame")),
    frameHeightMm: numberOf(answerOf("height")),
    standard: answerOf("standard"),
    firstUse: answerOf(phrase("first use")),
    location: answerOf(phrase("kept at")),
    inspection: Object.keys(interval).length === 0 ? undefined : interval,
    certificate: certificateBuilt(place, answerOf),
  });
}
