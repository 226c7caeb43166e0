import { describe, expect, test } from "vitest";
import type { Product } from "../../src/record/product.ts";
import { EMPTY_G, FILTER_SAND, FULL_G, Hands } from "../run/hands.ts";
import { anApp, Stage } from "./stage.ts";

const weighingFull = (product: Product, rows: number, chargeG = "300.2") => {
  const { run } = new Hands(undefined, product).setsOut(chargeG).weighs(EMPTY_G).shakes().weighs(FULL_G.slice(0, rows));
  const place = { name: "run", run, view: 0, writing: null } as const;
  return new Stage(anApp({ place, behind: [{ name: "bench", at: 0 }], drafts: [run.draft] }));
};
const rowOf = (stage: Stage, name: string) => stage.lines().find((text) => text.includes(name)) ?? "";

describe("the envelope beside the full masses", () => {
  test("has limits on what stays and what is coarser, short as the result has them", () => {
    const envelope = [
      { apertureUm: 1400, retainedPct: { max: 3 } },
      { apertureUm: 1000, coarserPct: { min: 10, max: 15 } },
      { apertureUm: 710, passingPct: { min: 30, max: 60 } },
    ];
    const stage = weighingFull({ ...FILTER_SAND, envelope }, 3);
    expect(rowOf(stage, "1.40 mm")).toMatch(/ret\. ≤ 3 +✓/);
    expect(rowOf(stage, "1.00 mm")).toMatch(/coa\.10–15 +✗/);
    expect(rowOf(stage, "710 um")).toMatch(/30 – 60 +✓/);
  });

  test("has a warning and no verdict where the percentage cannot be", () => {
    const envelope = [{ apertureUm: 355, passingPct: { max: 0.5 } }];
    const stage = weighingFull({ ...FILTER_SAND, envelope }, 4, "290")
      .enters("388.15")
      .presses("enter");
    expect(rowOf(stage, "355 um")).toMatch(/-1\.\d %.*≤ 0\.5 +!/);
    expect(rowOf(stage, "355 um")).not.toContain("✓");
  });
});

test("a row whose correction is doubted shows no net mass until it is accepted", () => {
  const stage = weighingFull(FILTER_SAND, 2).presses("up").enters("999.99");
  expect(stage.screen()).toContain("Enter again accepts it");
  expect(rowOf(stage, "1.00 mm")).toContain("999.99");
  expect(rowOf(stage, "1.00 mm")).not.toContain("56.46");
  expect(rowOf(stage, "1.00 mm")).not.toContain("%");
  stage.presses("enter");
  expect(rowOf(stage, "1.00 mm")).toContain("601.25");
});

describe("a charge that Enter passed by", () => {
  test("is told while the empty sieves are weighed, when it can still be weighed", () => {
    const stage = new Stage(anApp()).types("n").presses("enter", "enter", "enter", "enter", "enter");
    expect(stage.screen()).toMatch(/weigh empty 0/);
    expect(stage.screen()).toContain("charge not weighed, so no loss can be told: o leads to it");
    stage.types("o").presses("down", "down", "down", "down").enters("300.20");
    expect(stage.screen()).toContain("charge 300.20 g");
    expect(stage.screen()).not.toContain("not weighed");
  });
});
