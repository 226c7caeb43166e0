import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { describeAperture } from "../../src/series/describe.ts";
import { STANDARD_APERTURES } from "../../src/series/table.ts";
import { run } from "./inProcess.ts";
import { builtRun } from "./realProcess.ts";

const json = async (...name: string[]) => JSON.parse((await run(["sieves", ...name, "--json"])).out);

describe("sieves --json", () => {
  test("has the keys of the contract, of a row without a printed table by formula", async () => {
    const found = await json("600");
    expect(found).toMatchObject({
      apertureUm: 600,
      designations: ["600 um", "No. 30"],
      series: ["ISO 565 R40/3", "ASTM E11"],
      wireUm: 400,
      figures: "computed",
    });
    // X = 2/3 w^0.75 + 4 w^0.25 and Y = w^0.98/27 + 1.6, worked out apart from the program.
    expect(found.maxDeviationUm).toBeCloseTo(80.821 + 19.797, 2);
    expect(found.meanToleranceUm).toBeCloseTo(21.1535, 3);
  });

  test("takes the printed limits where a table was seen", async () =>
    expect(await json("2", "mm")).toMatchObject({ meanToleranceUm: 70, maxDeviationUm: 230, figures: "tabulated" }));

  test.each([
    [["No. 30"], 600],
    [["No.", "30"], 600],
    [["#30"], 600],
    [["0,6 mm"], 600],
    [["3/8", "in."], 9500],
    [["28 mesh"], 600],
    [["710"], 710],
  ])("reads %j as one name", async (name, um) => expect((await json(...name)).apertureUm).toBe(um));

  test("is what the series room describes, for every standard aperture", async () => {
    for (const { apertureUm } of STANDARD_APERTURES)
      expect(await json(`${apertureUm} um`)).toEqual(JSON.parse(JSON.stringify(describeAperture(apertureUm))));
  });

  test("of an aperture of no standard has empty lists and says so", async () => {
    const found = await json("613 um");
    expect(found).toMatchObject({ designations: [], series: [], wireUm: null, figures: "computed" });
    expect(found.notes).toEqual(["613 um is no aperture of ISO 565 or ASTM E11"]);
  });

  test("beyond the scope of the standards has no limits, not zeros", async () =>
    expect(await json("200 mm")).toMatchObject({ meanToleranceUm: null, maxDeviationUm: null }));
});

describe("sieves as a page", () => {
  test("tells limits by formula and by table beside each other, each with its standing", async () => {
    const { code, out, err } = await run(["sieves", "No. 10"]);
    expect({ code, err }).toEqual({ code: 0, err: "" });
    expect(out).toMatch(/^sieve with apertures of 2 mm$/m);
    expect(out).toMatch(/^by formula +\+\/- 65\.2 +\+ 226 +\+ 146 +computed$/m);
    expect(out).toMatch(/^by table +\+\/- 70 +\+ 230 +\+ 150 +seen$/m);
    expect(out).toMatch(/^ASTM E11 +\+\/- 65 +\+ 230 +– +recalled$/m);
    expect(out).toMatch(/aperture limits +seen: European Pharmacopoeia 8\.0/);
    expect(out.replace(/\s+/g, " ")).toContain("compare with your copy of the standard");
  });

  test("names every standard aperture, keeps within its width, and every label keeps a space", async () => {
    for (const { apertureUm } of STANDARD_APERTURES) {
      const { out } = await run(["sieves", `${apertureUm} um`]);
      for (const row of out.split("\n")) expect(row.length).toBeLessThanOrEqual(80);
      expect(out).toMatch(/^wire {15}\d+ um nominal/m);
      expect(out).toMatch(/^ {2}wire {13}(seen|recalled): /m);
      expect(out).not.toMatch(/undefined|NaN|limitsseen/);
    }
  });

  test("without limits and without a standard leaves those parts out and says why", async () => {
    const { out } = await run(["sieves", "200 mm"]);
    expect(out).toContain("note: no aperture limits outside 20 um to 125 mm");
    expect(out).not.toContain("by formula");
    expect(out).not.toContain("where the figures come from");
  });

  test("tells an older opening where it belongs", async () =>
    expect((await run(["sieves", "590 um"])).out.replace(/\s+/g, " ")).toContain("older opening of No. 30"));

  test("in ASCII where the terminal has no more", async () => {
    const { out } = await run(["sieves", "600"], { env: { LANG: "C" } });
    expect(out).toMatch(/^[\x00-\x7f]*$/);
    expect(out).toContain("----");
  });
});

describe("sieves refuses", () => {
  test.each([
    ["30", "30 can be No. 30 (600 um) or 30 um: write which"],
    ["No. 31", "ASTM E11 has no sieve No. 31"],
    ["0 um", "an aperture lies between 1 um and 1 m"],
    ["coarse", '"coarse" names no aperture: write 600 um, 0.6 mm, No. 30 or 3/8 in.'],
  ])("%s, 65, in one line", async (name, reason) =>
    expect(await run(["sieves", name])).toEqual({ code: 65, out: "", err: `sievewright: ${reason}\n` }),
  );

  test("any text: either a description or one line of reason", async () =>
    fc.assert(
      fc.asyncProperty(fc.string({ minLength: 1, maxLength: 40 }), async (text) => {
        fc.pre(!text.startsWith("-"));
        const { code, out, err } = await run(["sieves", text, "--json"]);
        if (code === 0) expect(JSON.parse(out).apertureUm).toBeGreaterThan(0);
        else {
          expect({ code, out }).toEqual({ code: 65, out: "" });
          expect(err).toMatch(/^sievewright: [^\n\x00-\x1f]+\n$/);
        }
      }),
      { numRuns: 40 },
    ));
});

describe("the built program", () => {
  test("describes a sieve", () => {
    const { status, stdout, stderr } = builtRun(["sieves", "3/8", "in.", "--json"]);
    expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
    expect(JSON.parse(stdout).apertureUm).toBe(9500);
  });

  test("refuses what is none", () => {
    const { status, stdout, stderr } = builtRun(["sieves", "30"]);
    expect({ status, stdout }).toEqual({ status: 65, stdout: "" });
    expect(stderr).toMatch(/^sievewright: [^\n]+\n$/);
  });
});
