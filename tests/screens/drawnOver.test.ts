import { describe, expect, test } from "vitest";
import { assessTest } from "../../src/assess/assessTest.ts";
import { corrected } from "../../src/assess/correctionOf.ts";
import type { CareKnown } from "../../src/care/known.ts";
import type { Product } from "../../src/record/product.ts";
import type { App, Size } from "../../src/screens/place.ts";
import { VIEWS } from "../../src/screens/result/views.ts";
import { indexRowOf } from "../../src/store/indexRowOf.ts";
import { columnsOf } from "../../src/terminal/sanitise.ts";
import { knownOf } from "../care/knownWorld.ts";
import { EMPTY_G, FILTER_SAND, FULL_G, Hands, SETTING } from "../run/hands.ts";
import { A, sieves } from "../run/knownSieves.ts";
import { must } from "../store/opened.ts";
import { plain } from "./amending.ts";
import { anApp, recordedEntry, Stage } from "./stage.ts";

const CERTIFIED: Product = { ...FILTER_SAND, method: { ...FILTER_SAND.method, apertures: "certified" } };
/** Each sieve a little wider than its name, the finest a little finer; one may have no certificate. */
const known = (without: number | null = null) =>
  knownOf([
    ...sieves("a").map((sieve) => {
      if (sieve.apertureUm === without) return sieve;
      const meanUm = sieve.apertureUm * (sieve.apertureUm === 355 ? 0.995 : 1.005);
      const warp = { meanUm };
      return { ...sieve, certificate: { day: "2026-01-08", laboratory: "Invented Metrology", warp, expandedUm: 1 } };
    }),
    A,
  ]);

const weighed = (without: number | null = null): Hands => weighedWith(known(without));

function weighedWith(care: CareKnown): Hands {
  const setting = { ...SETTING, products: [CERTIFIED], care };
  return new Hands(setting, CERTIFIED).toField("chargeG").enters("300.20").weighs(EMPTY_G).shakes().weighs(FULL_G);
}

function onResult(hands: Hands): Stage {
  const place: App["place"] = {
    name: "run",
    run: { ...hands.run, draft: { ...hands.run.draft, stage: "result" } },
    view: 0,
    writing: null,
  };
  return new Stage(anApp({ place, behind: [{ name: "bench", at: 0 }], drafts: [hands.run.draft] }));
}

const SIZES: readonly Size[] = [
  { columns: 60, rows: 16 },
  { columns: 80, rows: 24 },
  { columns: 120, rows: 40 },
];

describe("the result of a product that draws its curve over certified apertures", () => {
  const stage = onResult(weighed());

  test("has what passes at the nominal aperture beside its limit, and says over what the curve is drawn", () => {
    const screen = stage.screen();
    expect(screen).toMatch(/aperture +net g +passing % +at nominal/);
    expect(screen).toMatch(/1\.00 mm +56\.46 +79\.27 +78\.\d\d +±0\.\d\d +75 – 95 +✓/);
    expect(screen).toContain("over certified mean apertures");
  });

  test.each(SIZES)("is never wider than $columns columns on any page, nor higher than $rows rows", (size) => {
    const paged = onResult(weighed());
    for (const view of VIEWS) {
      const lines = paged.lines(size);
      expect([view, lines.length]).toEqual([view, size.rows - 1]);
      for (const text of lines) expect(columnsOf(text)).toBeLessThanOrEqual(size.columns);
      paged.types("v");
    }
  });

  test("tells on the page of checks what each mean aperture rests on", () => {
    const checks = onResult(weighed()).types("v").screen({ columns: 120, rows: 40 });
    expect(checks).toContain("the curve is drawn over certified mean apertures");
    expect(checks).toMatch(/710 um +S-710-a +713\.\d um +\d\d\.\d\d +certificate of 2026-01-08, Invented Metrology/);
  });

  test("says on its first page why a limit at an aperture that the curve does not reach is open", () => {
    const narrow = knownOf([
      ...sieves("a").map((sieve) => ({
        ...sieve,
        certificate: {
          day: "2026-01-08",
          laboratory: "Lab",
          warp: { meanUm: sieve.apertureUm * 0.995 },
          expandedUm: 1,
        },
      })),
      A,
    ]);
    const screen = onResult(weighedWith(narrow)).screen();
    expect(screen).toMatch(/1\.40 mm +5\.71 +98\.10 +– .* 95 – 100 +\?/);
    expect(screen).toContain("? at 1.40 mm: above 1.393 mm (that sieve holds 1.9 %)");
    expect(onResult(weighed()).screen()).not.toContain("? at ");
  });

  test("without a certificate of one sieve judges nothing, and says which", () => {
    const lacking = onResult(weighed(500)).screen();
    expect(lacking).toMatch(/PRODUCT NOT JUDGED|NOT JUDGED/);
    expect(lacking.replaceAll(/\s+/g, " ")).toContain("the 500 um sieve (S-500-a): it has no certificate");
  });
});

