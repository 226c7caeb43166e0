import { describe, expect, test } from "vitest";
import { assessTest } from "../../src/assess/assessTest.ts";
import { inWork } from "../../src/demo/inWork.ts";
import { demoProducts, demoPrograms } from "../../src/demo/library.ts";
import { inventSeason } from "../../src/demo/season.ts";
import { DEMO_STATION } from "../../src/demo/station.ts";
import { DraftSchema } from "../../src/record/draft.ts";
import { resumeRun } from "../../src/run/start.ts";
import { Hands, SETTING } from "../run/hands.ts";

const [entry] = inventSeason({
  station: DEMO_STATION,
  products: demoProducts(),
  programs: demoPrograms(),
  tests: 1,
  seed: 2,
  untilMs: Date.parse("2026-11-24T02:00:00Z"),
  programVersion: "0.1.0",
});
if (entry?.kind !== "test") throw new Error("no test was invented");
const { test: record } = entry;
const draft = inWork(record, 3);

describe("an invented test in work", () => {
  test("is a draft as any other: so many rows weighed full, nothing decided", () => {
    expect(DraftSchema.safeParse(draft).error?.issues ?? []).toEqual([]);
    expect(draft).toMatchObject({ stage: "weigh full", disposition: null });
    expect(draft.weighings.map((w) => w.fullG !== null)).toEqual(record.weighings.map((_, row) => row < 3));
    for (const field of ["signed", "by", "finishedAt"]) expect(draft).not.toHaveProperty(field);
  });

  test("has on its trail what was entered so far, and no more", () => {
    const weighedFull = draft.trail.filter((item) => item.field === "fullG");
    expect(weighedFull.map((item) => item.to)).toEqual(record.weighings.slice(0, 3).map((w) => w.fullG));
    expect(draft.trail.at(-1)).toEqual(weighedFull.at(-1));
    expect(draft.trail.every((item) => item.field !== "disposition")).toBe(true);
  });

  test("can be taken up at the next row and finished: it ends as the whole test was signed", () => {
    const hands = new Hands();
    hands.run = resumeRun(draft, { ...SETTING, products: demoProducts(), programs: demoPrograms() });
    expect(hands.run.at).toBe(3);
    for (const { fullG } of record.weighings.slice(3)) {
      hands.enters(String(fullG));
      if (hands.run.doubt) hands.enter();
    }
    expect(hands.run.draft.stage).toBe("result");
    const assessed = assessTest(hands.run.draft);
    expect(assessed.ok && assessed.value.verdict).toMatchObject({
      test: record.signed.test,
      product: record.signed.product,
    });
    expect(assessed.ok && assessed.value.lossPct).toBe(record.signed.lossPct);
  });

  test("can be taken back row by row like one that a person weighed", () => {
    const hands = new Hands();
    hands.run = resumeRun(draft, SETTING);
    hands.undoes().undoes();
    expect(hands.run.draft.weighings.filter((w) => w.fullG !== null)).toHaveLength(1);
    expect(hands.run.at).toBe(1);
  });
});
