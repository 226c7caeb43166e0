import { describe, expect, test } from "vitest";
import type { TrailItem } from "../../src/record/test.ts";
import { trailLine } from "../../src/report/trailWords.ts";
import { inLanguage } from "../words/tongues.ts";

const AT = "2026-11-24T03:12:05+01:00";
const started: TrailItem = { at: AT, field: "shaking", from: null, to: "started" };
const remark: TrailItem = { at: AT, field: "remark", from: null, to: "nothing" };
const mass: TrailItem = { at: AT, apertureUm: 1400, field: "fullG", from: 418.02, to: 418.2 };

describe("an entry of the trail", () => {
  test("reads in English as it was recorded", () => {
    expect(trailLine(started)).toBe("03:12:05  shaking  started");
    expect(trailLine(mass)).toBe("03:12:05  1.40 mm full  418.02 -> 418.2");
    expect(trailLine({ ...started, to: "skipped: dust" })).toBe("03:12:05  shaking  skipped: dust");
  });

  test("is said in other languages but for what somebody typed", async () => {
    const [run, typed, cut, weighed] = await inLanguage("de", () => [
      trailLine(started),
      trailLine(remark),
      trailLine({ ...started, to: "skipped: nothing" }),
      trailLine(mass),
    ]);
    expect(run).toMatch(/begonnen$/);
    expect(typed).toBe("03:12:05  Bemerkung  nothing");
    expect(cut).toMatch(/: nothing$/);
    expect(cut).not.toContain("skipped");
    expect(weighed).toBe("03:12:05  1,40 mm voll  418,02 -> 418,2");
  });
});
