import { describe, expect, test } from "vitest";
import type { Product } from "../../src/record/product.ts";
import type { App, Size } from "../../src/screens/place.ts";
import { columnsOf } from "../../src/terminal/sanitise.ts";
import { BARLEY, FILTER_SAND } from "../run/hands.ts";
import { anApp, Stage } from "./stage.ts";

const OLD: Product = { ...FILTER_SAND, revision: 2 };
const FULL: Product = {
  ...FILTER_SAND,
  effective: "2026-10-01",
  approvedBy: "SB",
  method: {
    basis: "charge",
    interpolation: "monotone",
    maxLossPct: 0.3,
    program: "V10",
    chargeG: { min: 250, max: 350 },
  },
  values: [
    { id: "percentileUm", passingPct: 50, min: 690, max: 790 },
    { id: "uniformityCoefficient", max: 2 },
  ],
};
const library = (change: Partial<App> = {}) =>
  new Stage(anApp({ revisions: [OLD, FILTER_SAND, BARLEY], ...change })).types("p");
const pageOf = (product: Product) => {
  const place: App["place"] = { name: "product", product };
  return new Stage(anApp({ place, behind: [{ name: "products", filter: "", at: 0 }] }));
};

describe("the products", () => {
  test("are listed with the revision in force, their sieves and their limits", () => {
    const screen = library().screen();
    expect(screen).toMatch(/▸ +TH-0510 +filter sand 0\.5-1\.0 mm +rev 3, 2 kept +5 sieves, 3 limits/);
    expect(screen).toMatch(/TH-BAR +milled barley +rev 1 +3 sieves, no limits/);
  });

  test("are found by any part of code or name", () => {
    const stage = library().types("barl");
    expect(stage.screen()).not.toContain("TH-0510");
    expect(stage.presses("enter").app.place).toMatchObject({ name: "product", product: { code: "TH-BAR" } });
    expect(library().types("0510").presses("enter").app.place).toMatchObject({ product: { code: "TH-0510" } });
  });

  test("that do not match say how one is added, and Enter opens nothing", () => {
    const stage = library().types("xyz");
    expect(stage.screen()).toContain("none; add one with: sievewright product add FILE");
    expect(stage.presses("enter").app).toMatchObject({ message: "nothing matches", place: { name: "products" } });
  });

  test("are left by Esc, after the filter has gone", () => {
    const stage = library().types("bar").presses("escape");
    expect(stage.app.place).toMatchObject({ name: "products", filter: "" });
    expect(stage.presses("escape").app.place.name).toBe("bench");
  });

  test("open where nothing may be recorded too", () => {
    const stage = library({ readOnly: "another window has this station open" }).presses("down", "enter");
    expect(stage.app.place).toMatchObject({ name: "product", product: { code: "TH-BAR" } });
  });
});

describe("the page of a product", () => {
  test("tells since when it holds, who approved it, how it is tested and on which stack", () => {
    const screen = pageOf(FULL).screen({ columns: 120, rows: 40 });
    expect(screen).toContain("in force from 2026-10-01 · approved by SB");
    expect(screen).toContain(
      "percent of the charge · curve monotone · loss at most 0.3 % · program V10 · charge 250 – 350 g",
    );
    expect(screen).toContain("stack 1.40 mm, 1.00 mm, 710 um, 500 um, 355 um, pan");
    expect(screen).toContain("TH-0510 filter sand 0.5-1.0 mm");
    expect(screen).toContain("revision 3");
  });

  test("tells the defaults where the product says nothing", () => {
    const screen = pageOf(BARLEY).screen({ columns: 120, rows: 40 });
    expect(screen).toContain("in force at once");
    expect(screen).toContain("percent of the recovered total · curve log-linear · no limit on the loss");
    expect(screen).toContain("no limits: tests of this product are assessed, not judged");
  });

  test("names the rule set that its tests are checked by", () => {
    const method = { procedure: { ruleSet: "astm-c136-2020" as const } };
    expect(pageOf({ ...BARLEY, method }).screen({ columns: 120, rows: 40 })).toContain(
      "tests checked by ASTM C136/C136M, as checked in 2020",
    );
    expect(pageOf({ ...BARLEY, method }).screen({ columns: 120, rows: 40 })).toContain("loss at most 0.3 %");
  });

  test("lists every limit, those on apertures first, and draws the envelope", () => {
    const screen = pageOf(FULL).screen({ columns: 100, rows: 40 });
    expect(screen).toMatch(/passing 1\.4 mm +95 – 100 %/);
    expect(screen).toMatch(/d50 +690 – 790 um/);
    expect(screen).toMatch(/Uniformity Cu +≤ 2/);
    expect(screen).toMatch(/╌/);
    expect(screen.indexOf("1.4 mm ")).toBeLessThan(screen.indexOf("d50 "));
  });

  test("is left for the list, by Esc or Enter", () => {
    expect(pageOf(FULL).presses("escape").app.place.name).toBe("products");
    expect(pageOf(FULL).presses("enter").app.place.name).toBe("products");
  });

  const SIZES: readonly Size[] = [
    { columns: 60, rows: 16 },
    { columns: 80, rows: 24 },
    { columns: 160, rows: 50 },
  ];
  test.each(SIZES)("fits $columns x $rows, as does the list", (size) => {
    for (const stage of [pageOf(FULL), pageOf(BARLEY), library()]) {
      const lines = stage.lines(size);
      expect(lines).toHaveLength(size.rows - 1);
      for (const text of lines) expect(columnsOf(text)).toBeLessThanOrEqual(size.columns);
    }
  });
});
