import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { frameStream } from "../../src/terminal/frameStream.ts";
import { createPainter, type Painter } from "../../src/terminal/painter.ts";
import { ShownOutput } from "./screenOf.ts";

/** A painter on a screen in memory, whose next frame comes when the test says so. */
function painting({ columns = 20, rows = 6, ascii = false } = {}) {
  const output = new ShownOutput(columns, rows);
  let due: (() => void) | null = null;
  const painter: Painter = createPainter({
    stdout: output,
    ascii,
    setTimer: (run) => {
      due = run;
      return run;
    },
    clearTimer: () => {
      due = null;
    },
  });
  const nextFrame = () => {
    const run = due;
    due = null;
    run?.();
  };
  return { output, painter, nextFrame, waits: () => due !== null };
}

const filled = (rows: readonly string[], height: number) => [...rows, ...Array(height).fill("")].slice(0, height);

describe("a frame", () => {
  test("is on the screen at once", async () => {
    const { output, painter } = painting();
    painter.paint("one\ntwo");
    expect(await output.screen()).toEqual(filled(["one", "two"], 6));
  });

  test("wipes off what was there before the first one", async () => {
    const { output, painter } = painting();
    output.spoil("left over\r\nfrom before");
    painter.paint("one");
    expect(await output.screen()).toEqual(filled(["one"], 6));
  });

  test("changes only the rows that differ", async () => {
    const { output, painter, nextFrame } = painting();
    painter.paint("one\ntwo\nthree");
    nextFrame();
    output.written = "";
    painter.paint("one\nTWO\nthree");
    expect(output.written).toBe("\x1b[?2026h\x1b[2;1HTWO\x1b[K\x1b[?2026l");
    expect(await output.screen()).toEqual(filled(["one", "TWO", "three"], 6));
  });

  test("that is the same again writes nothing", () => {
    const { output, painter, nextFrame } = painting();
    painter.paint("one");
    nextFrame();
    const { writes } = output;
    painter.paint("one");
    nextFrame();
    expect(output.writes).toBe(writes);
  });

  test("that is shorter leaves nothing of the longer one", async () => {
    const { output, painter, nextFrame } = painting();
    painter.paint("long row here\ntwo\nthree");
    nextFrame();
    painter.paint("short");
    expect(await output.screen()).toEqual(filled(["short"], 6));
  });

  test("may fill rows to the right edge without losing the last character", async () => {
    const { output, painter, nextFrame } = painting({ columns: 10 });
    painter.paint("0123456789\nabc");
    nextFrame();
    painter.paint("9876543210\nabc");
    expect((await output.screen())[0]).toBe("9876543210");
  });

  test("that is too tall or too wide is cut, and does not scroll", async () => {
    const { output, painter } = painting({ columns: 5, rows: 3 });
    painter.paint("1 wider than it is\n2\n3 wider than it is\n4\n5");
    expect((await output.screen()).map((row) => row[0])).toEqual(["1", "2", "3"]);
  });

  test("keeps its colours to their rows", async () => {
    const { output, painter } = painting();
    painter.paint("\x1b[31mred\x1b[39m\nplain");
    expect(await output.screen()).toEqual(filled(["red", "plain"], 6));
    expect(output.written).toContain("\x1b[31mred\x1b[39m\x1b[K");
  });

  test("has the theme's colours under it, set again wherever a row's own end, and to the right of it", () => {
    const { output, painter, nextFrame } = painting();
    painter.ground("\x1b[97;40m");
    painter.paint("a \x1b[1;91mred\x1b[0m b");
    nextFrame();
    expect(output.written).toContain("\x1b[97;40ma \x1b[1;91mred\x1b[0m\x1b[97;40m b\x1b[0m\x1b[97;40m\x1b[K\x1b[0m");
    painter.ground("");
    painter.paint("a b");
    nextFrame();
    expect(output.written.split("\x1b[2J").at(-1)).not.toContain("\x1b[97;40m");
  });

  test("is ASCII for a terminal that has no more", async () => {
    const { output, painter } = painting({ ascii: true });
    painter.paint("▸ 710 um ✓\n───");
    expect(await output.screen()).toEqual(filled(["> 710 um +", "---"], 6));
  });
});

