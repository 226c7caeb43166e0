import { describe, expect, test } from "vitest";
import { createBurstJoiner } from "../../src/terminal/bursts.ts";
import { keyOfCharacter, keyOfControlSequence, keyOfSingleShift } from "../../src/terminal/keySequences.ts";
import { entryOfPaste } from "../../src/terminal/paste.ts";
import { createTokeniser } from "../../src/terminal/tokeniser.ts";
import { wordOf } from "./decoding.ts";

describe("the tokeniser", () => {
  const reading = () => {
    const tokens = createTokeniser();
    return {
      read: (text: string) => tokens.read(text).map(wordOf),
      giveUp: () => tokens.giveUp().map(wordOf),
      holding: tokens.holding,
      forgetReturn: tokens.forgetReturn,
    };
  };

  test("holds a sequence until it is whole", () => {
    const { read, holding } = reading();
    for (const part of ["\x1b", "[", "1", "5"]) {
      expect(read(part)).toEqual([]);
      expect(holding()).toBe("sequence");
    }
    expect(read("~")).toEqual(["f5"]);
    expect(holding()).toBe("nothing");
  });

  test.each([
    ["\x1b", ["escape"]],
    ["\x1b[", ["escape", "["]],
    ["\x1bO", ["escape", "O"]],
    ["\x1bP", ["escape", "P"]],
    ["\x1b[1;", []],
    ["\x1b[[", []],
    ["\x1b]0;half a title", []],
  ])("gives up %j as %j", (text, keys) => {
    const { read, giveUp, holding } = reading();
    expect(read(text)).toEqual([]);
    expect(giveUp()).toEqual(keys);
    expect(holding()).toBe("nothing");
    expect(read("7")).toEqual(["7"]);
  });

  test("lets an Escape through that another one follows", () => {
    const { read, giveUp } = reading();
    expect(read("\x1b\x1b")).toEqual(["escape"]);
    expect(giveUp()).toEqual(["escape"]);
  });

  test("takes a line feed for the second half of a return only right behind it", () => {
    const { read, forgetReturn } = reading();
    expect(read("\r")).toEqual(["enter"]);
    expect(read("\n")).toEqual([]);
    expect(read("\n")).toEqual(["enter"]);
    expect(read("\r")).toEqual(["enter"]);
    forgetReturn();
    expect(read("\n")).toEqual(["enter"]);
  });

  test("holds a paste, and ends it when told", () => {
    const { read, giveUp, holding } = reading();
    expect(read("7\x1b[200~ab")).toEqual(["7"]);
    expect(holding()).toBe("paste");
    expect(giveUp()).toEqual(["<ab>"]);
    expect(holding()).toBe("nothing");
  });

  test("takes an end of a paste that never began for nothing", () => {
    const { read } = reading();
    expect(read("\x1b[201~7")).toEqual(["7"]);
  });
});

describe("the burst joiner", () => {
  const joining = () => {
    const words: string[] = [];
    const joiner = createBurstJoiner((key) => words.push(wordOf(key)));
    const takes = (text: string) => {
      for (const c of text) joiner.take(c === "\r" ? { name: "enter" } : { name: "char", text: c });
    };
    return { joiner, takes, words };
  };

  test("keeps two and more, lets one go", () => {
    const { joiner, takes, words } = joining();
    takes("1");
    joiner.endChunk();
    expect([words, joiner.keeping()]).toEqual([["1"], "nothing"]);
    takes("23");
    joiner.endChunk();
    expect([words, joiner.keeping()]).toEqual([["1"], "run"]);
    joiner.settle();
    expect([words, joiner.keeping()]).toEqual([["1", "2", "3"], "nothing"]);
  });

  test("knows a held key from a run", () => {
    const { joiner, takes } = joining();
    takes("77");
    expect(joiner.keeping()).toBe("held key");
    takes("8");
    expect(joiner.keeping()).toBe("run");
  });

  test.each([
    ["1\r", ["1", "enter"]],
    ["12\r", ["<12]"]],
    ["77\r", ["<77]"]],
    ["123", ["1", "2", "3"]],
    ["1234", ["<1234>"]],
    ["7777", ["7", "7", "7", "7"]],
    ["\r\r", ["enter", "enter"]],
    ["1234\r5678\r9", ["<1234]", "<5678]", "9"]],
  ])("makes %j to %j", (text, expected) => {
    const { joiner, takes, words } = joining();
    takes(text);
    joiner.settle();
    expect(words).toEqual(expected);
  });

  test("ends a run at a key that types nothing, and at a paste", () => {
    const { joiner, takes, words } = joining();
    takes("12");
    joiner.take({ name: "up" });
    takes("3456");
    joiner.take({ name: "entry", text: "pasted", ended: false });
    expect(words).toEqual(["1", "2", "up", "<3456>", "<pasted>"]);
  });
});

describe("single sequences", () => {
  test.each([
    ["A", "up"],
    ["1;1A", "up"],
    ["1;2A", null],
    ["2A", null],
    ["3~", "delete"],
    ["3;5~", null],
    ["9~", null],
    ["200~", null],
    ["toString", null],
    ["", null],
  ])("ESC [ %s is %s", (body, name) => expect(keyOfControlSequence(body)?.name ?? null).toBe(name));

  test.each([
    ["M", "enter"],
    ["p", "0"],
    ["P", "f1"],
    ["5P", null],
    ["E", null],
    ["", null],
  ])("ESC O %s is %s", (body, word) => {
    const key = keyOfSingleShift(body);
    expect(key ? wordOf(key) : null).toBe(word);
  });

  test("every control character is a key of ours or none, and never text", () => {
    for (let code = 0; code < 0x20; code += 1) {
      expect(keyOfCharacter(String.fromCharCode(code))?.name).not.toBe("char");
    }
    expect(keyOfCharacter("\x7f")?.name).toBe("backspace");
    expect(keyOfCharacter("\u0090")).toBe(null);
    expect(keyOfCharacter("ß")).toEqual({ name: "char", text: "ß" });
  });

  test("the letters that a terminal can't tell from other keys don't come with ctrl", () => {
    const names = Array.from({ length: 26 }, (_, i) => keyOfCharacter(String.fromCharCode(i + 1))?.name);
    expect(names.filter((name) => !name?.startsWith("ctrl+"))).toEqual(["backspace", "tab", "enter", "enter"]);
    expect(names[0]).toBe("ctrl+a");
    expect(names[25]).toBe("ctrl+z");
  });
});

describe("a paste's text", () => {
  test.each([
    ["12.5", "12.5", false],
    ["12.5\n", "12.5", true],
    ["12.5\r\n\r\n", "12.5", true],
    ["  lot 7  ", "lot 7", false],
    ["a\n\n\tb", "a b", false],
    ["half \ud83d", "half \ufffd", false],
  ])("%j is %j, ended: %s", (pasted, text, ended) =>
    expect(entryOfPaste(pasted)).toEqual({ name: "entry", text, ended }),
  );

  test("of nothing drawable is none", () => {
    expect(entryOfPaste("\x07\x1b")).toBe(null);
    expect(entryOfPaste(" \n")).toBe(null);
  });
});
