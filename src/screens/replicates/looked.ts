import { type RepeatedTests, repeatedTests } from "../../assess/repeatedTests.ts";
import { remembered } from "../../grading/remembered.ts";
import type { ReplicatesPlace } from "./places.ts";

/** What the same tests came to, by which of them were taken out. */
const known = remembered((_tests: ReplicatesPlace["tests"]) => new Map<string, RepeatedTests>());

/** The tests that are not taken out, looked at together. */
export function lookedAt({ tests, out }: ReplicatesPlace): RepeatedTests {
  const key = out.toSorted((a, b) => a - b).join(" ");
  const there = known(tests).get(key) ?? repeatedTests(tests.filter(({ number }) => !out.includes(number)));
  known(tests).set(key, there);
  return there;
}
