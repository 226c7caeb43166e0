import { describe, expect, test } from "vitest";
import { readingOf } from "../../src/screens/readingFrame.ts";
import { EMPTY_G, FULL_G } from "../run/hands.ts";
import { anApp, Stage } from "./stage.ts";

const weighing = () => {
  const stage = new Stage().types("n").presses("enter", "enter", "enter", "enter").enters("300.20");
  for (const grams of EMPTY_G) stage.enters(grams.toFixed(2));
  return stage.presses("enter").waits(601).presses("enter").enters("418.02");
};
const read = (stage: Stage) => readingOf(stage.app);

describe("the screens read aloud", () => {
  test("begin with the title and end with the keys; a message comes before what is shown", () => {
    const stage = weighing().types("q");
    const [title, stageTold, message] = read(stage);
    expect(title).toMatch(/^TH-0510 rev 3/);
    expect(stageTold).toBe("weigh full 1/6");
    expect(message).toContain("q does nothing here");
    expect(read(stage).at(-1)).toMatch(/^keys: Enter accept; .*\? help$/);
  });

  test("say each row of the stack as a sentence, with the limit it meets and where the hands are", () => {
    const rows = read(weighing().types("45"));
    expect(rows).toContain("1.40 mm: empty 412.31 g, full 418.02 g, net 5.71 g, passing 98.1 %, within 95 to 100");
    expect(rows).toContain(
      "here 1.00 mm: empty 398.74 g, full 45 g being typed, 75 to 95".replace(", 75", ", envelope 75"),
    );
    expect(rows).toContain("pan: empty 354.10 g");
  });

  test("say the result in sentences, both verdicts in the second one, and draw nothing", () => {
    const stage = weighing();
    for (const grams of FULL_G.slice(1)) stage.enters(grams.toFixed(2));
    const rows = read(stage);
    expect(rows[1]).toMatch(/TEST VALID.*PASS/);
    expect(rows.find((row) => row.startsWith("1.40 mm"))).toMatch(/^1\.40 mm: net 5\.71 g, .*within 95 to 100$/);
    expect(rows.join("\n")).not.toMatch(/[─-╿▀-▟●◆]/);
  });

  test("hold no character that a terminal would obey, whatever was scanned", () => {
    const stage = new Stage(anApp()).scans("\u001b[2Jx");
    expect(read(stage).join("\n")).not.toMatch(/[\x00-\x09\x0b-\x1f\x7f]/);
  });
});
