import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type EditRow,
  editRows,
  withBound,
  withOtherRule,
  withoutRow,
  withWish,
} from "../../../src/envelope/revisions/edits.ts";
import { newAperture, valueChoices } from "../../../src/envelope/revisions/newLimit.ts";
import { draftFrom, type ProductDraft, ProductDraftSchema } from "../../../src/record/productDraft.ts";
import { FULL_PRODUCT } from "./fullProduct.ts";

const DRAFT = draftFrom(FULL_PRODUCT, "KO", "2026-11-24T08:00:00+01:00");
const names = (rows: readonly EditRow[]) =>
  rows.map(({ on, min, max }) => {
    const name = on.kind === "aperture" ? `${on.share}@${on.apertureUm}` : on.wish.id;
    return `${name} ${min ?? ""}..${max ?? ""}`;
  });
const rowOf = (draft: ProductDraft, name: string): EditRow => {
  const rows = editRows(draft);
  const row = rows[names(rows).findIndex((one) => one.startsWith(`${name} `))];
  if (!row) throw new Error(`no row ${name}`);
  return row;
};
const set = (draft: ProductDraft, name: string, side: "min" | "max", bound: number | null) =>
  withBound(draft, rowOf(draft, name), side, bound);

describe("the rows of an envelope", () => {
  test("are what passes each sieve, with a limit or not, other limits among them, then the values", () =>
    expect(names(editRows(DRAFT))).toEqual([
      "passingPct@1400 ..",
      "passingPct@1000 75..95",
      "passingPct@710 ..",
      "retainedPct@710 10..40",
      "passingPct@500 ..",
      "coarserPct@500 80..97",
      "passingPct@355 ..",
      "percentileUm 690..790",
      "uniformityCoefficient 1..2",
      "finenessModulus 1.9..2.5",
    ]));

  test("hold a limit on an aperture that the stack lacks, and one that is only wished for", () => {
    const off = { ...DRAFT, envelope: [{ apertureUm: 250, passingPct: { max: 5 } }], values: [] };
    const more = [{ kind: "aperture", share: "retainedPct", apertureUm: 1400 } as const];
    expect(names(editRows(off, more))).toContain("passingPct@250 ..5");
    expect(names(editRows(off, more))).toContain("retainedPct@1400 ..");
  });
});

