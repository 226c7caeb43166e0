import { join } from "node:path";
import { expect, test } from "vitest";
import { besides, counted, keysDoc, STACKS } from "./keysDoc.ts";

test("docs/keys.md is what npm run docs:keys writes", async () => {
  await expect(keysDoc()).toMatchFileSnapshot(join(import.meta.dirname, "../../docs/keys.md"));
});

test.each(STACKS)("a test of %i sieves costs the digits, one Enter a weighing and at most ten keys more", (sieves) => {
  const run = counted(sieves);
  expect(run.weighings).toBe(2 * (sieves + 1) + 1);
  expect(besides(run)).toBeLessThanOrEqual(10);
  expect(run.keysByBalance).toBeLessThanOrEqual(10);
});
