import { afterEach, expect, test } from "vitest";
import { type Operator, operatorsLeave, startOperator } from "./operator.ts";

afterEach(operatorsLeave);

/** The whole tour as it is told, from the bench of a fresh demo station to its last step. */
async function followed(op: Operator): Promise<void> {
  await op.sees("tour 1/9: x sets out a practice test");
  await op.presses("x");
  await op.sees("PRACTICE ◇");
  for (let fields = 0; fields < 6 && !/charge +▌/.test(op.screen().join("\n")); fields++) await op.presses("enter");
  await op.sees("tour 2/9");
  await op.types("300");
  await op.presses("enter");
  await op.sees("tour 3/9");
  await op.presses("i");
  await op.sees("tour 4/9: u takes the last entry back");
  await op.presses("u");
  await op.sees("tour 5/9: ? tells of a place");
  await op.presses("?");
  await op.sees("tour 6/9");
  await op.sees("help: a test in work");
  await op.presses("escape", "escape", "escape");
  await op.sees("tour 7/9: Down to a recorded test");
  for (let rows = 0; rows < 12 && !/▸ ?\d\d-\d\d/.test(op.screen().join("\n")); rows++) await op.presses("down");
  await op.presses("enter");
  await op.sees("tour 8/9: v turns its pages");
  await op.presses("v");
  await op.sees("tour 9/9");
  await op.presses("escape");
  await op.presses("t");
  await op.sees("that was the tour");
}

test.each([
  [80, 24],
  [60, 16],
])(
  "the whole tour of the demo station at %ix%i, in the built program",
  async (cols, rows) => {
    const op = await startOperator({ args: ["demo"], cols, rows });
    await followed(op);
    expect(op.screen().join("\n")).not.toMatch(/tour \d\/9/);
    await op.presses("escape", "x");
    await op.sees("PRACTICE ◇");
    await op.presses("ctrl+c");
    expect(await op.exit()).toBe(0);
  },
  120_000,
);

test("one key ends the tour, and --no-tour begins without it", async () => {
  const op = await startOperator({ args: ["demo"] });
  await op.sees("tour 1/9");
  await op.presses("ctrl+p");
  await op.sees("the tour is over");
  await op.presses("x");
  await op.sees("PRACTICE ◇");
  await op.presses("escape");
  await op.seesNoMore(/tour \d\/9/);
  const plain = await startOperator({ args: ["demo", "--no-tour"] });
  await plain.sees("demo station");
  expect(plain.screen().join("\n")).not.toContain("tour 1/9");
}, 60_000);
