import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { grade } from "../../src/grading/grade.ts";
import { sheetMasses } from "../../src/grading/sheetMasses.ts";
import { readSheet } from "../../src/record/readSheet.ts";

const masses = (text: string, readabilityG = 0.01) => {
  const sheet = readSheet(new TextEncoder().encode(text));
  if (!sheet.ok) throw new Error(sheet.reason);
  const found = sheetMasses(sheet.value, readabilityG);
  return found.ok ? found.value : found.reason;
};
const both = (...rows: string[]) => ["aperture_um,empty_g,full_g", ...rows, ""].join("\n");
const net = (...rows: string[]) => ["aperture_um,net_g", ...rows, ""].join("\n");

test("net masses are full minus empty, without binary noise", () =>
  expect(masses(both("1400,412.31,418.02", "1000,398.74,455.20", "pan,354.1,360.4"))).toEqual({
    fractions: [
      { apertureUm: 1400, emptyG: 412.31, fullG: 418.02, netG: 5.71 },
      { apertureUm: 1000, emptyG: 398.74, fullG: 455.2, netG: 56.46 },
      { apertureUm: 0, emptyG: 354.1, fullG: 360.4, netG: 6.3 },
    ],
    chargeG: null,
    washedG: null,
    panAssumed: false,
  }));

test("net masses as given stay as given", () =>
  expect(masses(`# charge_g: 9\n# washed_g: 8\n${net("63,5.71", "pan,0.3")}`)).toEqual({
    fractions: [
      { apertureUm: 63, emptyG: null, fullG: null, netG: 5.71 },
      { apertureUm: 0, emptyG: null, fullG: null, netG: 0.3 },
    ],
    chargeG: 9,
    washedG: 8,
    panAssumed: false,
  }));

describe("full below empty", () => {
  test("by no more than the balance can read is left for the assessment to level", () =>
    expect(masses(both("63,412.31,412.30", "pan,1,2"))).toMatchObject({ fractions: [{ netG: -0.01 }, { netG: 1 }] }));

  test("by more is refused, with the line, the column and the balance's readability", () =>
    expect(masses(both("125,100,101", "63,412.31,412.29", "pan,1,2"))).toBe(
      "line 3, full_g: is 0.02 g below the empty mass, by more than the balance can read (0.01 g): weigh it again",
    ));

  test("what a coarser balance cannot tell is no fault", () =>
    expect(masses(both("63,412.3,412.2", "pan,1,2"), 0.1)).toMatchObject({ fractions: [{ netG: -0.1 }, {}] }));
});

describe("a negative net mass", () => {
  test("within the readability stays", () =>
    expect(masses(net("63,-0.01", "pan,2"))).toMatchObject({ fractions: [{ netG: -0.01 }, {}] }));

  test("beyond it is refused by line and column", () =>
    expect(masses(net("63,5", "pan,-0.5"))).toBe(
      "line 3, net_g: is -0.5 g, below zero by more than the balance can read (0.01 g): weigh it again",
    ));

  test("in JSON is refused by field", () =>
    expect(
      masses('{"schema":"sievewright.sheet/1","weighings":[{"pan":true,"netG":-1},{"apertureUm":5,"netG":2}]}'),
    ).toBe(
      "line 1, column 65: weighings[0].netG is -1 g, below zero by more than the balance can read (0.01 g): weigh it again",
    ));
});

test.each([
  [net("63,0", "pan,0")],
  [net("63,-0.01", "pan,0")],
  [both("63,5,5", "pan,7,7")],
  [`# charge_g: 300\n${net("63,0")}`],
])("all masses zero: %j", (text) =>
  expect(masses(text)).toBe("the sheet has no mass at all: every sieve is as heavy as when empty"),
);

describe("without a pan row", () => {
  test("what is missing from the charge is the pan, and that is told", () =>
    expect(masses(`# charge_g: 300.2\n${net("125,200.1", "63,90")}`)).toEqual({
      fractions: [
        { apertureUm: 125, emptyG: null, fullG: null, netG: 200.1 },
        { apertureUm: 63, emptyG: null, fullG: null, netG: 90 },
        { apertureUm: 0, emptyG: null, fullG: null, netG: 10.1 },
      ],
      chargeG: 300.2,
      washedG: null,
      panAssumed: true,
    }));

  test("of a washed test it is what is missing from the dry mass after washing", () =>
    expect(masses(`# charge_g: 300\n# washed_g: 280\n${net("63,270")}`)).toMatchObject({
      fractions: [{ netG: 270 }, { apertureUm: 0, netG: 10 }],
      panAssumed: true,
    }));

  test.each([
    ["# charge_g: 300\n", "line 1, charge_g: is less than the 300.02 g on the sieves: correct it, or weigh the pan"],
    [
      "# charge_g: 400\n# washed_g: 300\n",
      "line 2, washed_g: is less than the 300.02 g on the sieves: correct it, or weigh the pan",
    ],
  ])("%j cannot be less than what the sieves hold", (keys, reason) =>
    expect(masses(`${keys}${net("63,300.02")}`)).toBe(reason),
  );

  test("less by no more than the balance can read is left for the assessment to level", () =>
    expect(masses(`# charge_g: 300\n${net("63,300.01")}`)).toMatchObject({ fractions: [{}, { netG: -0.01 }] }));
});

const cg = fc.integer({ min: 0, max: 50_000 });
test("whatever is on the sieves, an assumed pan leaves no loss and grades like a pan that was weighed", () =>
  fc.assert(
    fc.property(fc.array(cg, { minLength: 1, maxLength: 12 }), cg, (sieves, pan) => {
      fc.pre(sieves.some((c) => c > 0));
      const rows = sieves.map((c, i) => `${100 * (i + 1)},${c / 100}`);
      const chargeG = [...sieves, pan].reduce((sum, c) => sum + c) / 100;
      const keys = `# charge_g: ${chargeG}\n`;
      const [assumed, weighed] = [masses(keys + net(...rows)), masses(keys + net(...rows, `pan,${pan / 100}`))];
      if (typeof assumed === "string" || typeof weighed === "string") throw new Error(`${assumed} ${weighed}`);
      const [a, b] = [assumed, weighed].map((m) => grade(m.fractions, { ...m, basis: "recovered" }));
      expect(a).toEqual(b);
      expect(a?.ok && a.value.lossG).toBe(0);
    }),
  ));
