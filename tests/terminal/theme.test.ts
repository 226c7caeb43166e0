import { describe, expect, test } from "vitest";
import { THEME_NAMES } from "../../src/record/screen.ts";
import { channelsOf, colourDepth, cubeIndexOf } from "../../src/terminal/colour.ts";
import { coloursOf, type Role, styledRow, stylesOf, THEMES } from "../../src/terminal/theme.ts";
import { contrast, difference, labOf, VISIONS, type Vision } from "./vision.ts";

/** Ten times what is just to be seen side by side: far enough apart to be told from memory (common practice, no source). */
const APART = 25;
/** WCAG 2.1: 1.4.3 asks 4.5 of text, 1.4.6 (enhanced) 7 (memory). */
const READABLE = 4.5;
const READABLE_ENHANCED = 7;

const STATES: readonly Role[] = ["pass", "fail", "borderline", "invalid"];
const COLOURED = THEME_NAMES.filter((name) => name !== "monochrome");
const pairs = STATES.flatMap((a, i) => STATES.slice(i + 1).map((b) => [a, b] as const));

/** The sixteen colours as xterm shows them unless told otherwise (its own defaults, memory). */
const XTERM_16 =
  "000000 cd0000 00cd00 cdcd00 0000ee cd00cd 00cdcd e5e5e5 7f7f7f ff0000 00ff00 ffff00 5c5cff ff00ff 00ffff ffffff"
    .split(" ")
    .map((hex) => `#${hex}`);
/** The usual 256: xterm's sixteen, a cube of six steps, greys (memory). */
const XTERM_256 = [
  ...XTERM_16,
  ...Array.from({ length: 216 }, (_, i) => [Math.floor(i / 36), Math.floor(i / 6) % 6, i % 6]).map(
    (steps) => `#${steps.map((s) => (s === 0 ? 0 : 55 + 40 * s).toString(16).padStart(2, "0")).join("")}`,
  ),
  ...Array.from({ length: 24 }, (_, i) => `#${(8 + 10 * i).toString(16).padStart(2, "0").repeat(3)}`),
];

const shownAt = {
  all: ({ rgb }: { rgb: string }) => rgb,
  "256": ({ rgb }: { rgb: string }) => XTERM_256[cubeIndexOf(rgb)] ?? "",
  "16": ({ ansi }: { ansi: number }) => XTERM_16[ansi] ?? "",
} as const;
const DEPTHS = ["all", "256", "16"] as const;

const colours = (name: (typeof THEME_NAMES)[number], role: Role, depth: (typeof DEPTHS)[number]) => {
  const { text, ground } = coloursOf(THEMES[name], role);
  if (!text || !ground) throw new Error(`${name} ${role} has no colours`);
  return { text: shownAt[depth](text), ground: shownAt[depth](ground) };
};

/** What the eye tells a state by: a ground of its own, else the text. */
const standsOut = (...[name, role, depth]: Parameters<typeof colours>): string =>
  THEMES[name].looks[role].ground ? colours(name, role, depth).ground : colours(name, role, depth).text;

describe("the measures", () => {
  test("contrast: black on white 21, a colour on itself 1, #767676 on white 4.54 (well-known figure, memory)", () => {
    expect(contrast("#000000", "#ffffff")).toBeCloseTo(21, 6);
    expect(contrast("#123456", "#123456")).toBe(1);
    expect(contrast("#767676", "#ffffff")).toBeCloseTo(4.54, 2);
  });

  test("CIELAB: white is 100, 0, 0; red 53.2, 80.1, 67.2 (D65, well-known figures, memory)", () => {
    for (const [rgb, lab] of [
      ["#ffffff", [100, 0, 0]],
      ["#ff0000", [53.24, 80.09, 67.2]],
    ] as const)
      for (const [i, value] of labOf(rgb).entries()) expect(Math.abs(value - Number(lab[i]))).toBeLessThan(0.1);
  });

  test("simulated deficiencies leave greys grey", () => {
    for (const matrix of Object.values(VISIONS))
      for (const row of matrix) expect(row.reduce((sum: number, share) => sum + share, 0)).toBeCloseTo(1, 5);
  });

  test("and bring red and green together for those who can't tell them", () => {
    expect(difference("#cc3311", "#667722", "deuteranopia")).toBeLessThan(
      difference("#cc3311", "#667722", "usual") / 2,
    );
  });
});

