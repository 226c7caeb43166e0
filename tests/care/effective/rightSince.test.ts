import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { rightSince, stretchesOf } from "../../../src/care/effective/rightSince.ts";
import type { CareNote } from "../../../src/care/use/life.ts";
import type { Care } from "../../../src/record/care.ts";
import type { Sieve } from "../../../src/record/sieve.ts";

const sieve = (serial: string, more: Partial<Sieve> = {}): Sieve => ({
  schema: "sievewright.sieve/1",
  serial,
  apertureUm: 710,
  ...more,
});
const GOOD = { light: "good", wrinkles: "good", tears: "good", solder: "good", seat: "good" } as const;
const note = (at: string, serial: string, more: Partial<Extract<Care, { did: "inspection" }>> = {}): CareNote => ({
  at,
  care: { did: "inspection", serial, looks: GOOD, ...more },
});
const certificate = { day: "2026-02-01", laboratory: "invented", warp: { meanUm: 712 } };

describe("a stack is known to be right since", () => {
  test("the latest first inspection of its sieves, each by its latest", () => {
    const notes = [
      note("2026-03-01T08:00:00+01:00", "A"),
      note("2026-05-01T08:00:00+01:00", "A"),
      note("2026-04-01T08:00:00+01:00", "B"),
    ];
    expect(rightSince([sieve("A"), sieve("B")], notes)).toBe("2026-05-01T08:00:00+01:00");
  });

  test("first use or certificate of a sieve that was never inspected, whichever came later", () => {
    expect(rightSince([sieve("A", { certificate })], [])).toBe("2026-02-01");
    expect(rightSince([sieve("A", { certificate, firstUse: "2026-03-01" })], [])).toBe("2026-03-01");
    expect(rightSince([sieve("A", { firstUse: "2026-03-01" })], [])).toBeNull();
  });

  test("no moment where one failed its latest inspection, or was not looked at whole", () => {
    const [good, torn] = [note("2026-03-01T08:00:00Z", "A"), { ...GOOD, tears: "faulty" } as const];
    expect(
      rightSince([sieve("A", { certificate })], [good, note("2026-04-01T08:00:00Z", "A", { looks: torn })]),
    ).toBeNull();
    expect(rightSince([sieve("A")], [note("2026-04-01T08:00:00Z", "A", { looks: { light: "good" } })])).toBeNull();
  });
});

describe("tests to be compared", () => {
  const tests = (n: number) =>
    Array.from({ length: n }, (_, k) => ({ k, at: new Date(Date.UTC(2026, 0, 1 + k)).toISOString() }));
  const sizes = { most: 10, fewest: 4 };

  test("are the latest, and as many from right after the stack was right", () => {
    const { now, before } = stretchesOf(tests(30), "2026-01-05T00:00:00Z", sizes);
    expect(before?.map(({ k }) => k)).toEqual([5, 6, 7, 8, 9, 10, 11, 12, 13, 14]);
    expect(now.map(({ k }) => k)).toEqual([20, 21, 22, 23, 24, 25, 26, 27, 28, 29]);
  });

  test("never overlap, and are not split where too few would be left", () =>
    fc.assert(
      fc.property(fc.nat(40), fc.option(fc.nat(40)), (n, since) => {
        const all = tests(n);
        const from = since === null ? null : new Date(Date.UTC(2026, 0, 1 + since, 12)).toISOString();
        const { now, before } = stretchesOf(all, from, sizes);
        expect(now.length).toBeLessThanOrEqual(10);
        if (before === null) {
          expect(now).toEqual(all.slice(-10));
          return;
        }
        expect(before.length).toBeGreaterThanOrEqual(4);
        expect(now.length).toBeGreaterThanOrEqual(4);
        expect(before.every(({ k }) => now.every((one) => one.k > k) && k > (since ?? 0))).toBe(true);
      }),
    ));
});
