import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { columnsOf } from "../../src/terminal/sanitise.ts";
import german from "../../src/words/catalogues/de.ts";
import spanish from "../../src/words/catalogues/es.ts";
import { wordsInCode } from "../../tools/wordsInCode.mjs";

const FOUND = wordsInCode();
const MESSAGES = new Set(FOUND.filter(({ kind }) => kind === "message").map(({ message }) => message));

/** What the screens may show besides: names of verdicts, states and the like. */
const NAMES = new Set(FOUND.filter(({ kind }) => kind === "name").map(({ message }) => message));

const places = (text: string) => [...text.matchAll(/\{\d+\}/g)].map(([place]) => place).sort();
const edges = (text: string) => [/^\s*/.exec(text)?.[0].length, /\s*$/.exec(text)?.[0].length];
/** A heading whose columns are set by blanks stands over its figures only if it is as wide in every language. */
const isHeading = (text: string) => /\S {3,}\S/.test(text) && places(text).length === 0;

const filesOf = (language: string) =>
  readdirSync(`data/words/${language}`).map((name) => ({
    name,
    messages: JSON.parse(readFileSync(`data/words/${language}/${name}`, "utf8")) as Record<string, string>,
  }));

test("every phrase of the screens is said, and none before anybody has chosen a language", () => {
  const mistakes = FOUND.filter(({ kind }) => kind !== "message" && kind !== "name");
  expect(mistakes.map(({ kind, file, line, message }) => `${kind}: ${file}:${line}: ${message}`)).toEqual([]);
});

describe.each([
  ["de", german],
  ["es", spanish],
])("the catalogue %s", (language, messages) => {
  test("has every message of the program", () => {
    expect([...MESSAGES].filter((message) => !Object.hasOwn(messages, message))).toEqual([]);
  });

  test("has none that the program doesn't say, and none without a word", () => {
    expect(Object.keys(messages).filter((message) => !MESSAGES.has(message) && !NAMES.has(message))).toEqual([]);
    expect(Object.entries(messages).filter(([, said]) => said.trim() === "")).toEqual([]);
  });

  test("fills in the same, and keeps blanks at both ends and the columns of headings", () => {
    for (const [message, said] of Object.entries(messages)) {
      expect(places(said), said).toEqual(places(message));
      expect(edges(said), `"${said}"`).toEqual(edges(message));
      if (isHeading(message)) expect(columnsOf(said), said).toBe(columnsOf(message));
    }
  });

  test("is read whole: each file of its folder, and no message with two translations", () => {
    const said = new Map<string, string>();
    for (const { name, messages: some } of filesOf(language))
      for (const [message, translation] of Object.entries(some)) {
        expect(said.get(message) ?? translation, `${name}: ${message}`).toBe(translation);
        said.set(message, translation);
      }
    expect(Object.fromEntries(said)).toEqual({ ...messages });
  });
});