describe("many frames", () => {
  test("within one sixtieth of a second are two writes: the first and the last", async () => {
    const { output, painter, nextFrame } = painting();
    for (const text of ["1", "2", "3", "4"]) painter.paint(text);
    expect(output.writes).toBe(1);
    nextFrame();
    expect(output.writes).toBe(2);
    expect(await output.screen()).toEqual(filled(["4"], 6));
  });

  test("leave no timer once all is shown", () => {
    const { painter, nextFrame, waits } = painting();
    painter.paint("1");
    nextFrame();
    expect(waits()).toBe(false);
  });

  /** One thing that happens to a painter; answers with the rows that should be shown from now on, if they change. */
  type Step = (on: ReturnType<typeof painting>) => string[] | undefined;
  const anyStep: fc.Arbitrary<Step> = fc.oneof(
    fc.array(fc.stringMatching(/^[a-z ─]{0,30}$/), { maxLength: 12 }).map<Step>((rows) => ({ painter }) => {
      painter.paint(rows.join("\n"));
      return rows;
    }),
    fc
      .tuple(fc.integer({ min: 2, max: 40 }), fc.integer({ min: 1, max: 15 }))
      .map<Step>(([columns, rows]) => ({ output }) => {
        output.resize(columns, rows);
        return undefined;
      }),
    fc.constant<Step>(({ output, painter }) => {
      output.spoil("\x1b[3;3Hspoilt");
      painter.repaint();
      return undefined;
    }),
    fc.constant<Step>(({ nextFrame }) => {
      nextFrame();
      return undefined;
    }),
  );
  /** A row wider than the screen ends in its own last character: that is how a terminal cuts. */
  const cut = (row: string, columns: number) =>
    [...row].length > columns ? [...row].slice(0, columns - 1).join("") + [...row].at(-1) : row;

  test("end on what the last one said, however sizes and frames come mixed up", () =>
    fc.assert(
      fc.asyncProperty(fc.array(anyStep, { maxLength: 25 }), async (steps) => {
        const on = painting({ columns: 30, rows: 10 });
        on.output.on("resize", on.painter.resized);
        const last = steps.reduce<string[]>((rows, step) => step(on) ?? rows, []);
        on.nextFrame();
        on.nextFrame();
        const wanted = last.map((row) => cut(row, on.output.columns).trimEnd());
        const shown = (await on.output.screen()).map((row) => row.trimEnd());
        expect(shown).toEqual(filled(wanted, on.output.rows));
      }),
      { numRuns: 150 },
    ));
});

describe("after a resize", () => {
  test("nothing is drawn until the new layout had time to come, then all of it", async () => {
    const { output, painter, nextFrame } = painting();
    painter.paint("old layout");
    nextFrame();
    output.on("resize", painter.resized);
    const { writes } = output;
    output.resize(30, 4);
    painter.paint("old layout");
    painter.paint("new layout");
    expect(output.writes).toBe(writes);
    nextFrame();
    expect(output.writes).toBe(writes + 1);
    expect(await output.screen()).toEqual(filled(["new layout"], 4));
  });
});

describe("repaint", () => {
  test("draws over what something else wrote", async () => {
    const { output, painter, nextFrame } = painting();
    painter.paint("one\ntwo");
    nextFrame();
    output.spoil("\x1b[1;1Hspoilt\x1b[5;5Hspoilt");
    painter.repaint();
    expect(await output.screen()).toEqual(filled(["one", "two"], 6));
  });
});

describe("a closed painter", () => {
  test("writes nothing any more", () => {
    const { output, painter, nextFrame } = painting();
    painter.paint("1");
    painter.paint("2");
    painter.close();
    const { writes } = output;
    nextFrame();
    painter.paint("3");
    painter.repaint();
    painter.resized();
    nextFrame();
    expect(output.writes).toBe(writes);
  });
});

describe("what Ink takes for the terminal", () => {
  const streaming = () => {
    const { output, painter, nextFrame } = painting();
    return { output, nextFrame, stream: frameStream(output.asStream(), painter) };
  };

  test("shows each write as a frame", async () => {
    const { output, stream } = streaming();
    stream.write("one\ntwo");
    expect(await output.screen()).toEqual(filled(["one", "two"], 6));
  });

  test("has the terminal's size, also when that changes", () => {
    const { output, stream } = streaming();
    expect([stream.columns, stream.rows, stream.isTTY]).toEqual([20, 6, true]);
    output.resize(44, 9);
    expect([stream.columns, stream.rows]).toEqual([44, 9]);
  });

  test("tells of resizes and stops telling", () => {
    const { output, stream } = streaming();
    let told = 0;
    const listener = () => {
      told += 1;
    };
    stream.on("resize", listener);
    output.resize(44, 9);
    stream.off("resize", listener);
    output.resize(45, 9);
    expect(told).toBe(1);
    expect(output.listenerCount("resize")).toBe(0);
  });

  test("lets no cursor sequence through as a frame, and answers whether all is out", async () => {
    const { output, stream } = streaming();
    stream.write("one");
    stream.write("\x1b[?25h");
    await new Promise<void>((resolve) => stream.write("", () => resolve()));
    expect(await output.screen()).toEqual(filled(["one"], 6));
    expect(output.written).not.toContain("\x1b[?25h");
  });
});
