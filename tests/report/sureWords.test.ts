import { describe, expect, test } from "vitest";
import type { Product } from "../../src/record/product.ts";
import { chanceText, sureAt, sureOn, sureText } from "../../src/report/sureFigures.ts";
import { budgetTable, chanceTable, includedWords, notIncludedWords } from "../../src/report/sureTable.ts";
import { decidesWords } from "../../src/report/sureWords.ts";
import { assessed, product } from "./assessed.ts";

const HEAD = "# charge_g: 100\naperture_um,net_g\n";
const guarded = (change: Partial<Product>) =>
  product("TH-PG3", {
    values: [],
    decision: { rule: "guarded" },
    material: { particleDensityKgM3: 1050 },
    uncertainty: { apertures: "none" },
    ...change,
  });
const on2800 = (passingPct: { min?: number; max?: number }) => ({ envelope: [{ apertureUm: 2800, passingPct }] });
/** 6 % on 2.8 mm, a few hundred grains. */
const GRANULES = `${HEAD}4000,0\n2800,6\n2000,80\npan,14\n`;
const words = (sheet: string, against: Product) => decidesWords(assessed(sheet, against).howSure);

describe("what decides, in words", () => {
  test("a met limit: where the number lies, its guard band, what makes it uncertain", () => {
    const [line, ...more] = words(GRANULES, guarded(on2800({ min: 80 })));
    expect(line).toMatch(
      /^decides: passing 2\.8 mm 94\.00 % ±\d\.\d\d, inside at least 80 by 14\.00 % points, guard band \d\.\d\d; largest part: count of grains, \d+ %$/,
    );
    expect(more).toEqual([]);
  });

  test("a borderline one: that it is not sure enough, the chance, and the charge that decides it", () => {
    const [line, helps] = words(GRANULES, guarded(on2800({ min: 93.6 })));
    expect(line).toMatch(
      /BORDERLINE: inside at least 93\.6 by 0\.40 % points, less than its guard band of \d\.\d\d: not sure enough to pass/,
    );
    expect(line).toMatch(/chance that it conforms \d\d(\.\d)? %/);
    expect(helps).toMatch(
      /^helps: a charge of \d+ g instead of 100 g makes this limit decidable; \d+ grains lie on 2\.8 mm or coarser, about \d+ would do$/,
    );
  });

  test("the charge that helps does help", () => {
    const [, helps = ""] = words(GRANULES, guarded(on2800({ min: 93.6 })));
    const times = Number(/charge of (\d+) g/.exec(helps)?.[1]) / 100;
    expect(times).toBeGreaterThan(1);
    const [two, one, pan] = [6, 80, 14].map((netG) => (netG * times).toFixed(2));
    const larger = `# charge_g: ${100 * times}\naperture_um,net_g\n4000,0\n2800,${two}\n2000,${one}\npan,${pan}\n`;
    expect(assessed(larger, guarded(on2800({ min: 93.6 }))).verdict.product).toBe("pass");
  });

  test("a missed one that rejection is guarded for is not sure enough to fail", () => {
    const decision = { rule: "guarded", guards: "rejection" } as const;
    expect(words(GRANULES, guarded({ ...on2800({ min: 94.3 }), decision }))[0]).toMatch(
      /BORDERLINE: outside at least 94\.3 by 0\.30 % points, less than .* not sure enough to fail/,
    );
  });

  test("too few grains to judge a narrow limit are counted", () => {
    const few = `${HEAD}4000,0\n2800,0.6\n2000,85.4\npan,14\n`;
    expect(words(few, guarded(on2800({ min: 99.7, max: 100 }))).join(" ")).toMatch(
      /\d+ grains on 2\.8 mm or coarser: too few to judge at least 99\.7 % passing, about \d+ would do/,
    );
  });

  test("nothing where nothing is limited", () => expect(words(GRANULES, guarded({ envelope: [] }))).toEqual([]));
});

describe("figures of sureness", () => {
  test("a chance is never certain", () => {
    expect([0, 0.0002, 0.0456, 0.5, 0.937, 0.9996, 1].map(chanceText)).toEqual([
      "< 0.1 %",
      "< 0.1 %",
      "4.6 %",
      "50 %",
      "93.7 %",
      "> 99.9 %",
      "> 99.9 %",
    ]);
  });

  test("beside a size in mm it is in mm too, and in the budget all sizes are in um", () => {
    const { howSure } = assessed(GRANULES, guarded({ values: [{ id: "percentileUm", passingPct: 50, max: 4000 }] }));
    expect(sureText(sureOn(howSure, "percentileUm@50"))).toMatch(/^±0\.\d+ mm$/);
    expect(budgetTable(howSure, ["percentileUm@50"], 80).at(-1)).toMatch(/^d50, um .* ±\d+(\.\d)?$/);
  });

  test("a size in mm has its bounds, its distance and its guard band in mm as well", () => {
    const against = guarded({ values: [{ id: "percentileUm", passingPct: 50, min: 2900, max: 3150 }] });
    const { howSure } = assessed(GRANULES, against);
    expect(chanceTable(howSure).join("\n")).toMatch(/d50 +2\.9 to 3\.15 mm +2\.\d\d mm/);
    expect(decidesWords(howSure)[0]).toMatch(/outside 2\.9 to 3\.15 mm by 0\.\d+ mm, guard band 0\.\d+ mm;/);
  });

  test("a dash where no source of uncertainty is known, not a zero", () => {
    const off = guarded({ uncertainty: { apertures: "none", off: ["loss", "grains"] } });
    const { howSure } = assessed(GRANULES, off);
    expect(sureText(sureAt(howSure, 2800))).toBe("–");
    expect(budgetTable(howSure, [], 80)).toEqual(["no source of uncertainty is known or counted"]);
    expect(notIncludedWords(howSure)).toContain(
      "not included: loss, count of grains, because switched off by the product",
    );
  });
});

describe("the tables", () => {
  const known = { balance: { readabilityG: 0.01, repeatabilityG: 0.02, linearityG: 0.02, driftG: 0.02 } };
  const against = guarded({
    ...on2800({ min: 93.6 }),
    uncertainty: { sampling: { sdPctAt50: 0.5 }, remainderPct: 0.1 },
  });
  const { howSure } = assessed(GRANULES, against, { known });

  test("have all components side by side where there is room, else the balance as one", () => {
    expect(budgetTable(howSure, [], 120)[0]).toMatch(
      /step +repeat +linear +drift +loss +sieves +grains +sample +end +all, k = 2$/,
    );
    const narrow = budgetTable(howSure, [], 70);
    expect(narrow[0]).toMatch(/^ +balance +loss +sieves +grains +sample +end +all, k = 2$/);
    for (const row of narrow) expect(row.length).toBeLessThanOrEqual(70);
  });

  test("have each limit once, with its guard band and what it is called", () => {
    expect(chanceTable(howSure)).toHaveLength(2);
    expect(chanceTable(howSure)[1]).toMatch(
      /^passing 2\.8 mm +at least 93\.6 +94\.00 +\d\.\d\d +\d\d(\.\d)? % +– +borderline ~$/,
    );
  });

  test("what was taken for each component is told", () => {
    for (const label of ["readability", "drift of the zero", "apertures", "sampling", "end point"])
      expect(includedWords(howSure)).toContain(`${label}: `);
  });
});
