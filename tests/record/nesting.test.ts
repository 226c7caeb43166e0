import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readRecord } from "../../src/record/migrate.ts";
import { isTooDeep } from "../../src/record/nesting.ts";

const nested = (levels: number): string => "[".repeat(levels) + "]".repeat(levels);

/** How deep a value nests, by walking it. */
const depthOf = (json: unknown): number =>
  typeof json === "object" && json !== null ? 1 + Math.max(0, ...Object.values(json).map(depthOf)) : 0;

describe("a JSON text nests too deep", () => {
  test("from the sixty-fifth level on, whatever the brackets", () => {
    expect(isTooDeep(nested(64))).toBe(false);
    expect(isTooDeep(nested(65))).toBe(true);
    expect(isTooDeep(`${'{"a":'.repeat(64)}1${"}".repeat(64)}`)).toBe(false);
    expect(isTooDeep(`${'[{"a":'.repeat(33)}1${"}]".repeat(33)}`)).toBe(true);
  });

  test("not by brackets that stand in strings, nor by many side by side", () => {
    expect(isTooDeep(JSON.stringify("[".repeat(1000)))).toBe(false);
    expect(isTooDeep(JSON.stringify(`\\"${"{[".repeat(1000)}\\`))).toBe(false);
    expect(isTooDeep(`[${Array(1000).fill("[[]]").join(",")}]`)).toBe(false);
  });

  test("exactly when the value in it does", () =>
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 6 }), fc.integer({ min: 55, max: 70 }), (value, around) => {
        const text = "[".repeat(around) + JSON.stringify(value) + "]".repeat(around);
        expect(isTooDeep(text)).toBe(depthOf(JSON.parse(text)) > 64);
      }),
    ));

  test("and is answered at once, however long it goes on", () => {
    const began = performance.now();
    expect(isTooDeep("[".repeat(100_000_000))).toBe(true);
    expect(performance.now() - began).toBeLessThan(1000);
  });
});

test("a stored file that nests too deep is not JSON of ours, and nothing of it is parsed", () => {
  const kind = { name: "any", schema: { safeParse: () => expect.unreachable() } as never, lifts: [] };
  expect(readRecord("[".repeat(50_000_000), kind)).toEqual({
    is: "not JSON",
    why: "the file nests brackets deeper than any record does",
  });
});
