import { describe, expect, test } from "vitest";
import { PLACES, type PlaceTold, placesOf } from "../../../src/report/glossary/places.ts";
import { TERM_IDS, TERMS_BY_NAME, termOf } from "../../../src/report/glossary/terms.ts";

const places = Object.entries(PLACES) as readonly (readonly [string, PlaceTold])[];

describe("the glossary", () => {
  test.each(TERM_IDS.map((id) => [id, termOf(id)] as const))(
    "tells %s in whole sentences, shortly",
    (_id, { meaning }) => {
      expect(meaning).toMatch(/^[\p{Lu}±].*\.$/u);
      expect(meaning.length).toBeLessThan(160);
    },
  );

  test("knows each word once, other spellings included", () => {
    const words = TERMS_BY_NAME.flatMap(({ name, also = [] }) => [name, ...also]).map((word) => word.toLowerCase());
    expect(words.filter((word, i) => words.indexOf(word) !== i)).toEqual([]);
  });

  test("holds no word that no place uses, and says where each is used", () => {
    expect(TERM_IDS.filter((id) => placesOf(id).length === 0)).toEqual([]);
    expect(placesOf("endPoint")).toEqual(["a test in work"]);
    expect(placesOf("hold")).toContain("a lot");
  });
});

test.each(places)("%s has a title of its own, its terms and where its figures come from, each once", (_name, told) => {
  expect(places.filter(([, other]) => other.title === told.title)).toHaveLength(1);
  expect(told.terms.length).toBeGreaterThan(1);
  expect(new Set(told.terms).size).toBe(told.terms.length);
  expect(told.standards.length).toBeGreaterThan(0);
  expect(new Set(told.standards).size).toBe(told.standards.length);
});
