import { describe, expect, test } from "vitest";
import { asciiTwin } from "../../src/terminal/asciiTwin.ts";
import { columnsOf } from "../../src/terminal/sanitise.ts";
import { hasUnicode, SIGNS } from "../../src/terminal/signs.ts";

describe("hasUnicode", () => {
  test.each([
    [{ LANG: "en_GB.UTF-8" }, true],
    [{ LANG: "C.utf8" }, true],
    [{ LANG: "de_DE.ISO-8859-1" }, false],
    [{ LANG: "C" }, false],
    [{}, false],
    [{ LC_ALL: "C", LANG: "en_GB.UTF-8" }, false],
    [{ LC_ALL: "", LC_CTYPE: "en_GB.UTF-8" }, true],
    [{ LANG: "en_GB.UTF-8", TERM: "linux" }, false],
    [{ LANG: "en_GB.UTF-8", SIEVEWRIGHT_ASCII: "1" }, false],
    [{ LANG: "C", SIEVEWRIGHT_ASCII: "0" }, true],
  ])("%j on Linux: %s", (env, answer) => expect(hasUnicode(env, "linux")).toBe(answer));

  test("on Windows the locale's variables say nothing", () => {
    expect(hasUnicode({}, "win32")).toBe(true);
    expect(hasUnicode({ SIEVEWRIGHT_ASCII: "1" }, "win32")).toBe(false);
  });
});

describe("signs", () => {
  test("take one column each", () => {
    for (const sign of Object.values(SIGNS)) expect(columnsOf(sign)).toBe(1);
  });

  test("of the four verdicts differ, in ASCII too", () => {
    const verdicts = [SIGNS.pass, SIGNS.fail, SIGNS.borderline, SIGNS.invalid];
    expect(new Set(verdicts).size).toBe(4);
    expect(new Set(verdicts.map(asciiTwin)).size).toBe(4);
  });
});

describe("asciiTwin", () => {
  test.each([
    ["▸ 710 um  521.4 ✓ PASS", "> 710 um  521.4 + PASS"],
    ["75 – 95 …", "75 - 95 ."],
    ["100┤  ╭──●╌╌▾", "100|  .--o--v"],
    ["Körnung Ñ café", "Kornung N cafe"],
    ["石英", "????"],
    ["\x1b[31m✗\x1b[39m", "\x1b[31mx\x1b[39m"],
    ["plain", "plain"],
    ["  ≤ 5      coarser ≤12  (≥ 98)", "  <=5      coarser<=12  (>=98)"],
    ["d10 450 um ±4.3  ± (k = 2)", "d10 450 um+-4.3  ~ (k = 2)"],
  ])("%j is %j", (row, twin) => expect(asciiTwin(row)).toBe(twin));

  test("keeps the columns of every sign that the program draws", () => {
    const row = "✓✗▸─╌┄│╎┊┤┼┬┴└┘╭╮╰╯●○◆█▇▆▅▄▃▂▁░▒▓▴▾…·±≤≥µ°²";
    const twin = asciiTwin(row);
    expect(columnsOf(twin)).toBe(columnsOf(row));
    expect(twin).toMatch(/^[\x20-\x7e]*$/);
  });
});
