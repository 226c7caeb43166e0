import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { decoding, keysOf, takenApart } from "./decoding.ts";

const check = (bytes: string, ...keys: string[]) => expect(keysOf(bytes)).toEqual(keys);

describe("keys that type nothing", () => {
  test.each([
    ["\r", "enter"],
    ["\n", "enter"],
    ["\r\n", "enter"],
    ["\x1bOM", "enter"],
    ["\t", "tab"],
    ["\x1b[Z", "shift+tab"],
    ["\x1b[1;2I", "shift+tab"],
    ["\x1b[27;2;9~", "shift+tab"],
    ["\x7f", "backspace"],
    ["\x08", "backspace"],
    ["\x1b[3~", "delete"],
    ["\x1b[2~", "insert"],
    ["\x1b[A", "up"],
    ["\x1b[B", "down"],
    ["\x1b[C", "right"],
    ["\x1b[D", "left"],
    ["\x1bOA", "up"],
    ["\x1bOD", "left"],
    ["\x1b[1;1B", "down"],
    ["\x1b[H", "home"],
    ["\x1b[1~", "home"],
    ["\x1b[7~", "home"],
    ["\x1bOH", "home"],
    ["\x1b[F", "end"],
    ["\x1b[4~", "end"],
    ["\x1b[8~", "end"],
    ["\x1bOF", "end"],
    ["\x1b[5~", "page up"],
    ["\x1b[6~", "page down"],
    ["\x03", "ctrl+c"],
    ["\x01", "ctrl+a"],
    ["\x0c", "ctrl+l"],
    ["\x1a", "ctrl+z"],
  ])("%j is %s", (bytes, key) => check(bytes, key));

  test.each([
    ["xterm", ["OP", "OQ", "OR", "OS", "[15~", "[17~", "[18~", "[19~", "[20~", "[21~", "[23~", "[24~"]],
    ["rxvt", ["[11~", "[12~", "[13~", "[14~", "[15~", "[17~", "[18~", "[19~", "[20~", "[21~", "[23~", "[24~"]],
    ["Linux console", ["[[A", "[[B", "[[C", "[[D", "[[E", "[17~", "[18~", "[19~", "[20~", "[21~", "[23~", "[24~"]],
    ["CSI letters", ["[P", "[Q", "[R", "[1;1S", "[15;1~", "[17~", "[18~", "[19~", "[20~", "[21~", "[23~", "[24~"]],
  ])("F1 to F12 as %s sends them", (_, sequences) =>
    expect(keysOf(sequences.map((s) => `\x1b${s}`).join(""))).toEqual(sequences.map((_s, i) => `f${i + 1}`)),
  );
});

describe("numeric keypad", () => {
  test("in application mode types what is printed on it", () =>
    expect([..."pqrstuvwxyjklmno"].flatMap((c) => keysOf(`\x1bO${c}`))).toEqual([..."0123456789*+,-./"]));

  test("carries a whole weighing and its Enter, one key at a time", () => {
    const d = decoding();
    for (const c of ["q", "r", "n", "u", "M"]) {
      d.write(`\x1bO${c}`);
      d.passes(80);
    }
    expect(d.heard()).toEqual(["1", "2", ".", "5", "enter"]);
  });

  test("navigates with NumLock off", () => check("\x1bOx\x1b[B\x1b[E\x1b[6~", "8", "down", "page down"));
});

describe("sequences that mean nothing here are dropped without a trace", () => {
  test.each([
    ["ctrl+F1", "\x1b[1;5P"],
    ["ctrl+F5", "\x1b[15;5~"],
    ["ctrl+up", "\x1b[1;5A"],
    ["shift+Delete of rxvt", "\x1b[3$"],
    ["ctrl+tab", "\x1b[27;5;9~"],
    ["mouse report", "\x1b[<0;12;3M"],
    ["focus report", "\x1b[I"],
    ["cursor position report", "\x1b[12;40R"],
    ["device attributes", "\x1b[?62;1;6c"],
    ["colour report", "\x1b]11;rgb:0000/0000/0000\x07"],
    ["colour report, other end", "\x1b]11;rgb:0000/0000/0000\x1b\\"],
    ["version report", "\x1bP>|terminal 3.1\x1b\\"],
    ["ctrl+space", "\x00"],
    ["ctrl+]", "\x1d"],
    ["C1 control", "\u0085"],
    ["names of object properties", "\x1b[constructor"],
  ])("%s", (name, bytes) =>
    expect(keysOf(`${bytes}7`).join("")).toBe(name.startsWith("names") ? "<onstructor7>" : "7"),
  );

  test("one that breaks off lets the key behind it through", () => check("\x1b[1;\r5", "enter", "5"));
  test("one without an end does not swallow keys for ever", () => {
    expect(keysOf(`\x1b]${"x".repeat(3000)}`, "7\r").at(-1)).toMatch(/7]$/);
  });
});

