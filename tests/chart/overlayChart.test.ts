import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type OverlaidCurve, overlayChart } from "../../src/chart/overlayChart.ts";
import { anyHeight, anyPoints, anyWidth, envelope, logLinear, picture, sand } from "./drawing.ts";

const curve = (letter: string, grading: string): OverlaidCurve => ({ letter, ...sand(grading) });
const A = curve("a", "1400:97 1000:80 710:45 500:12");
const B = curve("b", "1400:95 1000:70 710:30 500:5");
const LIMITS = envelope("1400:90-100 1000:60-95 710:20-60 500:0-20");

describe("curves over one another", () => {
  test("have their letters at their points; the chosen one is a full line, the other dotted", () =>
    expect(picture(overlayChart({ curves: [A, B], chosen: 0, width: 46, height: 13 }))).toBe(`
100┤                                       ╭─a
   │                               ╭───────╯·
 75┤                          ╭a───╯····
   │                      ╭───╯b···
   │                  ╭───╯···
 50┤              a───╯ ···
   │          ╭───╯ ····
 25┤      ╭───╯ ··b·
   │  ╭───╯·····
   │a─╯···
  0┤
   └┬─────────────┬────────────┬─────────────┬
   500           710 um        1        1.4 mm
`));

  test("without a chosen one are all dotted", () => {
    const rows = overlayChart({ curves: [A, B], chosen: null, width: 46, height: 13 }).slice(0, -2);
    expect(rows.join("")).not.toMatch(/[─╭╮╰╯]/);
    expect(rows.join("")).toMatch(/a/);
    expect(rows.join("")).toMatch(/b/);
  });

  test("show the chosen letter where two curves meet", () => {
    const twin = { ...A, letter: "b" };
    const drawn = (chosen: number) => overlayChart({ curves: [A, twin], chosen, width: 46, height: 13 }).join("");
    expect(drawn(0)).not.toContain("b");
    expect(drawn(1)).not.toContain("a");
  });

  test("lie inside their envelope", () => {
    const rows = overlayChart({ curves: [A], chosen: 0, envelope: LIMITS, width: 46, height: 13 }).join("");
    expect(rows).toMatch(/▾/);
    expect(rows).toMatch(/▴/);
    expect(rows).toMatch(/╌/);
  });

  test("are none without a sieve, and it says so", () =>
    expect(overlayChart({ curves: [], chosen: null, width: 46, height: 13 }).join("\n")).toContain("no curve to draw"));

  test("fill `height` rows of exactly `width` columns, whatever they are, in ASCII too", () =>
    fc.assert(
      fc.property(
        fc.array(anyPoints, { maxLength: 5 }),
        anyWidth,
        anyHeight,
        fc.boolean(),
        (all, width, height, ascii) => {
          const curves = all.map((points, i) => ({ letter: "abcde"[i] ?? "?", points, passingAt: logLinear(points) }));
          const rows = overlayChart({ curves, chosen: all.length > 0 ? 0 : null, width, height, ascii });
          expect(rows).toHaveLength(height);
          for (const row of rows) {
            expect([...row]).toHaveLength(width);
            if (ascii) expect(row).toMatch(/^[\x20-\x7e]*$/);
          }
        },
      ),
    ));
});