describe.each(COLOURED)("the theme %s", (name) => {
  test.each(DEPTHS)("with %s colours: all text stands off its ground", (depth) => {
    for (const role of Object.keys(THEMES[name].looks) as Role[]) {
      const { text, ground } = colours(name, role, depth);
      const wanted = name === "high contrast" && depth === "all" ? READABLE_ENHANCED : READABLE;
      expect(contrast(text, ground), `${role}: ${text} on ${ground}`).toBeGreaterThanOrEqual(wanted);
    }
  });

  test.each(DEPTHS)("with %s colours: the four states keep apart for every kind of colour vision", (depth) => {
    for (const vision of Object.keys(VISIONS) as Vision[])
      for (const [a, b] of pairs) {
        const [one, other] = [standsOut(name, a, depth), standsOut(name, b, depth)];
        expect(difference(one, other, vision), `${a}, ${b}, ${vision}`).toBeGreaterThanOrEqual(APART);
      }
  });
});

describe("monochrome, and any theme without colours", () => {
  test("sets no colour, but marks the field, the fail and the warning", () => {
    for (const { opens, ground } of [stylesOf("monochrome", "all"), stylesOf("dark", "none")]) {
      expect(ground).toBe("");
      expect(Object.values(opens).join("")).not.toMatch(/[34]\d/);
      for (const role of ["field", "fail", "warning", "borderline", "strong"] as const)
        expect(opens[role]).not.toBe("");
    }
  });
});

describe("a row", () => {
  const row = [
    { text: "a ", role: "plain" },
    { text: "FAIL ✗", role: "fail" },
  ] as const;

  test("carries each role's colours at the terminal's depth", () => {
    expect(styledRow(row, stylesOf("dark", "all"))).toBe("a \x1b[1;38;2;224;101;46mFAIL ✗\x1b[0m");
    expect(styledRow(row, stylesOf("dark", "16"))).toBe("a \x1b[1;91mFAIL ✗\x1b[0m");
    expect(stylesOf("dark", "16").ground).toBe("\x1b[97;40m");
    expect(styledRow(row, stylesOf("dark", "none"))).toBe("a \x1b[1;7mFAIL ✗\x1b[0m");
  });
});

describe("the depth of a terminal", () => {
  test.each([
    [{ TERM: "xterm-256color" }, "256"],
    [{ TERM: "xterm-256color", COLORTERM: "truecolor" }, "all"],
    [{ TERM: "xterm" }, "16"],
    [{ TERM: "linux" }, "16"],
    [{ TERM: "vt220" }, "none"],
    [{ TERM: "xterm-mono" }, "none"],
    [{ TERM: "xterm-256color", NO_COLOR: "1", FORCE_COLOR: "3" }, "none"],
    [{ TERM: "xterm", NO_COLOR: "" }, "16"],
    [{ TERM: "xterm", FORCE_COLOR: "0" }, "none"],
    [{}, "16"],
  ])("%j: %s", (env, depth) => expect(colourDepth(env, "linux")).toBe(depth));

  test("Windows' console has all colours", () => expect(colourDepth({}, "win32")).toBe("all"));
});

test("of 256 the one taken is never further off than half of the cube's widest step", () => {
  for (const rgb of [
    "#101418",
    "#83ddc9",
    "#e0652e",
    "#fff334",
    "#d062f2",
    "#808080",
    "#fbfaf5",
    "#000000",
    "#ffffff",
  ]) {
    const off = channelsOf(rgb).map((channel, i) => channel - (channelsOf(XTERM_256[cubeIndexOf(rgb)] ?? "")[i] ?? 0));
    expect(Math.max(...off.map(Math.abs)), rgb).toBeLessThanOrEqual(95 / 2);
  }
});
