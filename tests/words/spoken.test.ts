import { beforeAll, describe, expect, test } from "vitest";
import { mannerOf } from "../../src/words/manner.ts";
import { fetchLanguage, inManner } from "../../src/words/speaking.ts";
import { spoken } from "../../src/words/spoken.ts";

const german = (sentence: string) => inManner(mannerOf({}, "de"), () => spoken(sentence));
beforeAll(() => fetchLanguage("de"));

describe("a sentence of a room below", () => {
  test("stays as it is in English, whatever is in it", () =>
    expect(spoken("loss 0.74 % is above 0.3 % since 2026-11-24")).toBe("loss 0.74 % is above 0.3 % since 2026-11-24"));

  test("takes the decimal comma of a station that speaks English; numbers of sections, times and versions don't", () => {
    const said = inManner(mannerOf({ decimal: "comma" }, "en"), () =>
      spoken("0.74 % at 03:12, section 7.5, version 0.1.0, 1.40 mm"),
    );
    expect(said).toBe("0,74 % at 03:12, section 7.5, version 0.1.0, 1,40 mm");
  });

  test("is found among the messages, and what was filled in is said in turn", () => {
    expect(german("needs 60x16, is 50x10: make it larger, what you typed is kept")).toMatch(/60x16.*50x10/);
    expect(german("needs 60x16, is 50x10: make it larger, what you typed is kept")).not.toContain("larger");
  });

  test("keeps the blanks around it", () => expect(german("  help ")).toBe("  Hilfe "));

  test("put together of several is found part by part, the longest known first", () => {
    const grains = "the 500 um sieve (S-1) weighs 0.42 g more than when clean, slowly risen since 2026-11-22";
    expect(
      german(`${grains}: grains caught in the mesh: clean it by brush or ultrasonic bath, then weigh it again`),
    ).toBe(
      "das Sieb 500 um (S-1) wiegt 0,42 g mehr als sauber, langsam gestiegen seit 22.11.2026: Klemmkörner im Gewebe: mit Bürste oder Ultraschallbad reinigen, dann noch einmal wiegen",
    );
  });

  test("takes no part before it for what was filled in", () =>
    expect(german("passed 96.93 %, sieves like 1.394 mm (1.349 mm to 1.402 mm), within Y")).toBe(
      "Durchgang 96,93 %, siebt wie 1,394 mm (1,349 mm bis 1,402 mm), innerhalb von Y",
    ));

  test("of few letters is not found around sentences", () =>
    expect(german("qqq: zzz since xxx; yyy")).toBe("qqq: zzz since xxx; yyy"));

  test("takes the decimal comma with a sign before the figure, too", () =>
    expect(german("Zwo (-599.5 um) 2026-11-24")).toBe("Zwo (-599,5 um) 2026-11-24"));

  test("that no catalogue knows stays in its words, its figures and days as people write them", () => {
    expect(german("Zwo1 qqq 12.5 g")).toBe("Zwo1 qqq 12,5 g");
    expect(german("2026-11-24")).toBe("24.11.2026");
    expect(german("")).toBe("");
  });
});

describe("of several sentences in one", () => {
  test("a message of few words does not swallow the others", () =>
    expect(german("Zwo1 qqq; limits need 8 tests, there are 3")).toMatch(/^Zwo1 qqq; Grenzen brauchen 8 Prüfungen/));

  test("numbers of entries are said wherever they stand", () =>
    expect(german("Zwo1 no. 105, no. 111")).toBe("Zwo1 Nr. 105, Nr. 111"));

  test("what a person wrote stands as it is, be the sentence found or said already", () => {
    const said = "von Los 4471.5 läuft schon eine Prüfung: Enter nimmt sie auf";
    expect(german("lot 4471.5 is in work: Enter takes its test up")).toBe(said);
    expect(german(said)).toBe(said);
    expect(german("lot pass is in work: Enter takes its test up")).toContain("Los pass ");
    expect(german('"12.5" was scanned where nothing is asked')).toContain('"12.5"');
  });

  test("a note of many parts that nobody knows is told at once, word for word", () => {
    const note = Array.from({ length: 130 }, (_, i) => "abcdefghij"[i % 10]).join(", ");
    const began = performance.now();
    expect(german(note)).toBe(note);
    expect(performance.now() - began).toBeLessThan(2000); // tried pattern by pattern for each of its parts it took 18 s
  });
});