describe("Escape", () => {
  test("comes 50 ms after a lone ESC, not sooner", () => {
    const d = decoding();
    d.write("\x1b");
    d.passes(49);
    expect(d.heard()).toEqual([]);
    d.passes(1);
    expect(d.heard()).toEqual(["escape"]);
  });

  test("is not what a split arrow key is", () => {
    const d = decoding();
    d.write("\x1b");
    d.passes(40);
    d.write("[");
    d.passes(40);
    d.write("B");
    expect(d.heard()).toEqual(["down"]);
    d.passes(1000);
    expect(d.heard()).toEqual([]);
  });

  test("followed at once by a letter is both", () => check("\x1bn", "escape", "n"));
  test("twice is twice", () => check("\x1b\x1b", "escape", "escape"));
  test("before an arrow is both", () => check("\x1b\x1b[A", "escape", "up"));
  test("and a bracket that nothing follows are both", () => check("\x1b[", "escape", "["));
  test("and a capital O that nothing follows are both", () => check("\x1bO", "escape", "O"));
});

describe("text", () => {
  test("in UTF-8 may be split anywhere", () => {
    const bytes = Buffer.from("ö€😀");
    const oneByOne = Array.from(bytes, (byte) => Uint8Array.of(byte));
    expect(keysOf(...oneByOne)).toEqual(["ö", "€", "😀"]);
  });

  test("that is no UTF-8 is seen, and the next key too", () =>
    expect(keysOf(Uint8Array.of(0xe9), "\r")).toEqual(["\ufffd", "enter"]));

  test("that breaks off in the middle of a character shows it 50 ms later", () => {
    const d = decoding();
    d.write(Uint8Array.of(0xe2, 0x82));
    d.passes(49);
    expect(d.heard()).toEqual([]);
    d.passes(1);
    expect(d.heard()).toEqual(["\ufffd"]);
  });

  test("that breaks off is not forgotten over a chunk without a byte", () => {
    const d = decoding();
    d.write(new Uint8Array([0xc2]));
    d.write(new Uint8Array());
    d.passes(60);
    expect(d.heard()).toEqual(["\ufffd"]);
  });

  test("with half a surrogate is well formed", () => check("\ud83dx", "\ufffd", "x"));

  test("held Backspace is as many backspaces", () => check("\x7f\x7f\x7f", "backspace", "backspace", "backspace"));
  test("three arrows in one chunk are three", () => check("\x1b[A\x1b[A\x1b[A", "up", "up", "up"));
  test("CR and LF in two chunks are one enter", () => expect(keysOf("\r", "\n")).toEqual(["enter"]));
  test("LF behind CR and another key is an enter", () => check("\r\x1b[A\n", "enter", "up", "enter"));
  test("LF long after CR is an enter of its own", () => {
    const d = decoding();
    d.write("\r");
    d.passes(31);
    d.write("\n");
    expect(d.heard()).toEqual(["enter", "enter"]);
  });
});

