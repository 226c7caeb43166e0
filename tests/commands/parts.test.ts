import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { numberOption } from "../../src/commands/numberOption.ts";
import { textLook, textPage } from "../../src/commands/textPage.ts";
import { weighedSheet } from "../../src/commands/weighedSheet.ts";
import { file, shared } from "./inProcess.ts";

const output = (columns?: number) => ({ write: () => true, on: () => undefined, columns });
const stdin = (text: string) => ({
  stdin: (async function* () {
    yield text;
  })(),
});

describe("the number of an option", () => {
  test("is what JavaScript wrote, whatever it is", () =>
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (number) => {
        expect(numberOption("--cut", `${number}`)).toEqual({ ok: true, value: Number(`${number}`) });
      }),
    ));

  test.each([
    ["0,72", 0.72],
    [" 1.5 ", 1.5],
    [".5", 0.5],
    [",5", 0.5],
    ["+3", 3],
    ["1e3", 1000],
    ["-2", -2],
  ])("%j is %d", (text, value) => expect(numberOption("--cut", text)).toEqual({ ok: true, value }));

  test.each(["", " ", "x", "1,000.5", "1 2", "0x10", "Infinity", "1e999", "--5", "1.2.3", "NaN", "1mm"])(
    "%j is none, 64",
    (text) =>
      expect(numberOption("--cut", text)).toEqual({
        ok: false,
        ending: { code: 64, fault: `--cut ${text}: give a number, such as 1.2` },
      }),
  );
});

describe("the look of a page", () => {
  const env = { LANG: "C.UTF-8" };

  test.each([
    [undefined, 80],
    [40, 60],
    [72, 72],
    [200, 100],
  ])("a terminal of %s columns gets %d", (columns, width) =>
    expect(textLook({ stdout: output(columns), env }).width).toBe(width),
  );

  test("is ASCII where the locale has no more, on every row and of the same length", () => {
    const look = textLook({ stdout: output(), env: { SIEVEWRIGHT_ASCII: "1" } });
    expect(look.ascii).toBe(true);
    expect(textPage("─●◆\nabc\n", look)).toBe("-o#\nabc\n");
    expect(textPage("─●◆\n", { ...look, ascii: false })).toBe("─●◆\n");
  });
});

describe("a weighing sheet", () => {
  test("gives its head and its net masses", async () => {
    const read = await weighedSheet(shared("sheets/TH-0510.csv"), stdin(""));
    expect(read).toMatchObject({ ok: true, value: { sheet: { product: "TH-0510" }, masses: { chargeG: 300.2 } } });
    if (read.ok) expect(read.value.masses.fractions[0]?.netG).toBe(5.71);
  });

  test("can come from standard input", async () =>
    expect(await weighedSheet("-", stdin("aperture_um,net_g\n500,3\npan,1\n"))).toMatchObject({
      ok: true,
      value: { masses: { panAssumed: false } },
    }));

  test("that isn't there ends with 66, one that is bad with 65, by its name", async () => {
    expect(await weighedSheet("none.csv", stdin(""))).toMatchObject({ ok: false, ending: { code: 66 } });
    const bad = file("bad.csv", "aperture_um,net_g\n500,-3\npan,1\n");
    expect(await weighedSheet(bad, stdin(""))).toMatchObject({
      ok: false,
      ending: { code: 65, fault: expect.stringContaining(bad) },
    });
    expect(await weighedSheet("-", stdin("nothing"))).toMatchObject({
      ok: false,
      ending: { code: 65, fault: expect.stringMatching(/^standard input: /) },
    });
  });
});
