import { describe, expect, test } from "vitest";
import type { Matter } from "../../src/record/indexRow.ts";
import { type Matters, mattersInOrder, takeMatters } from "../../src/store/openMatters.ts";

const opening = (number: number) => ({ kind: "hold opened", number }) as Matter;
const closing = (number: number, of: number) => ({ kind: "hold closed", number, hold: { number: of } }) as Matter;
const limits = (number: number) => ({ kind: "limits frozen", number }) as Matter;
const none = (): Matters => ({ matters: new Map(), seen: new Map() });
const numbersOf = ({ matters }: Matters) => mattersInOrder(matters).map(({ number }) => number);

describe("matters taken in month by month", () => {
  test("a hold and its closing go when they meet, whichever comes first; limits stay", () => {
    const months = { "2026-10": [opening(1), opening(2), limits(3)], "2026-11": [closing(4, 1), limits(5)] };
    const forwards = none();
    for (const [month, its] of Object.entries(months)) takeMatters(forwards, month, its);
    const backwards = none();
    for (const [month, its] of Object.entries(months).reverse()) takeMatters(backwards, month, its);
    expect(numbersOf(forwards)).toEqual([2, 3, 5]);
    expect(numbersOf(backwards)).toEqual([2, 3, 5]);
  });

  test("a month that has grown gives what is new alone, and one as before nothing", () => {
    const known = none();
    expect(takeMatters(known, "2026-10", [opening(1), closing(2, 1)])).toBe("taken");
    expect(takeMatters(known, "2026-10", [opening(1), closing(2, 1)])).toBe("as before");
    expect(takeMatters(known, "2026-10", [opening(1), closing(2, 1), opening(3)])).toBe("taken");
    expect(numbersOf(known)).toEqual([3]);
  });

  test("a month that lost something, or has it otherwise, is told and changes nothing", () => {
    const known = none();
    takeMatters(known, "2026-10", [opening(1), closing(2, 1)]);
    expect(takeMatters(known, "2026-10", [opening(1)])).toBe("otherwise");
    expect(takeMatters(known, "2026-10", [opening(1), opening(3)])).toBe("otherwise");
    expect(numbersOf(known)).toEqual([]);
  });

  test("a thousand holds opened and closed leave one small count a month", () => {
    const known = none();
    const its = Array.from({ length: 1000 }, (_, i) => [opening(2 * i + 1), closing(2 * i + 2, 2 * i + 1)]).flat();
    takeMatters(known, "2026-10", its);
    expect(known.matters.size).toBe(0);
    expect([...known.seen]).toEqual([["2026-10", { count: 2000, last: 2000 }]]);
  });
});
