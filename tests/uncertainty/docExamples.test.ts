import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { expect, test } from "vitest";

const room = join(import.meta.dirname, "../../src/uncertainty");
const files = readdirSync(room, { recursive: true, encoding: "utf8" }).filter((name) => name.endsWith(".ts"));

const examplesIn = (source: string) =>
  [...source.matchAll(/^ \* (?:@example )?(?<call>\w+\(.*\)) \/\/ => (?<result>.+)$/gm)].map(
    (m) => m.groups as Record<string, string>,
  );

const evaluate = (expression: string, names: Record<string, unknown>): unknown =>
  new Function(...Object.keys(names), `return (${expression})`)(...Object.values(names));

const cases = files.flatMap((file) =>
  examplesIn(readFileSync(join(room, file), "utf8")).map(({ call, result }) => ({ file, call, result })),
);

test("the examples are found", () => expect(cases.length).toBeGreaterThan(12));

test.each(cases)("the example in $file holds: $call // => $result", async ({ file, call, result }) => {
  const exported = await import(pathToFileURL(join(room, file)).href);
  expect(evaluate(call ?? "", exported)).toEqual(evaluate(result ?? "", {}));
});
