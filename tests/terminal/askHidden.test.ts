import { EventEmitter } from "node:events";
import { describe, expect, test } from "vitest";
import { type AskingEnds, askHidden } from "../../src/terminal/askHidden.ts";

/** A keyboard that the test plays, and what was written to the screen. */
function aTerminal(isTTY = true) {
  const keys = Object.assign(new EventEmitter(), {
    isTTY,
    raw: [] as boolean[],
    setRawMode(on: boolean) {
      this.raw.push(on);
    },
    resume: () => undefined,
    pause: () => undefined,
  });
  const shown: string[] = [];
  const ends = { stdin: keys, stderr: { write: (text: string) => shown.push(text) } } as unknown as AskingEnds;
  return { keys, shown, ends };
}

async function asked(...typed: (string | Buffer)[]) {
  const { keys, shown, ends } = aTerminal();
  const answer = askHidden("PIN of KO", ends);
  for (const bytes of typed) keys.emit("data", bytes);
  return { answer: await answer, shown: shown.join(""), raw: keys.raw, left: keys.listenerCount("data") };
}

describe("asking for what nobody may see", () => {
  test("shows the question and nothing of the answer, and gives the terminal back", async () => {
    const { answer, shown, raw, left } = await asked("19", "0734\r");
    expect(answer).toBe("190734");
    expect(shown).toBe("PIN of KO: \n");
    expect(raw).toEqual([true, false]);
    expect(left).toBe(0);
  });

  test.each([
    [["12\x7f3\n"], "13"],
    [["\x7f\x7f1\b2\r"], "2"],
    [[Buffer.from("Körner\r")], "Körner"],
    [["\r"], ""],
    [["1\t2\r"], "12"],
    [[`${"9".repeat(500)}\r`], "9".repeat(200)],
  ])("typed as %j it is %j", async (typed, answer) => expect((await asked(...typed)).answer).toBe(answer));

  test.each([["\x03"], ["12\x04"], ["\x1b"]])("given up with %j it is nothing", async (typed) =>
    expect(await asked(typed)).toMatchObject({ answer: null, raw: [true, false], left: 0 }),
  );

  test("a keyboard that goes away gives up", async () => {
    const { keys, ends } = aTerminal();
    const answer = askHidden("PIN", ends);
    keys.emit("end");
    expect(await answer).toBeNull();
  });

  test("without a keyboard nobody is asked", async () => {
    const { ends, shown, keys } = aTerminal(false);
    expect(await askHidden("PIN", ends)).toBeNull();
    expect([shown, keys.raw]).toEqual([[], []]);
  });

  test("a question can't reach the terminal raw", async () => {
    const { keys, shown, ends } = aTerminal();
    const answer = askHidden("PIN of \x1b[2J", ends);
    keys.emit("data", "\r");
    await answer;
    expect(shown.join("")).not.toContain("\x1b");
  });
});
