import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { spansBetween } from "../../../src/control/limits/spans.ts";
import { hour } from "../hourly.ts";

const moments = Array.from({ length: 10 }, (_, i) => hour(i));
const places = (restarts: Parameters<typeof spansBetween>[1]) =>
  spansBetween(moments, restarts).map(({ from, to, why }) => [from, to, why]);

describe("tests are parted", () => {
  test("not at all without a change", () => {
    expect(spansBetween(moments, [])).toEqual([
      { from: 0, to: 9, why: null, startMs: Number.NEGATIVE_INFINITY, endMs: Number.POSITIVE_INFINITY },
    ]);
  });

  test("by a change between two of them", () => {
    expect(places([{ at: hour(3.5), why: "deck changed" }])).toEqual([
      [0, 3, null],
      [4, 9, "deck changed"],
    ]);
  });

  test("so that a test at the moment of a change comes after it", () => {
    expect(places([{ at: hour(4), why: "feed" }])).toEqual([
      [0, 3, null],
      [4, 9, "feed"],
    ]);
  });

  test("by changes in any order of being told", () => {
    const restarts = [
      { at: hour(7.5), why: "second" },
      { at: hour(1.5), why: "first" },
    ];
    expect(places(restarts)).toEqual([
      [0, 1, null],
      [2, 7, "first"],
      [8, 9, "second"],
    ]);
  });

  test("once by changes with no test between them, which are told together", () => {
    const restarts = [
      { at: hour(4.2), why: "deck changed" },
      { at: hour(4.6), why: "feed 12 t/h" },
    ];
    expect(places(restarts)).toEqual([
      [0, 4, null],
      [5, 9, "deck changed; feed 12 t/h"],
    ]);
  });

  test("by no change after the last of them", () => {
    expect(places([{ at: hour(20), why: "later" }])).toEqual([[0, 9, null]]);
  });

  test("by a change before the first, which then begins the first stretch", () => {
    expect(places([{ at: hour(-5), why: "dryer 130 C" }])).toEqual([[0, 9, "dryer 130 C"]]);
    expect(spansBetween(moments, [{ at: hour(-5), why: "dryer" }])[0]?.startMs).toBe(Date.parse(hour(-5)));
  });

  test("by instants, whatever the offset they are written with", () => {
    const change = { at: "2026-03-01T05:30:00+02:00", why: "deck" };
    expect(places([change])).toEqual([
      [0, 3, null],
      [4, 9, "deck"],
    ]);
  });

  test("by no change whose moment can't be read", () => {
    expect(places([{ at: "soon", why: "x" }])).toEqual([[0, 9, null]]);
  });
});

test("no tests, no stretches", () => expect(spansBetween([], [{ at: hour(1), why: "x" }])).toEqual([]));

test("every test is in exactly one stretch, between the moments that bound it", () => {
  fc.assert(
    fc.property(fc.array(fc.double({ min: -3, max: 12, noNaN: true }), { maxLength: 8 }), (hours) => {
      const spans = spansBetween(
        moments,
        hours.map((at, i) => ({ at: hour(at), why: `change ${i}` })),
      );
      const covered = spans.flatMap(({ from, to }) => Array.from({ length: to - from + 1 }, (_, i) => from + i));
      expect(covered).toEqual(moments.map((_, i) => i));
      for (const { from, to, startMs, endMs } of spans) {
        expect(Date.parse(moments[from] ?? "")).toBeGreaterThanOrEqual(startMs);
        expect(Date.parse(moments[to] ?? "")).toBeLessThan(endMs);
      }
    }),
  );
});
