import { describe, expect, test } from "vitest";
import { endPointOf } from "../../src/procedure/endPoint/endPoint.ts";
import { aashtoT27, astmC136, astmC136Older, en9331 } from "../../src/procedure/rules/aggregates.ts";
import type { RuleSet } from "../../src/procedure/rules/ruleSet.ts";
import { asaeS319, iso2591, usp786 } from "../../src/procedure/rules/trades.ts";
import published from "./examples/procedure-limits.json" with { type: "json" };

const CHARGE_G = 500;
/** A sieve of the stack with so much on it, and so much through it in the check. */
const state = ({ endPoint }: RuleSet, heldG: number, passedG: number): string => {
  const reading = { apertureUm: 300, beforeG: heldG, afterG: heldG - passedG };
  if (endPoint === null) return "no end point";
  return endPointOf(endPoint, [reading], [{ apertureUm: 300, netG: heldG }], CHARGE_G).state;
};

describe("criteria as published", () => {
  test.each([
    // Technician checklist for ASTM C136/C136M-14, 09/2020 (seen)
    ["astm-c136-2020", astmC136, published.endPoint.c136Newer],
    // ASTM C136, editions up to 2006 (memory)
    ["astm-c136-2006", astmC136Older, published.endPoint.c136Older],
    // WAQTC field operating procedure, 2011 (seen)
    ["aashto-t27-2011", aashtoT27, published.endPoint.t27],
    // EN 933-1 (memory)
    ["en-933-1-2012", en9331, published.endPoint.en933],
    // ISO 2591-1 (memory)
    ["iso-2591-1-1988", iso2591, published.endPoint.iso2591],
  ] as const)("%s", (id, set, criterion) => {
    expect(set.id).toBe(id);
    expect(set.endPoint).toMatchObject({
      of: criterion.ofPct,
      limitPct: criterion.limitPct,
      periodS: 60,
      sieves: "every",
      standing: criterion.status,
    });
    expect(set.endPoint?.below ?? false).toBe(!criterion.inclusive);
  });

  test("ANSI/ASAE S319, earlier edition (memory): 0.2 % of the charge in 5 min on the finest loaded sieve", () =>
    expect(asaeS319.endPoint).toMatchObject({
      of: "charge",
      limitPct: 0.2,
      periodS: 300,
      sieves: "finest loaded",
      standing: "memory",
    }));

  test("USP 786 (memory): 5 % or 0.1 g of what the sieve holds in 5 min, 20 % where it holds little", () =>
    expect(usp786.endPoint).toMatchObject({
      of: "residue",
      limitPct: 5,
      orG: 0.1,
      small: { belowPct: 5, limitPct: 20 },
      periodS: 300,
      standing: "memory",
    }));
});

describe("the same minute on the same sieve, 25 g held of a charge of 500 g", () => {
  test("0.3 g passed: complete by C136 of 2020 and T 27, not by the wording up to 2006", () => {
    expect(state(astmC136, 25, 0.3)).toBe("reached");
    expect(state(aashtoT27, 25, 0.3)).toBe("reached");
    expect(state(astmC136Older, 25, 0.3)).toBe("not reached");
    expect(state(en9331, 25, 0.3)).toBe("not reached");
  });

  test("the two wordings differ tenfold: 2.5 g against 0.25 g", () => {
    expect(state(astmC136, 25, 2.5)).toBe("reached");
    expect(state(astmC136, 25, 2.51)).toBe("not reached");
    expect(state(astmC136Older, 25, 0.25)).toBe("reached");
    expect(state(astmC136Older, 25, 0.251)).toBe("not reached");
  });

  test("exactly 1 % of the residue: enough for 'not more than', not for 'less than'", () => {
    expect(state(astmC136Older, 25, 0.25)).toBe("reached");
    expect(state(en9331, 25, 0.25)).toBe("not reached");
    expect(state(en9331, 25, 0.249)).toBe("reached");
  });

  test("ISO 2591-1 asks for less than 0.1 % of the charge, 0.5 g", () => {
    expect(state(iso2591, 25, 0.49)).toBe("reached");
    expect(state(iso2591, 25, 0.5)).toBe("not reached");
  });
});

describe("where the wordings meet", () => {
  test("a sieve that holds half of the charge passes the same 2.5 g by both C136 wordings", () => {
    expect(state(astmC136, 250, 2.5)).toBe("reached");
    expect(state(astmC136Older, 250, 2.5)).toBe("reached");
    expect(state(astmC136, 250, 2.51)).toBe("not reached");
    expect(state(astmC136Older, 250, 2.51)).toBe("not reached");
  });

  test("a sieve that holds more than half is judged more kindly by the older one", () => {
    expect(state(astmC136, 400, 3)).toBe("not reached");
    expect(state(astmC136Older, 400, 3)).toBe("reached");
  });
});
