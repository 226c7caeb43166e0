import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { z } from "zod";
import * as kinds from "../../src/record/kinds.ts";
import { currentVersion, type Kind, readRecord, schemaOf } from "../../src/record/migrate.ts";

interface Label {
  schema: "sievewright.label/3";
  name: string;
  sizesUm: number[];
}

/** A kind with a history: version 1 had one size, version 2 a list of them in mm. */
const labelKind: Kind<Label> = {
  name: "label",
  schema: z.strictObject({
    schema: z.literal("sievewright.label/3"),
    name: z.string(),
    sizesUm: z.array(z.number().positive()),
  }),
  lifts: [
    ({ sizeMm, ...rest }) => ({ ...rest, sizesMm: [sizeMm] }),
    ({ sizesMm, ...rest }) => ({ ...rest, sizesUm: (sizesMm as number[]).map((mm) => mm * 1000) }),
  ],
};

const read = (json: unknown) => readRecord(JSON.stringify(json), labelKind);
const why = (json: unknown) => {
  const outcome = read(json);
  return outcome.is === "read" ? "" : outcome.why;
};

describe("reading a stored file", () => {
  test("gives the record of the current version as it stands", () => {
    const label: Label = { schema: "sievewright.label/3", name: "A", sizesUm: [500, 250] };
    expect(read(label)).toEqual({ is: "read", value: label });
  });

  test("lifts a file of the version before", () =>
    expect(read({ schema: "sievewright.label/2", name: "A", sizesMm: [0.5] })).toEqual({
      is: "read",
      value: { schema: "sievewright.label/3", name: "A", sizesUm: [500] },
    }));

  test("lifts a file of the first version through every step between", () =>
    expect(read({ schema: "sievewright.label/1", name: "A", sizeMm: 0.25 })).toEqual({
      is: "read",
      value: { schema: "sievewright.label/3", name: "A", sizesUm: [250] },
    }));

  test("finds damage in an old file after lifting it", () =>
    expect(read({ schema: "sievewright.label/2", name: 7, sizesMm: [0.5] })).toEqual({
      is: "damaged",
      why: "damaged at name: expected string, received number",
    }));

  test("passes over a byte-order mark and spaces around", () => {
    const text = '\uFEFF\r\n {"schema":"sievewright.label/3","name":"A","sizesUm":[]} \r\n';
    expect(readRecord(text, labelKind)).toMatchObject({ is: "read", value: { name: "A" } });
  });

  test("knows a newer version by its number and names both", () =>
    expect(read({ schema: "sievewright.label/4", anything: 1 })).toEqual({
      is: "newer version",
      why: "written by a newer Sievewright (sievewright.label/4; this one knows sievewright.label/3)",
    }));

  test.each(["", "   ", "\uFEFF", "\n"])("says that %j is empty, which is not the same as having no record", (text) =>
    expect(readRecord(text, labelKind)).toEqual({ is: "not JSON", why: "the file is empty" }),
  );

  test.each(["{", "half", '{"schema":"sievewright.label/3","na', "\u0000\u0000", "[1,]", "NaN", "{'a':1}"])(
    "says that %j is not JSON",
    (text) => expect(readRecord(text, labelKind)).toEqual({ is: "not JSON", why: "the file is not JSON" }),
  );

  test.each([null, 0, false, "sievewright.label/3", [], {}, { schema: 3 }, { schema: null }])(
    "says that %j has no schema",
    (json) => expect(why(json)).toBe("expected sievewright.label/3, found no schema"),
  );

  test.each([
    "sievewright.draft/3",
    "label/3",
    "sievewright.label",
    "sievewright.label/0",
    "sievewright.label/-1",
    "sievewright.label/03",
    "sievewright.label/3.0",
    " sievewright.label/3",
    "Sievewright.label/3",
    "sievewright.label/9999999",
  ])("says that %j is another kind", (schema) => {
    expect(read({ schema, name: "A", sizesUm: [] })).toMatchObject({ is: "wrong kind" });
    expect(why({ schema })).toContain(JSON.stringify(schema));
  });

  test("says where the damage is, counting from one as people do", () =>
    expect(why({ schema: "sievewright.label/3", name: "A", sizesUm: [1, 2, "three"] })).toBe(
      "damaged at sizesUm, item 3: expected number, received string",
    ));

  test("takes a field that it doesn't know for damage and drops nothing", () =>
    expect(why({ schema: "sievewright.label/3", name: "A", sizesUm: [], colour: "red", note: "" })).toBe(
      'damaged at the top level: unknown field "colour", "note"',
    ));

  test("takes the name that objects inherit by for an unknown field too", () => {
    const text = '{"schema":"sievewright.label/3","name":"A","sizesUm":[],"__proto__":{"x":1}}';
    expect(readRecord(text, labelKind)).toMatchObject({ is: "damaged", why: expect.stringContaining("__proto__") });
  });

  test("says which field is missing", () =>
    expect(why({ schema: "sievewright.label/3", sizesUm: [] })).toMatch(/^damaged at name: expected string/));

  test("has an answer to any text and never throws", () =>
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.json()), (text) => {
        expect(["not JSON", "wrong kind"]).toContain(readRecord(text, labelKind).is);
      }),
    ));

  test("a very deep file is an outcome, not a crash", () => {
    const deep = `{"schema":"sievewright.label/3","name":${"[".repeat(200_000)}${"]".repeat(200_000)},"sizesUm":[]}`;
    expect(readRecord(deep, labelKind).is).not.toBe("read");
  });
});

describe("the kinds of a station's files", () => {
  const all = Object.values(kinds) as Kind<unknown>[];

  test("each have a name of their own", () => expect(new Set(all.map(({ name }) => name)).size).toBe(all.length));

  test.each(all.map((kind) => [kind.name, kind] as const))(
    "%s: its schema is of the version that its lifts lead to",
    (_, kind) => {
      const wrong = kind.schema.safeParse({ schema: `sievewright.${kind.name}/99` });
      const issues = wrong.error?.issues.filter(({ path }) => path[0] === "schema") ?? [];
      expect(issues).toHaveLength(1);
      const right = kind.schema.safeParse({ schema: schemaOf(kind) });
      expect(right.error?.issues.filter(({ path }) => path[0] === "schema") ?? []).toEqual([]);
      expect(schemaOf(kind)).toBe(`sievewright.${kind.name}/${currentVersion(kind)}`);
    },
  );
});
