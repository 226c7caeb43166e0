import { describe, expect, test } from "vitest";
import { type PageHead, resultPage } from "../../src/report/page.ts";
import { pageCurve } from "../../src/report/pageCurve.ts";
import { asciiTwin } from "../../src/terminal/asciiTwin.ts";
import { columnsOf } from "../../src/terminal/sanitise.ts";
import { assessed, product } from "./assessed.ts";

const th0510 = product("TH-0510");
const head: PageHead = { product: th0510, lot: "4471-B", line: "Dryer 1", printed: "evaluated at night", decimals: 2 };
const page = (assessment = assessed("TH-0510.csv", th0510), change: Partial<PageHead> = {}, width = 80) =>
  resultPage(assessment, { ...head, ...change }, { width, curve: [] });

test("one page tells whose result, both verdicts, fractions, values with limits, and what the numbers rest on", () =>
  expect(page()).toMatchInlineSnapshot(`
    "TH-0510  Filter sand 0.5-1.0 mm (invented)  revision 3
    lot 4471-B   line Dryer 1
    TEST VALID ✓   PRODUCT PASS ✓
    ────────────────────────────────────────────────────────────────────────────────
    masses in g, shares in % by mass
    aperture   empty    full     net  retained  passing  ± k = 2  envelope
    1.40 mm   412.31  418.02    5.71      1.90    98.10    ±0.68  95 – 100  within ✓
    1.00 mm   398.74  455.20   56.46     18.83    79.27    ±3.65  75 – 95  within ✓
    710 um    381.20  484.80  103.60     34.54    44.72    ±4.57  30 – 60  within ✓
    500 um    366.95  465.35   98.40     32.81    11.91    ±2.49  3 – 20  within ✓
    355 um    359.40  391.20   31.80     10.60     1.31    ±0.47  max 5  within ✓
    pan       354.10  358.03    3.93      1.31     0.00

    charge 300.20 g   recovered 299.90 g   loss 0.30 g (0.10 %)
    met ✓  charge 300.2 g, wanted at least 200.0 g, at most 350.0 g
    met ✓  loss 0.300 g (0.10 %), limit 0.3 %

    d10                  470 um        ±31
    d50                  748 um        ±29  690 um – 790 um  within ✓
    d90                 1.21 mm  ±0.035 mm
    Uniformity Cu          1.76      ±0.13  max 2  within ✓
    Effective size d10   470 um        ±31  400 um – 560 um  within ✓

    decides: passing 1 mm 79.27 % ±3.65, inside 75 to 95 by 4.27 % points; largest
      part: apertures, 100 %

                                limit   found  guard  conforms     risk
    passing 1.4 mm          95 to 100   98.10      –  > 99.9 %  < 0.1 %  within ✓
    passing 1 mm             75 to 95   79.27      –    99.0 %    1.0 %  within ✓
    passing 710 um           30 to 60   44.72      –  > 99.9 %  < 0.1 %  within ✓
    passing 500 um            3 to 20   11.91      –  > 99.9 %  < 0.1 %  within ✓
    passing 355 um          at most 5    1.31      –  > 99.9 %  < 0.1 %  within ✓
    d50                 690 to 790 um  748 um      –    99.8 %    0.2 %  within ✓
    Effective size d10  400 to 560 um  470 um      –  > 99.9 %  < 0.1 %  within ✓
    Uniformity Cu           at most 2    1.76      –  > 99.9 %  < 0.1 %  within ✓
    conforms: the chance that the true value meets the limit.
    guard: how far inside (or outside) a result must be to be decided; – where the
        rule is simple.
    risk: of what is within, the chance that it should not be (the customer's risk);
        of what is outside, the chance that it should not be (the producer's). A
        borderline result is decided neither way.

    standard uncertainty (k = 1) by component, % passing or the unit of the value
                         loss sieves grains all, k = 2
    1.40 mm              0.01   0.33   0.06 ±0.68
    1.00 mm              0.03   1.82   0.11 ±3.65
    710 um               0.05   2.28   0.08 ±4.57
    500 um               0.07   1.24   0.03 ±2.49
    355 um               0.07   0.22   0.00 ±0.47
    d50, um              0.35     14   0.62 ±29
    Effective siz…, um    1.0     16   0.35 ±31
    Uniformity Cu      0.0033  0.064 0.0012 ±0.13
    d10, um               1.0     16   0.35 ±31
    d90, um              0.36     17    1.6 ±35
    loss: lost from one fraction, or (chance 0.50) dust from the pan; apertures: no
      certificates: all 5 sieves within the tolerance Y; count of grains: spheres of
      2650 kg/m3, drawn one by one
    not included: readability, repeatability, linearity, drift of the zero, because
      nothing is known of the balance
    not included: sampling, because nothing is said about how the charge was sampled
      from the lot
    not included: end point, because nothing is said about how far sieving had come

    ────────────────────────────────────────────────────────────────────────────────
    Percentages are of the recovered total, by mass.
    Between sieves passing % is read in a straight line over the logarithm of the
      aperture (log-linear); nothing is read beyond them.
    ± is the expanded uncertainty U = 2 u (k = 2), about 95 %; where it would reach
      beyond what can be, the ends are given.
    Limits are inclusive; values are compared as computed, unrounded; simple
      acceptance.
    A pass here is no certificate of any law or licence.
    evaluated at night
    "
  `));

