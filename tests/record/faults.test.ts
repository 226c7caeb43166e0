import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { z } from "zod";
import { firstFault, pathText } from "../../src/record/faults.ts";
import { day, moment, text } from "../../src/record/fields.ts";

describe("a path as people write it", () => {
  test.each([
    [[], ""],
    [["schema"], "schema"],
    [["weighings", 2, "fullG"], "weighings[2].fullG"],
    [[0], "[0]"],
    [["a", 0, 1, "b"], "a[0][1].b"],
    [["Größe", "d_50@x-1"], "Größe.d_50@x-1"],
    [["a b"], '"a b"'],
    [["a.b", "c[0]"], '"a.b"."c[0]"'],
    [[""], '""'],
    [["a\u001b[2J"], '"a?[2J"'],
    [["x".repeat(99)], `"${"x".repeat(27)}..."`],
  ])("%j is %s", (path, words) => expect(pathText(path)).toBe(words));

  test("is one printable line whatever the names", () =>
    fc.assert(
      fc.property(fc.array(fc.oneof(fc.string({ unit: "binary" }), fc.nat())), (path) => {
        expect(pathText(path)).toMatch(/^[^\p{Cc}\p{Zl}\p{Zp}]*$/u);
      }),
    ));
});

const told = (schema: z.ZodType, json: unknown) => {
  const read = schema.safeParse(json);
  if (read.success) return "no fault";
  const { path, reason } = firstFault(read.error, json);
  return `${pathText(path)} ${reason}`.trim();
};

describe("a complaint in the words of whoever wrote the file", () => {
  const form = z.strictObject({
    word: text(5).min(1).optional(),
    count: z.int().min(1).max(9).optional(),
    share: z.number().gt(0).lt(100).optional(),
    day: day.optional(),
    at: moment.optional(),
    way: z.enum(["log", "line"]).optional(),
    yes: z.boolean().optional(),
    list: z.array(z.number()).min(2).max(3).optional(),
    pairs: z.record(z.string(), z.number()).optional(),
    inner: z.strictObject({ needed: z.number() }).optional(),
  });
  test.each([
    [[], "must be an object { ... }"],
    [null, "must be an object { ... }"],
    ["x", "must be an object { ... }"],
    [{ word: 5 }, "word must be text in quotes"],
    [{ word: "" }, "word is empty"],
    [{ word: "123456" }, "word is longer than 5 characters"],
    [{ word: "a\tb" }, "word has control or broken characters"],
    [{ count: "1" }, "count must be a number"],
    [{ count: 1.5 }, "count must be a whole number"],
    [{ count: 0 }, "count must be at least 1"],
    [{ count: 10 }, "count must be at most 9"],
    [{ share: 0 }, "share must be above 0"],
    [{ share: 100 }, "share must be below 100"],
    [{ share: Number.POSITIVE_INFINITY }, "share is too large for a number"],
    [{ share: null }, "share must be a number"],
    [{ day: "24.11.2026" }, "day is not a day like 2026-11-24"],
    [{ day: 20_261_124 }, "day must be text in quotes"],
    [{ at: "2026-11-24T03:12" }, "at is not a time with its offset like 2026-11-24T03:12:05+01:00"],
    [{ way: "spline" }, 'way must be "log" or "line"'],
    [{ yes: "true" }, "yes must be true or false"],
    [{ list: [1] }, "list must have at least 2 items"],
    [{ list: [1, 2, 3, 4] }, "list must have at most 3 items"],
    [{ list: [1, "2"] }, "list[1] must be a number"],
    [{ list: { 0: 1, 1: 2 } }, "list must be a list [ ... ]"],
    [{ pairs: { a: "1" } }, "pairs.a must be a number"],
    [{ pairs: [] }, "pairs must be an object { ... }"],
    [{ inner: {} }, "inner.needed is missing"],
    [{ inner: { needed: 1, more: 2 } }, "inner.more is an unknown field"],
    [{ toString: 1 }, "toString is an unknown field"],
  ])("%j: %s", (json, words) => expect(told(form, json)).toBe(words));
});

describe("of several forms that are allowed", () => {
  const forms = z.strictObject({
    limit: z.union(
      [
        z.strictObject({ um: z.number().positive(), passing: z.strictObject({ max: z.number().max(100) }) }),
        z.strictObject({ um: z.number().positive(), retained: z.strictObject({ max: z.number().max(100) }) }),
      ],
      "needs um and one of passing, retained",
    ),
  });
  test.each([
    ["the one that nearly fits speaks", { um: 5, passing: { max: 120 } }, "limit.passing.max must be at most 100"],
    ["also deep inside", { um: 5, retained: { max: "9" } }, "limit.retained.max must be a number"],
    ["a field that no form knows is named", { um: 5, passing: { max: 1 }, x: 1 }, "limit.x is an unknown field"],
    ["neither form", { um: 5 }, "limit needs um and one of passing, retained"],
    [
      "both at once",
      { um: 5, passing: { max: 1 }, retained: { max: 1 } },
      "limit needs um and one of passing, retained",
    ],
    ["something else altogether", 5, "limit needs um and one of passing, retained"],
    ["nothing", undefined, "limit needs um and one of passing, retained"],
    ["null", null, "limit needs um and one of passing, retained"],
  ])("%s", (_, limit, words) => expect(told(forms, { limit })).toBe(words));

  const wishes = z.array(
    z.discriminatedUnion("id", [
      z.strictObject({ id: z.literal("modulus"), series: z.enum(["a", "b"]) }),
      z.strictObject({ id: z.enum(["span", "mean"]) }),
    ]),
  );
  test.each([
    [[{ id: "span" }, { id: "modulos" }], '[1].id is not known: "modulos"'],
    [[{}], "[0].id is missing"],
    [[{ id: 5 }], '[0].id is not known: "5"'],
    [[{ id: null }], '[0].id is not known: "null"'],
    [[{ id: { toString: 1 } }], '[0].id is not known: "{"toString":1}"'],
    [[{ id: "modulus" }], '[0].series must be "a" or "b"'],
    [[{ id: "mean", series: "a" }], "[0].series is an unknown field"],
    [["span"], "[0] must be an object { ... }"],
  ])("with a name that chooses: %j", (json, words) => expect(told(wishes, json)).toBe(words));
});

test("never throws, whatever JSON comes in, and the reason is one line", () => {
  const form = z.strictObject({ a: z.union([z.number(), z.strictObject({ b: z.array(z.string()) })]) });
  fc.assert(
    fc.property(
      fc.oneof(
        fc.jsonValue(),
        fc.jsonValue().map((a) => ({ a })),
      ),
      (json) => {
        expect(told(form, json)).toMatch(/^[^\p{Cc}]+$/u);
      },
    ),
  );
});