describe("an edit", () => {
  test("sets one side and leaves the other", () => {
    const edited = set(DRAFT, "passingPct@1000", "max", 90);
    expect(edited).toMatchObject({ ok: true });
    expect(edited.ok && edited.value.envelope?.[0]).toEqual({
      apertureUm: 1000,
      passingPct: { min: 75, max: 90 },
      decision: FULL_PRODUCT.envelope?.[0]?.decision,
    });
  });

  test("adds a limit where there was none, in the order of the apertures", () => {
    const edited = set(DRAFT, "passingPct@1400", "min", 99);
    expect(edited.ok && edited.value.envelope?.[0]).toEqual({ apertureUm: 1400, passingPct: { min: 99 } });
  });

  test("that takes the last side away takes the limit away; a value stays asked for", () => {
    const open = { ...DRAFT, envelope: [{ apertureUm: 500, coarserPct: { min: 80 } }] };
    const edited = set(open, "coarserPct@500", "min", null);
    expect(edited.ok && edited.value.envelope).toEqual([]);
    const max = set(DRAFT, "uniformityCoefficient", "max", null);
    const both = max.ok ? set(max.value, "uniformityCoefficient", "min", null) : max;
    expect(both.ok && both.value.values?.[1]).toEqual({
      id: "uniformityCoefficient",
      decision: FULL_PRODUCT.values?.[1]?.decision,
    });
  });

  test("keeps what else a value says", () => {
    const edited = set(DRAFT, "finenessModulus", "max", 2.6);
    expect(edited.ok && edited.value.values?.[2]).toEqual({
      id: "finenessModulus",
      series: "en",
      interpolateMissing: true,
      min: 1.9,
      max: 2.6,
    });
  });

  test.each([
    ["passingPct@1000", "min", 96, "at least 96 is above at most 95: nothing could meet both"],
    ["percentileUm", "max", 600, "at least 690 is above at most 600: nothing could meet both"],
    ["passingPct@355", "max", 101, "101 % is no share of a whole: it lies between 0 and 100"],
    ["passingPct@355", "max", -1, "-1 % is no share of a whole: it lies between 0 and 100"],
  ] as const)("of %s %s to %d is refused: %s", (name, side, bound, reason) =>
    expect(set(DRAFT, name, side, bound)).toEqual({ ok: false, reason }),
  );

  test("removes a row: the limit, or the value altogether", () => {
    expect(withoutRow(DRAFT, rowOf(DRAFT, "retainedPct@710")).envelope).toHaveLength(2);
    expect(withoutRow(DRAFT, rowOf(DRAFT, "percentileUm")).values?.map(({ id }) => id)).toEqual([
      "uniformityCoefficient",
      "finenessModulus",
    ]);
  });

  test("asks for a value once", () => {
    expect(withWish(DRAFT, { id: "relativeSpan" })).toMatchObject({ ok: true });
    expect(withWish(DRAFT, { id: "percentileUm", passingPct: 50 })).toMatchObject({ ok: false });
    expect(withWish(DRAFT, { id: "percentileUm", passingPct: 10 })).toMatchObject({ ok: true });
  });

  test("turns the decision to the other rule and back, the comparison and the guard band stay", () => {
    expect(withOtherRule(DRAFT).decision).toEqual({ ...FULL_PRODUCT.decision, rule: "simple" });
    expect(withOtherRule(withOtherRule(DRAFT)).decision).toEqual(DRAFT.decision);
    const { decision: _, ...undecided } = DRAFT;
    expect(withOtherRule(undecided).decision).toEqual({ rule: "guarded" });
  });

  test("never makes a draft that could not be stored, and changes nothing that it was given", () =>
    fc.assert(
      fc.property(
        fc.array(
          fc.tuple(
            fc.nat(12),
            fc.constantFrom("min", "max"),
            fc.option(fc.double({ noNaN: true, noDefaultInfinity: true })),
            fc.nat(5),
          ),
        ),
        (edits) => {
          const before = structuredClone(DRAFT);
          let draft: ProductDraft = DRAFT;
          for (const [at, side, bound, what] of edits) {
            const row = editRows(draft)[at];
            if (!row) continue;
            const edited = withBound(draft, row, side as "min" | "max", bound);
            if (what === 0) draft = withoutRow(draft, row);
            else if (edited.ok) draft = edited.value;
          }
          expect(ProductDraftSchema.safeParse(draft).error).toBeUndefined();
          expect(DRAFT).toEqual(before);
        },
      ),
    ));
});

describe("a new limit", () => {
  test.each([
    ["500", "passingPct", 500],
    ["2,36 mm", "passingPct", 2360],
    ["No. 30", "passingPct", 600],
    ["retained 500", "retainedPct", 500],
    ["Coarser 1.4 mm", "coarserPct", 1400],
    ["passing 3/8 in.", "passingPct", 9500],
  ])("%s is %s at %d um", (text, share, apertureUm) =>
    expect(newAperture(text)).toEqual({ ok: true, value: { kind: "aperture", share, apertureUm } }),
  );

  test("on no aperture says what an aperture looks like", () =>
    expect(newAperture("retained fish")).toMatchObject({
      ok: false,
      reason: expect.stringMatching(/names no aperture/),
    }));

  test("on a value is found by label, id or percentile", () => {
    expect(valueChoices("d63")[0]?.wish).toEqual({ id: "percentileUm", passingPct: 63 });
    expect(valueChoices("fineness")[0]?.wish).toEqual({ id: "finenessModulus" });
    expect(valueChoices("phi median sorting")).toEqual([]);
    expect(valueChoices("")).toHaveLength(24);
    expect(valueChoices("d0").map(({ wish }) => wish.id)).not.toContain("percentileUm");
  });
});
