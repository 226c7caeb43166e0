import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readApertures } from "../../src/record/apertureCsv.ts";

const read = (text: string) => readApertures(new TextEncoder().encode(text));

describe("measured apertures from a CSV file", () => {
  test("are taken along warp and weft, in the order of the file", () => {
    expect(read("warp_um,weft_um\n712.5,708\n720,701.25\n")).toEqual({
      ok: true,
      value: { warpUm: [712.5, 720], weftUm: [708, 701.25] },
    });
  });

  test("of one direction only, with notes before the header, with decimal commas behind semicolons", () => {
    expect(read("# microscope\nwarp_um\n712.5\n")).toEqual({ ok: true, value: { warpUm: [712.5] } });
    expect(read("weft_um;warp_um\r\n708,5;712,5\r\n")).toEqual({
      ok: true,
      value: { warpUm: [712.5], weftUm: [708.5] },
    });
  });

  test("a direction with fewer apertures leaves its last cells empty", () => {
    expect(read("warp_um,weft_um\n1,2\n3,\n4\n")).toEqual({ ok: true, value: { warpUm: [1, 3, 4], weftUm: [2] } });
  });

  test.each([
    ["nothing but notes", "# x\n", /has no header line: start with warp_um,weft_um/],
    ["an unknown column", "warp_um,depth\n1,2\n", /line 1: unknown column "depth": known are warp_um, weft_um/],
    ["no warp", "weft_um\n1\n", /line 1: needs the column warp_um/],
    ["a column twice", "warp_um,warp_um\n1,2\n", /line 1: names a column twice/],
    ["no number", "warp_um\n1\nwide\n", /line 3, warp_um: "wide" is not a number/],
    ["an aperture of 0", "warp_um,weft_um\n1,0\n", /line 2, weft_um: an aperture is more than 0 um/],
    ["a decimal comma between commas", 'warp_um,weft_um\n"7,5",2\n', /line 2, warp_um: .*decimal comma/],
    ["too many cells", "warp_um\n1,2\n", /line 2: has 2 columns, the header has 1/],
    ["no aperture", "warp_um,weft_um\n,5\n", /has no aperture in the column warp_um/],
    ["more than are kept", `warp_um\n${"1\n".repeat(2001)}`, /more than 2000 apertures/],
  ])("%s is refused: what, where, what to do", (_what, text, reason) => {
    const found = read(text);
    expect(found.ok ? "" : found.reason).toMatch(reason);
  });

  test("whatever was measured comes back as it was", () => {
    const aperture = fc.integer({ min: 1, max: 1e8 }).map((hundredths) => hundredths / 100);
    fc.assert(
      fc.property(
        fc.array(aperture, { minLength: 1, maxLength: 50 }),
        fc.array(aperture, { maxLength: 50 }),
        (warp, weft) => {
          const rows = Array.from(
            { length: Math.max(warp.length, weft.length) },
            (_, i) => `${warp[i] ?? ""},${weft[i] ?? ""}`,
          );
          const found = read(["warp_um,weft_um", ...rows].join("\n"));
          expect(found).toEqual({ ok: true, value: { warpUm: warp, ...(weft.length === 0 ? {} : { weftUm: weft }) } });
        },
      ),
    );
  });

  test("any bytes are read or refused in words, never thrown at", () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 200 }), (bytes) => {
        const found = readApertures(bytes);
        expect(found.ok || found.reason.length > 5).toBe(true);
      }),
    );
  });
});
