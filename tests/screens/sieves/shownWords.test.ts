import { beforeAll, describe, expect, test } from "vitest";
import { SIEVE_FITNESS, SIEVE_STATES } from "../../../src/record/sieve.ts";
import { certificateWords, conditionWord } from "../../../src/report/sieveWords.ts";
import { certificateShown } from "../../../src/screens/sieves/certificateView.ts";
import { conditionShown } from "../../../src/screens/sieves/conditionSpan.ts";
import { mannerOf } from "../../../src/words/manner.ts";
import { fetchLanguage } from "../../../src/words/speaking.ts";
import { inLanguage } from "../../words/tongues.ts";
import { atSieve, atSieves, known, recorded, S710, tests } from "./world.ts";

const CERTIFICATE = {
  number: "C-1",
  day: "2026-01-29",
  laboratory: "Invented Metrology",
  warp: { meanUm: 711.2, deviationUm: 12, factorK: 2.3, measured: 80 },
  weft: { meanUm: 709.4 },
  expandedUm: 1.4,
};

test("the state of a sieve and its certificate read in English as reports have them", () => {
  for (const state of SIEVE_FITNESS)
    for (const registered of SIEVE_STATES)
      expect(conditionShown({ state, registered })).toBe(conditionWord({ state, registered }));
  expect(certificateShown(CERTIFICATE)).toBe(certificateWords(CERTIFICATE));
  const { number: _, weft: __, ...less } = CERTIFICATE;
  expect(certificateShown(less)).toBe(certificateWords(less));
});

test("a certificate is told with the sign and the day of the language", async () =>
  expect(await inLanguage("de", () => certificateShown(CERTIFICATE))).toBe(
    "Nr. C-1 vom 29.01.2026, Invented Metrology; Kette Mittel 711,2 um s 12,0 um k 2,3 von 80; Schuss Mittel 709,4 um; U 1,4 um (k = 2)",
  ));

describe("places of sieves in German", () => {
  const german = { manner: mannerOf({}, "de") };
  beforeAll(() => fetchLanguage("de"));

  test("takes an option as it is shown, and records it in English; figures stand with a comma", () => {
    const stage = atSieve(known(tests(20)), german)
      .types("c")
      .presses("enter")
      .enters("Ultra")
      .enters("402,01");
    expect(stage.screen()).toMatch(/wie +Ultraschall/);
    expect(stage.screen()).toMatch(/leer S-0710-1 +402,01/);
    stage.presses("enter", "enter");
    expect(recorded(stage)[0]).toMatchObject({
      care: { did: "cleaning", how: "ultrasonic", after: [{ serial: S710, emptyG: 402.01 }] },
    });
  });

  test("takes the English name of an option as well", () => {
    const stage = atSieve(known(tests(20)), german)
      .types("c")
      .presses("enter")
      .enters("ultra")
      .presses("enter");
    expect(stage.screen()).toMatch(/wie +Ultraschall/);
  });

  test("keeps what a sieve is registered as under its English names", () => {
    const stage = atSieves(known(), german).presses("f3").enters("Sieb").enters("S-0125-9").enters("0,125 mm");
    stage
      .enters("Loch")
      .presses("enter", "enter", "enter", "enter")
      .enters("Regal 4")
      .presses("enter", "enter", "enter");
    stage.presses("enter");
    expect(recorded(stage)[0]).toMatchObject({
      item: { serial: "S-0125-9", apertureUm: 125, cloth: "perforated plate", frameMm: 200, location: "Regal 4" },
    });
  });

  test("finds rows of the list by the words shown", () => {
    const stage = atSieves(known(), german).types("einsatz");
    expect(stage.screen()).toContain(S710);
    expect(stage.types("q").screen()).toContain("nichts passt");
  });
});
