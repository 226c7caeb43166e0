import { describe, expect, test } from "vitest";
import { aboveCoarsest, belowFinest } from "../../src/grading/bounds.ts";
import { graded } from "./stack.ts";

describe("below the finest sieve", () => {
  test("the pan's share", () => {
    expect(belowFinest(graded("500:86 63:0 pan:14"))).toBe("below 63 um (pan holds 14 %)");
    expect(belowFinest(graded("500:86.3 63:0 pan:13.7"))).toBe("below 63 um (pan holds 13.7 %)");
  });

  test("a trace and nothing are told apart", () => {
    expect(belowFinest(graded("500:99.99 pan:0.01"))).toBe("below 500 um (pan holds less than 0.1 %)");
    expect(belowFinest(graded("500:99.99 pan:0"))).toBe("below 500 um (pan holds 0 %)");
  });

  test("what was washed out counts as the pan's", () => {
    expect(belowFinest(graded("500:80 pan:5", { chargeG: 100, washedG: 85 }))).toBe("below 500 um (pan holds 20 %)");
  });

  test("what was lost is named when the charge is the basis", () => {
    const lossy = graded("500:80 pan:15", { basis: "charge", chargeG: 100 });
    expect(belowFinest(lossy)).toBe("below 500 um (pan and loss hold 20 %)");
  });
});

test("above the coarsest sieve: what it holds", () => {
  expect(aboveCoarsest(graded("4750:2.5 pan:97.5"))).toBe("above 4.75 mm (that sieve holds 2.5 %)");
  expect(aboveCoarsest(graded("710:0 pan:97.5"))).toBe("above 710 um (that sieve holds 0 %)");
});