describe("the set-out page of such a product", () => {
  const app = (without: number | null) => anApp({ products: [CERTIFIED], care: known(without) } as Partial<App>);

  test("says what the curve needs, and what is lacking once the set is taken", () => {
    const stage = new Stage(app(500)).types("n");
    expect(stage.screen().replaceAll(/\s+/g, " ")).toContain(
      "this product's curve is drawn over certified mean apertures: tell the set, or scan each sieve",
    );
    stage.presses("enter", "enter", "enter", "enter", "enter");
    expect(stage.screen().replaceAll(/\s+/g, " ")).toContain("no size will be determined: the 500 um sieve (S-500-a)");
  });

  test("says that all is known where it is", () => {
    const stage = new Stage(app(null)).types("n").presses("enter", "enter", "enter", "enter", "enter");
    expect(stage.screen().replaceAll(/\s+/g, " ")).toContain(
      "certified mean apertures: those of these sieves are known",
    );
  });

  test("says at once which limit these sieves leave undeterminable", () => {
    const warp = { meanUm: 1390 };
    const inside = knownOf([
      ...sieves("a").map((sieve) => {
        const own = sieve.apertureUm === 1400 ? warp : { meanUm: sieve.apertureUm };
        const certificate = { day: "2026-01-08", laboratory: "Invented Metrology", warp: own, expandedUm: 1 };
        return { ...sieve, certificate };
      }),
      A,
    ]);
    const stage = new Stage(anApp({ products: [CERTIFIED], care: inside } as Partial<App>)).types("n");
    stage.presses("enter", "enter", "enter", "enter", "enter");
    for (const size of SIZES) {
      const lines = stage.lines(size);
      expect(lines.join(" ").replaceAll(/\s+/g, " ")).toContain("no limit at 1.40 mm");
      for (const line of lines) expect(line.length).toBeLessThanOrEqual(size.columns);
    }
    const judged = assessTest(weighedWith(inside).run.draft);
    const limits = judged.ok ? judged.value.verdict.limits : [];
    expect(limits.filter(({ result }) => result === "not determinable").map(({ on }) => on)).toEqual([
      "passingPct@1400",
    ]);
  });

  test("is silent about it for a curve over nominal apertures", () =>
    expect(new Stage(anApp({ care: known() })).types("n").screen()).not.toContain("drawn over"));
});

describe("such a test on record", () => {
  const { schema: _schema, stage: _stage, ...entered } = weighed().run.draft;
  const entry = recordedEntry(7);
  const test7 = { ...entry.test, ...entered, lot: "4471-B" };
  const history = plain({ ...entry, test: test7 });

  test("is corrected with its own copies of the mean apertures, whatever the register says by then", () => {
    const from = test7.weighings[2]?.fullG ?? 0;
    const after = must(corrected(history, [{ field: "fullG", apertureUm: 710, from, to: from - 5 }], "0.2.0"));
    expect(after.meanApertures).toEqual(test7.meanApertures);
    const [before, now] = [must(assessTest(test7)), must(assessTest(after))];
    expect(now.apertures?.of.map(({ known: one }) => one?.meanUm)).toEqual(
      before.apertures?.of.map(({ known: one }) => one?.meanUm),
    );
    expect(now.percentilesUm["50"]).not.toEqual(before.percentilesUm["50"]);
  });

  test("stands in the index with what passes at the nominal apertures, and that its curve is drawn over others", () => {
    const row = indexRowOf({ ...entry, test: test7 });
    const { apertures } = must(assessTest(test7));
    expect(row.apertures).toBe("certified");
    for (const { apertureUm, passing } of apertures?.of ?? []) {
      expect(row.passingPct[`${apertureUm}`]).toBeCloseTo(passing.determinable ? passing.value : -1, 5);
    }
    expect(indexRowOf(recordedEntry(7))).not.toHaveProperty("apertures");
  });
});
