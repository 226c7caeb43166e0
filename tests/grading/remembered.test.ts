import { expect, test } from "vitest";
import { remembered } from "../../src/grading/remembered.ts";

test("works once for each object, whatever the result", () => {
  const asked: string[] = [];
  const lengthOf = remembered(({ name }: { name: string }) => {
    asked.push(name);
    return name === "none" ? undefined : name.length;
  });
  const [one, none] = [{ name: "one" }, { name: "none" }];
  expect([lengthOf(one), lengthOf(none), lengthOf(one), lengthOf(none)]).toEqual([3, undefined, 3, undefined]);
  expect(asked).toEqual(["one", "none"]);
});

test("another object of the same content is worked out anew", () => {
  const touched = remembered((thing: { n: number }) => ({ double: 2 * thing.n }));
  expect(touched({ n: 2 })).not.toBe(touched({ n: 2 }));
});
