import type { Draft } from "../record/draft.ts";
import type { TestRecord } from "../record/test.ts";

/** The test as it stood when only so many of its rows had been weighed full: a draft to take up again. */
export function inWork(test: TestRecord, weighedFull: number): Draft {
  const { finishedAt: _finishedAt, by: _by, signed: _signed, ...entered } = test;
  const weighings = test.weighings.map((w, row) => (row < weighedFull ? w : { ...w, fullG: null }));
  const left = test.weighings.length - weighedFull;
  const trail = test.trail.slice(0, test.trail.length - 1 - left);
  return { schema: "sievewright.draft/1", stage: "weigh full", ...entered, weighings, trail, disposition: null };
}