describe("bursts", () => {
  test("a balance's line is one entry", () => check("+  521.40 g\r\n", "<+  521.40 g]"));
  test("two characters and Enter are the shortest", () => check("12\r", "<12]"));
  test("one character and Enter are two keys", () => check("1\r", "1", "enter"));
  test("four characters without Enter are an entry", () => check("12.5", "<12.5>"));
  test("three are single keys", () => check("12.", "1", "2", "."));
  test("a held key is single keys", () => check("5555555", "5", "5", "5", "5", "5", "5", "5"));
  test("several lines are several entries", () => check("12.5\r13.75\r", "<12.5]", "<13.75]"));
  test("end at a tab as at an Enter", () => check("4471-B\t", "<4471-B]"));
  test("end at any other key", () => check("4471-B\x1b[A12\x1b[B", "<4471-B>", "up", "1", "2", "down"));
  test.each(["\t\r", "\t\r\n", "\r\r", "\r\n", "\n", "\t\t"])("end once, though %j ends them", (end) =>
    check(`+  521.40 g${end}`, "<+  521.40 g]"),
  );
  test("a Tab behind one character, or behind nothing, is a tab", () => check("1\t\t", "1", "tab", "tab"));
  test("on the keypad count as well", () => check("\x1bOq\x1bOr\x1bOM", "<12]"));
  test("keep their order around Backspace", () => check("12\x7f3\r", "1", "2", "backspace", "3", "enter"));

  test("a single character is never kept waiting", () => {
    const d = decoding();
    d.write("4");
    expect(d.heard()).toEqual(["4"]);
  });

  test("split over chunks within 60 ms are joined", () => {
    const d = decoding();
    d.write("52");
    d.passes(59);
    d.write("1.");
    d.passes(59);
    d.write("4");
    d.passes(59);
    d.write("0\r");
    expect(d.heard()).toEqual(["<521.40]"]);
  });

  test("that pause longer are two", () => {
    const d = decoding();
    d.write("4471-");
    d.passes(61);
    expect(d.heard()).toEqual(["<4471->"]);
    d.write("BC\r");
    expect(d.heard()).toEqual(["<BC]"]);
  });

  test("two characters that came together are single keys 60 ms later", () => {
    const d = decoding();
    d.write("12");
    d.passes(59);
    expect(d.heard()).toEqual([]);
    d.passes(1);
    expect(d.heard()).toEqual(["1", "2"]);
  });

  describe("one key at a time, as a keyboard wedge sends them", () => {
    const wedge = (d: ReturnType<typeof decoding>, text: string, gapMs: number) => {
      for (const character of text) {
        d.write(character);
        d.passes(gapMs);
      }
    };

    test.each([1, 8, 20, 29])(
      "%i ms apart are one entry, which tells what had gone out before it was known",
      (gapMs) => {
        const d = decoding();
        wedge(d, "521.40 g\r", gapMs);
        expect(d.entries()).toEqual([{ name: "entry", text: "21.40 g", ended: true, led: "5" }]);
      },
    );

    test("with the same character at the beginning tell all that had gone out", () => {
      const d = decoding();
      wedge(d, "112.5\r", 8);
      expect(d.entries()).toEqual([{ name: "entry", text: "2.5", ended: true, led: "11" }]);
    });

    test("without an end are one entry 60 ms after the last", () => {
      const d = decoding();
      wedge(d, "521.40", 8);
      expect(d.heard()).toEqual(["5"]);
      d.passes(60);
      expect(d.entries()).toEqual([{ name: "entry", text: "21.40", ended: false, led: "5" }]);
    });

    test("as slow as a fast hand are keys", () => {
      const d = decoding();
      wedge(d, "521\r", 31);
      expect(d.heard()).toEqual(["5", "2", "1", "enter"]);
    });

    test("that would act are kept till it is known whether more follows", () => {
      const d = decoding((text) => /[a-z+]/.test(text));
      wedge(d, "quit\r", 8);
      wedge(d, "+5.20 g\r", 8);
      expect(d.entries()).toEqual([
        { name: "entry", text: "quit", ended: true },
        { name: "entry", text: "+5.20 g", ended: true },
      ]);
    });
  });

  describe("a single character that would act", () => {
    test("comes 60 ms later, alone", () => {
      const d = decoding(() => true);
      d.write("q");
      d.passes(59);
      expect(d.heard()).toEqual([]);
      d.passes(1);
      expect(d.heard()).toEqual(["q"]);
    });

    test("with an Enter right behind it is an entry: no hand does that", () => {
      const d = decoding(() => true);
      d.write("q\r");
      d.write("d");
      d.passes(8);
      d.write("\r");
      expect(d.heard()).toEqual(["<q]", "<d]"]);
    });

    test("with an Enter as a quick hand presses it are two keys", () => {
      const d = decoding(() => true);
      d.write("n");
      d.passes(15);
      d.write("\r");
      expect(d.heard()).toEqual(["n", "enter"]);
    });

    test("held comes as often as it repeats", () => {
      const d = decoding(() => true);
      for (let i = 0; i < 10; i++) {
        d.write("d");
        d.passes(33);
      }
      d.passes(60);
      expect(d.heard()).toHaveLength(10);
    });
  });

  test("a held key that repeats every 25 ms is not kept till it is let go", () => {
    const d = decoding();
    d.write("55");
    d.passes(25);
    d.write("5");
    d.passes(35);
    expect(d.heard()).toEqual(["5", "5", "5"]);
  });
});

