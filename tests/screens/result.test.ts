import { describe, expect, test } from "vitest";
import type { Product } from "../../src/record/product.ts";
import type { App, Size } from "../../src/screens/place.ts";
import { VIEWS } from "../../src/screens/result/views.ts";
import { columnsOf } from "../../src/terminal/sanitise.ts";
import { EMPTY_G, FILTER_SAND, FULL_G, Hands, SETTING } from "../run/hands.ts";
import { anApp, Stage } from "./stage.ts";

const SIZES: readonly Size[] = [
  { columns: 60, rows: 16 },
  { columns: 80, rows: 24 },
  { columns: 100, rows: 30 },
  { columns: 120, rows: 40 },
  { columns: 160, rows: 50 },
];
const onResult = (product: Product = FILTER_SAND, hands = new Hands(SETTING, product).tests()) => {
  const place: App["place"] = { name: "run", run: hands.run, view: 0, writing: null };
  return new Stage(anApp({ place, behind: [{ name: "bench", at: 0 }], drafts: [hands.run.draft] }));
};
const BY_RULES: Product = {
  ...FILTER_SAND,
  method: { program: "V10", procedure: { ruleSet: "astm-c136-2020", endPoint: { required: true } } },
};

describe("the pages of a result", () => {
  test.each(SIZES)("all fill $columns x $rows less one row, and none is wider", (size) => {
    const stage = onResult();
    for (const view of VIEWS) {
      const lines = stage.lines(size);
      expect([view, lines.length]).toEqual([view, size.rows - 1]);
      for (const text of lines) {
        expect(columnsOf(text)).toBeLessThanOrEqual(size.columns);
        expect(text).not.toMatch(/NaN|undefined|Infinity|\[object/);
      }
      stage.types("v");
    }
  });

  test.each(SIZES)("differ from one another at $columns x $rows, and after the last comes the first again", (size) => {
    const stage = onResult();
    const pages = VIEWS.map(() => {
      const page = stage.screen(size);
      stage.types("v");
      return page;
    });
    expect(new Set(pages).size).toBe(VIEWS.length);
    expect(stage.screen(size)).toBe(pages[0]);
  });

  test("say both verdicts on every page", () => {
    const stage = onResult();
    for (const _view of VIEWS) {
      expect(stage.screen()).toContain("TEST VALID ✓  PASS ✓");
      stage.types("v");
    }
  });

  test("have the curve in its envelope, the fractions as bars, and each model with what its fit says", () => {
    const stage = onResult();
    const pages: Record<string, string> = {};
    for (const view of VIEWS) {
      pages[view] = stage.screen();
      stage.types("v");
    }
    expect(pages.passing).toMatch(/passing % .*curve ──.*± ··.*at least/);
    expect(pages.retained).toMatch(/710 um █+.* 37\.4 %/);
    expect(pages.density).toContain("retained % per doubling of size");
    for (const model of ["rosinRammler", "gatesGaudinSchuhmann", "logNormal"]) {
      expect(pages[model]).toMatch(/r2 [01]\.\d{4}/);
      expect(pages[model]).toContain("one standard error");
    }
  });
});

describe("the first page", () => {
  test("has every fraction, the values that the product's people want with their limits, and the closure", () => {
    const screen = onResult().screen();
    expect(screen).toMatch(/1\.40 mm +5\.71 +1\.90 +98\.10 +±0\.\d\d +95 – 100 +✓/);
    expect(screen).toMatch(/pan +4\.50 +1\.50 +0\.00/);
    expect(screen).toMatch(/d50 765 um ±\d\d \(690 – 790 um\) ✓/);
    expect(screen).toContain("loss 0.30 g = 0.10 % (at most 0.3 %)");
    expect(screen).toContain("percent of the recovered total");
  });

  test("has what is coarser where there is room for it", () =>
    expect(onResult().screen({ columns: 120, rows: 40 })).toMatch(/1\.40 mm +5\.71 +1\.90 +1\.90 +98\.10 +±/));

  test("says what decides and what makes it uncertain", () =>
    expect(onResult().screen()).toMatch(
      /decides: d50 765 um ±\d\d, inside 690 to 790 um by 25 um; largest part:\s+apertures, 100 %/,
    ));

  test("shows the remark that was written", () => {
    const stage = onResult().types("r");
    stage.types("lid rattled").presses("enter");
    expect(stage.screen()).toContain("remark: lid rattled");
  });

  test("says that no loss is known without a charge, and that no limit is set where none is", () => {
    const uncharged = new Hands(SETTING, FILTER_SAND).enter(5).weighs(EMPTY_G).shakes().weighs(FULL_G);
    expect(onResult(FILTER_SAND, uncharged).screen()).toContain("loss not known: the charge was not weighed");
    const { method: _method, ...unlimited } = FILTER_SAND;
    expect(onResult(unlimited).screen()).toContain("loss 0.30 g = 0.10 %, no limit set");
  });

  test("names the limit of the rule set where the product gives none of its own", () => {
    expect(onResult(BY_RULES).screen()).toContain("loss 0.30 g = 0.10 % (at most 0.3 %)");
  });

  test("says above or below beside a limit that is missed, and why one can't be told", () => {
    const envelope: Product["envelope"] = [
      { apertureUm: 500, passingPct: { max: 5 } },
      { apertureUm: 600, passingPct: { max: 50 } },
      { apertureUm: 710, retainedPct: { min: 50 } },
    ];
    const stage = onResult({ ...FILTER_SAND, envelope });
    expect(stage.screen()).toContain("FAIL ✗");
    expect(stage.screen()).toMatch(/500 um .* ≤ 5 +✗ above/);
    expect(stage.screen()).toMatch(/710 um .* ret\. ≥ 50 +✗ below/);
    expect(stage.screen({ columns: 140, rows: 40 })).toMatch(
      /600 um passing +envelope ≤ 50 \? +the stack has no 600 um sieve/,
    );
  });

  test("leaves notes that ask for nothing to the page of checks", () => {
    const stage = onResult(BY_RULES);
    expect(stage.screen()).not.toContain("no smallest charge");
    expect(stage.types("v").screen()).toContain("no smallest charge");
  });

  test("has a warning and what to do about it", () => {
    expect(onResult(BY_RULES).screen()).toMatch(/! the end point was not checked: sieve each loaded sieve/);
  });
});

describe("a guarded limit that is met by too little", () => {
  const limited = (passingPct: { min?: number; max?: number }): Product => ({
    ...FILTER_SAND,
    envelope: [{ apertureUm: 710, passingPct }],
    values: [],
    decision: { rule: "guarded" },
    material: { particleDensityKgM3: 2650 },
  });
  const MET: Product = limited({ max: 42 });

  test.each(SIZES)("is borderline, in words, at $columns x $rows", (size) => {
    const screen = onResult(MET).screen(size);
    expect(screen).toContain("BORDERLINE ~");
    expect(screen).toContain("decides: passing 710 um 41.82 %");
    if (size.rows < 24) return;
    const words = screen.replace(/\s+/g, " ");
    expect(words).toMatch(/41\.82 % ±\d\.\d\d, BORDERLINE: inside at most 42 by 0\.18 % points,/);
    expect(words).toMatch(
      /less than its guard band of \d\.\d\d: not sure enough to pass; chance that it conforms \d\d %/,
    );
    expect(words).toMatch(/helps: certified apertures of the sieves/);
  });

  test("has its guard band, its chance and its risk on a page of its own", () => {
    const stage = onResult(MET).types("vv");
    expect(stage.screen()).toContain("how sure is each limit?");
    expect(stage.screen()).toMatch(/passing 710 um +at most 42 +41\.82 +\d\.\d\d +\d\d % +– +borderline ~/);
    expect(stage.screen()).toContain("conforms: the chance that the true value meets the limit");
  });

  test("has its budget by component, and what is not in it with the reason", () => {
    const screen = onResult(MET).types("vvv").screen({ columns: 100, rows: 40 });
    expect(screen).toMatch(/step +loss +sieves +grains +all, k = 2/);
    expect(screen).toMatch(/710 um +0\.0\d +0\.\d\d +\d\.\d\d +0\.\d\d +±\d\.\d\d/);
    expect(screen).toMatch(/not included: repeatability, because the repeatability of the balance is not stated/);
    expect(screen).toContain("readability: each reading within half a step of 0.01 g");
  });

  test("passes with room to spare, and its risk is the customer's", () => {
    const stage = onResult(limited({ max: 60 }));
    expect(stage.screen()).toContain("PASS ✓");
    expect(stage.types("vv").screen()).toMatch(/at most 60 +41\.82 +\d\.\d\d +> 99\.9 % +< 0\.1 % +within ✓/);
  });

  test("that an invalid test is of decides nothing", () => {
    const { method, ...product } = MET;
    const stage = onResult({ ...product, method: { ...method, maxLossPct: 0.01 } });
    expect(stage.screen()).toContain("TEST INVALID !");
    expect(stage.screen()).not.toContain("decides:");
  });
});

test("nothing is ever said to pass less than 0 or more than 100 %", () => {
  const stage = onResult();
  for (const _view of VIEWS) {
    expect(stage.screen({ columns: 120, rows: 50 })).not.toMatch(/-0\.\d+ –|– 100\.[0-9]*[1-9]|[^–]-\d+\.\d+ %/);
    stage.types("v");
  }
});

describe("the page of checks", () => {
  const checks = (product: Product, size?: Size) => onResult(product).types("v").screen(size);

  test("answers each question that was asked, and names those that were not", () => {
    const screen = checks(BY_RULES, { columns: 100, rows: 40 });
    expect(screen).toContain("is the test valid? by ASTM C136/C136M");
    expect(screen).toMatch(/✓ loss +loss 0\.300 g \(0\.10 %\), limit 0\.3 %/);
    expect(screen).toMatch(/\? end point +the end point was not checked/);
    expect(screen).toContain("not asked by this product: balance");
    expect(screen).toContain("rules in force");
    expect(screen).toMatch(/at most 7 kg\/m2 below 4\.75 mm, .* · ASTM\s+C136\/C136M-19, clause 8/);
  });

  test("tells what is wrong before it tells the rules, so that a low window still shows it", () => {
    const lines = checks(BY_RULES, { columns: 80, rows: 24 }).split("\n");
    const wrong = lines.findIndex((text) => text.includes("! the end point was not checked"));
    const rules = lines.findIndex((text) => text.includes("rules in force"));
    expect(wrong).toBeGreaterThan(0);
    expect(rules === -1 || rules > wrong).toBe(true);
  });

  test("shows as a warning what leaves the test valid, with why the shaking was cut short on the first page", () => {
    const ended = (deviation?: "warning") => {
      const procedure = { ruleSet: "own" as const, ...(deviation ? { program: { deviation } } : {}) };
      const product: Product = { ...FILTER_SAND, method: { maxLossPct: 0.3, program: "V10", procedure } };
      const hands = new Hands(SETTING, product).setsOut().weighs(EMPTY_G);
      hands.does({ type: "shakingStarted", at: hands.moment() });
      hands.does({ type: "shakingSkipped", reason: "the clamp came loose", at: hands.moment() });
      return onResult(product, hands.weighs(FULL_G));
    };
    const lenient = ended("warning");
    expect(lenient.screen()).toMatch(/TEST VALID ✓/);
    expect(lenient.screen()).toContain("shaking cut short: the clamp came loose");
    expect(lenient.types("v").screen()).toMatch(/! program/);
    const strict = ended();
    expect(strict.screen()).toMatch(/TEST INVALID !/);
    expect(strict.screen()).toContain("shaking cut short: the clamp came loose");
    expect(strict.types("v").screen()).toMatch(/✗ program/);
  });

  test("of a product without a rule set says so", () => {
    expect(checks(FILTER_SAND)).toContain("by the product's own limits; it names no rule set");
  });
});

describe("from the result", () => {
  test("w leads into the values and Esc back again, v and Esc to the weighings and on", () => {
    const stage = onResult().types("w");
    expect(stage.app.place).toMatchObject({ name: "values", at: 0 });
    expect(stage.screen()).toMatch(/▸ Effective size/);
    expect(stage.presses("down", "down", "up").app.place).toMatchObject({ at: 1 });
    expect(stage.presses("escape").app.place).toMatchObject({ name: "run", run: { draft: { stage: "result" } } });
    expect(stage.presses("escape").app.place).toMatchObject({ run: { draft: { stage: "weigh full" } } });
  });

  test("a read-only station shows everything and signs nothing", () => {
    const stage = onResult();
    stage.app = { ...stage.app, readOnly: "another window has this station open" };
    expect(stage.presses("enter").app).toMatchObject({ place: { name: "run" }, message: stage.app.readOnly });
    expect(stage.types("v").screen()).toContain("is the test valid?");
  });

  test.each(SIZES)("the values fit $columns x $rows with the one in hand among them", (size) => {
    const stage = onResult().types("w");
    for (let i = 0; i < 23; i++) {
      const lines = stage.lines(size);
      expect(lines.length).toBe(size.rows - 1);
      expect(lines.filter((text) => text.includes("▸"))).toHaveLength(1);
      expect(lines.some((text) => /^ +here /.test(text))).toBe(true);
      if (size.rows >= 24) expect(lines.some((text) => /^ +formula /.test(text))).toBe(true);
      stage.presses("down");
    }
  });
});
