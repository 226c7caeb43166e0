import { join } from "node:path";
import { expect, test } from "vitest";
import { besides, counted, keysDoc, STACKS, WAYS } from "./keysDoc.ts";

test("docs/keys.md is what npm run docs:keys writes", async () => {
  await expect(keysDoc()).toMatchFileSnapshot(join(import.meta.dirname, "../../docs/keys.md"));
});

const RUNS = STACKS.flatMap((sieves) => WAYS.map((way) => [sieves, way] as const));

test.each(RUNS)(
  "a test of %i sieves, %s, costs the digits, one Enter a weighing and at most ten keys more",
  (sieves, way) => {
    const run = counted(sieves, way);
    expect(run.weighings).toBe(way === "taken over" ? sieves + 3 : 2 * (sieves + 1) + 1);
    expect(besides(run)).toBeLessThanOrEqual(way === "taken over" ? 11 : 10);
    expect(run.keysByBalance).toBeLessThanOrEqual(way === "taken over" ? 11 : 10);
  },
);

test("empty masses taken over cost one key for all sieves, whatever the stack; the pan is weighed", () => {
  const saved = STACKS.map((sieves) => counted(sieves, "set of sieves").keys - counted(sieves, "taken over").keys);
  expect(saved).toEqual(STACKS.map((sieves) => sieves * "412.31".length + sieves - 1));
});