describe("bracketed paste", () => {
  const paste = (text: string) => `\x1b[200~${text}\x1b[201~`;
  test("is one entry, however short", () => check(paste("7"), "<7>"));
  test("says that a line end closed it", () => check(paste("12.5\r\n"), "<12.5]"));
  test("says that a tab closed it", () => check(paste("12.5 g\t"), "<12.5 g]"));
  test("of several lines is one row of text", () => check(paste("a\r\nb\tc\nd"), "<a b c d>"));
  test("holds no control characters", () => check(paste("a\x1b[31mb\x07\u009bc\x7f"), "<a[31mbc>"));
  test("of nothing is nothing", () => check(paste("") + paste("\r\n"), ...[]));
  test("leaves the keys around it alone", () => check(`1${paste("ab")}2\r`, "1", "<ab>", "2", "enter"));
  test("split at every place is the same", () => {
    const bytes = paste("lot 4471-B\r");
    for (let at = 1; at < bytes.length; at += 1) {
      expect(keysOf(bytes.slice(0, at), bytes.slice(at))).toEqual(["<lot 4471-B]"]);
    }
  });
  test("that never ends gives the keyboard back after a second", () => {
    const d = decoding();
    d.write("\x1b[200~abc");
    d.passes(999);
    expect(d.heard()).toEqual([]);
    d.passes(1);
    d.write("7");
    expect(d.heard()).toEqual(["<abc>", "7"]);
  });
  test("of a megabyte keeps its first 4096 characters and its end", () => {
    const d = decoding();
    d.write("\x1b[200~");
    for (let i = 0; i < 256; i += 1) d.write("x".repeat(4096));
    d.write("\r\x1b[201~u");
    expect(d.heard()).toEqual([`<${"x".repeat(4096)}]`, "u"]);
  });
});

describe("whatever comes", () => {
  const anyBytes = fc.uint8Array({ maxLength: 60 });
  const piece = fc.constantFrom(
    ...[
      "\x1b",
      "[",
      "O",
      "A",
      "~",
      ";",
      "1",
      "5",
      "200~",
      "201~",
      "\x1b[200~",
      "\x1b[201~",
      "]",
      "P",
      "\x07",
      "\\",
      "\r",
    ],
    ...["\n", "\x7f", "\x00", "x", "é", "😀", "\x1b[A", "\x1bOM", "$", "[[", "\u009b", "\x03", " "],
  );
  const nastyText = fc.array(piece, { maxLength: 30 }).map((pieces) => Buffer.from(pieces.join("")));
  const stream = fc.oneof(anyBytes, nastyText);
  const cuts = fc.array(fc.nat(60), { maxLength: 12 });
  const cut = (bytes: Uint8Array, places: readonly number[]) => {
    const ends = [...new Set([...places, bytes.length])].filter((p) => p <= bytes.length).sort((a, b) => a - b);
    return ends.map((end, i) => bytes.subarray(ends[i - 1] ?? 0, end));
  };

  test("it never throws and never delivers a control character", () =>
    fc.assert(
      fc.property(stream, cuts, (bytes, places) => {
        for (const word of keysOf(...cut(bytes, places)))
          expect(word).not.toMatch(/[\x00-\x1f\x7f-\x9f]|\p{Surrogate}/u);
      }),
      { numRuns: 3000 },
    ));

  test("the same keys come however it is cut, but for what is told apart by time", () =>
    fc.assert(
      fc.property(stream, cuts, (bytes, places) => {
        expect(takenApart(keysOf(...cut(bytes, places)))).toEqual(takenApart(keysOf(bytes)));
      }),
      { numRuns: 3000 },
    ));

  test("plain typing comes out as it went in", () =>
    fc.assert(
      fc.property(fc.stringMatching(/^[ -~é€]{0,40}$/), cuts, (text, places) => {
        expect(takenApart(keysOf(...cut(Buffer.from(text), places))).join("")).toBe(text);
      }),
    ));

  test("end() holds nothing back and leaves no timer", () =>
    fc.assert(
      fc.property(stream, (bytes) => {
        const d = decoding();
        d.write(bytes);
        d.end();
        const heard = d.heard();
        d.passes(10_000);
        expect(d.heard()).toEqual([]);
        expect(takenApart(heard)).toEqual(takenApart(keysOf(bytes)));
      }),
    ));
});