describe("the table", () => {
  test("leaves out empty and full where only net masses were given", () => {
    const text = page(assessed("aperture_um,net_g\n125,60\n63,30\npan,10\n"), { product: null });
    expect(text).toMatch(/^aperture {4}net {2}retained {2}coarser {2}passing +± k = 2$/m);
    expect(text).not.toContain("empty");
  });

  test("shows masses with the balance's decimals", () => expect(page(undefined, { decimals: 3 })).toContain("412.310"));

  test("shows a passing % beside the limit that it misses with digits enough to see it", () => {
    const sheet = "aperture_um,net_g\n1400,4.9996\n355,95.0003\npan,0.0001\n";
    const limited = product("TH-0510", { envelope: [{ apertureUm: 1400, passingPct: { max: 95 } }], values: [] });
    expect(page(assessed(sheet, limited), { product: limited })).toMatch(
      /95\.0004 +(±\S+|\d\S* – \S+) {2}max 95 {2}above ✗/,
    );
  });
});

describe("the two verdicts are never mixed", () => {
  test("an invalid test is told as such, and says nothing of the product", () => {
    const text = page(assessed("# charge_g: 310\naperture_um,net_g\n1000,100\n355,199\npan,1\n", th0510));
    expect(text).toContain("TEST INVALID !   PRODUCT NOT JUDGED –\n  an invalid test proves nothing about the product");
    expect(text).toMatch(/^! test invalid: \S.*3\.2/m);
  });

  test("each check of the test that was asked for stands with its state, and a notice with what to do", () => {
    const text = page(assessed("# charge_g: 100\naperture_um,net_g\n1000,33\n355,66\npan,0.9\n", th0510));
    expect(text).toMatch(/^met ✓ {2}loss 0\.100 g/m);
    expect(text).toMatch(/^NOT MET ! {2}.*charge/m);
    expect(text).toMatch(/^! warning: a charge of 100\.0 g is too small.* To do:$/m);
    expect(text).toMatch(/^ {4}split a portion of at least 200\.0 g/m);
    expect(page(assessed("TH-0510.csv"), { product: null })).not.toMatch(/met ✓/);
  });

  test("a rule set that was asked for is named", () => {
    const ruled = product("TH-0510", { method: { maxLossPct: 0.3, procedure: { ruleSet: "astm-c136-2020" } } });
    expect(page(assessed("TH-0510.csv", ruled), { product: ruled })).toMatch(/^test checked by .*C136/m);
  });

  test("a product without limits is not judged, and says why", () =>
    expect(page(assessed("TH-0510.csv"), { product: null })).toContain(
      "No product\nlot 4471-B   line Dryer 1\nTEST NOT CHECKED ?   PRODUCT NOT JUDGED –\n  there is nothing to judge against\n",
    ));

  test("limits that could not be determined are counted, and each says why", () => {
    const text = page(assessed("# charge_g: 300\naperture_um,net_g\n1400,6\n1000,60\n500,200\npan,34\n", th0510));
    expect(text).toContain("PRODUCT NOT JUDGED –");
    expect(text).toMatch(/^ {2}\d of 8 limits could not be determined$/m);
    expect(text).toMatch(/^passing 710 um +30 % – 60 % {2}not determinable \?\n {4}the stack has no 710 um sieve/m);
  });

  test("a failing product names the limits that it misses", () => {
    const text = page(
      assessed("# charge_g: 300\naperture_um,net_g\n1400,30\n1000,100\n710,90\n500,60\n355,15\npan,5\n", th0510),
    );
    expect(text).toContain("PRODUCT FAIL ✗");
    expect(text).toMatch(/^1\.40 mm.* 90\.00 +±\S+ {2}95 – 100 {2}below ✗$/m);
    expect(text).toMatch(/^d50 .*690 um – 790 um {2}above ✗$/m);
  });
});

