import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { catalogueOf } from "../../src/words/catalogues/catalogueOf.ts";
import { mannerOf } from "../../src/words/manner.ts";
import { say } from "../../src/words/say.ts";
import { fetchLanguage, inManner, speaking } from "../../src/words/speaking.ts";
import { inLanguage } from "./tongues.ts";

const soFar = (netG: string, chargeG: string) => say`so far ${netG} g of ${chargeG} g charge`;

describe("say", () => {
  test("in English says what stands in the code", () => {
    expect(soFar("62.17", "300.20")).toBe("so far 62.17 g of 300.20 g charge");
    expect(say`${1} of ${3}`).toBe("1 of 3");
  });

  test("gives a number the decimal sign in use, and leaves a text as it is", () => {
    const said = inManner(mannerOf({ decimal: "comma" }, "en"), () => say`${0.5} – ${"0.5"}`);
    expect(said).toBe("0,5 – 0.5");
  });

  test("what is filled in is never taken for a place, a message or code of the library", async () => {
    const { translate } = await catalogueOf("de", { "lot {0} of {1}": "Los {0} von {1}", hold: "Sperre" });
    fc.assert(
      fc.property(fc.string(), fc.string(), (lot, product) => {
        expect(translate("lot {0} of {1}", [lot, product])).toBe(`Los ${lot} von ${product}`);
      }),
    );
    for (const lot of ["{1}", "hold", "$t(hold)", "$&", "{0}{1}", "<b>", "a, b"])
      expect(translate("lot {0} of {1}", [lot, "x"])).toBe(`Los ${lot} von x`);
  });

  test("a message that the catalogue lacks is said in English, with what is filled in", async () => {
    const { translate } = await catalogueOf("de", {});
    expect(translate("so far {0} g of {1} g: charge", ["1", "2"])).toBe("so far 1 g of 2 g: charge");
  });
});

describe("the manner", () => {
  test("is back as it was, also after a fault", () => {
    const fault = () =>
      inManner(mannerOf({}, "de"), () => {
        throw new Error("in drawing");
      });
    expect(fault).toThrow("in drawing");
    expect(speaking().language).toBe("en");
  });

  test("a language is spoken as soon as its catalogue has been read, each in its own words", async () => {
    await fetchLanguage("es");
    const help = () => say`help`;
    expect(await inLanguage("de", help)).toBe("Hilfe");
    expect(await inLanguage("es", help)).toBe("ayuda");
    expect(help()).toBe("help");
  });
});
