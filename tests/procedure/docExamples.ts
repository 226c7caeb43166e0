import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { expect, test } from "vitest";

const examplesIn = (source: string) =>
  [...source.matchAll(/^ \* @example (?<call>.+) \/\/ => (?<result>.+)$/gm)].map(
    (match) => match.groups as Record<string, string>,
  );

const evaluate = (expression: string, names: Record<string, unknown>): unknown =>
  new Function(...Object.keys(names), `return (${expression})`)(...Object.values(names));

/** One test for every `@example call // => result` in the docstrings of a room. */
export function testExamplesOf(room: string, fewest: number): void {
  const folder = join(import.meta.dirname, "../../src", room);
  const files = readdirSync(folder, { recursive: true, encoding: "utf8" }).filter((name) => name.endsWith(".ts"));
  const cases = files.flatMap((file) =>
    examplesIn(readFileSync(join(folder, file), "utf8")).map(({ call, result }) => ({ file, call, result })),
  );

  test(`the examples of ${room} are found`, () => expect(cases.length).toBeGreaterThanOrEqual(fewest));

  test.each(cases)("the example in $file holds: $call // => $result", async ({ file, call, result }) => {
    const exported = await import(pathToFileURL(join(folder, file)).href);
    expect(evaluate(call ?? "", exported)).toEqual(evaluate(result ?? "", {}));
  });
}