describe("the values", () => {
  test("stand in the product's own order", () => {
    const shown = product("TH-0510", {
      show: ["uniformityCoefficient", "percentileUm@90", "finenessModulus"],
      values: [],
    });
    const text = page(assessed("TH-0510.csv", shown), { product: shown });
    const at = ["Uniformity Cu", "d90", "Fineness modulus"].map((label) => text.indexOf(`\n${label}`));
    expect(at.every((place) => place > 0)).toBe(true);
    expect(at).toEqual(at.toSorted((a, b) => a - b));
    expect(text).not.toMatch(/^d50/m);
  });

  test("a limited value is shown even if nobody asked for it", () => {
    const limited = product("TH-0510", { show: ["percentileUm@10"] });
    expect(page(assessed("TH-0510.csv", limited), { product: limited })).toMatch(/^d50 .*within ✓$/m);
  });

  test("a limit on a percentile of one's own is read from the curve", () => {
    const own = product("TH-0510", { show: [], values: [{ id: "percentileUm", passingPct: 63.2, max: 900 }] });
    expect(page(assessed("TH-0510.csv", own), { product: own })).toMatch(
      /^d63\.2 +8\d\d um +±\d+ {2}max 900 um {2}within ✓$/m,
    );
  });

  test("what can't be determined has a dash and its reason below", () => {
    const asked = product("TH-0510", { show: ["grainFinenessNumber"], values: [] });
    expect(page(assessed("TH-0510.csv", asked), { product: asked })).toMatch(/–\n {4}\S/);
  });

  test("limits are shown in full, never rounded", () => {
    const odd = product("TH-0510", { values: [{ id: "percentileUm", passingPct: 50, max: 1234.5 }] });
    expect(page(assessed("TH-0510.csv", odd), { product: odd })).toContain("max 1234.5 um");
  });
});

describe("the conventions", () => {
  test("name the basis and the interpolation that were used", () => {
    const text = page(assessed("TH-0510.csv", th0510, { basis: "charge", interpolation: "monotone" }));
    expect(text).toContain("of the charge as weighed");
    expect(text).toContain("(monotone)");
  });

  test("name the rounding before a comparison", () => {
    const rounded = product("TH-0510", { decision: { rule: "simple", compare: { roundedTo: 0.1 } } });
    expect(page(assessed("TH-0510.csv", rounded), { product: rounded })).toContain("rounded to 0.1, half to even");
  });

  test("say that a pass is no certificate", () => expect(page()).toContain("no certificate of any law or licence"));
});

test("notices are told by word and sign, broken between words", () => {
  const text = page({
    ...assessed("TH-0510.csv"),
    notices: [{ id: "x", severity: "warning", text: "word ".repeat(30).trim() }],
  });
  expect(text).toMatch(/^! warning: word( word)+\n( {4}word( word)*\n)+/m);
});

test("a product's name can't draw on the page", () => {
  const text = page(undefined, { product: { ...th0510, name: "a\u001b[2Jb\u202ec" }, lot: "x\u0007y" });
  expect(text).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u202e]/);
});

test.each([60, 80, 100])("at %d columns no text is wider, and the usual table fits 80", (width) => {
  const lines = page(undefined, {}, width).split("\n");
  const tooWide = lines.filter((line) => columnsOf(line) > Math.max(width, 80));
  expect(tooWide).toEqual([]);
});

test("the curve is as wide as asked for, and can be drawn in ASCII", () => {
  const assessment = assessed("TH-0510.csv", th0510);
  const drawn = pageCurve(assessment, th0510, 72, false);
  expect(Math.max(...drawn.map(columnsOf))).toBeLessThanOrEqual(72);
  expect(drawn.length).toBeGreaterThan(10);
  const ascii = pageCurve(assessment, th0510, 72, true);
  expect(ascii.map(asciiTwin)).toEqual(ascii);
});
