/** asciichart's ten symbols: axis twice, two stubs, level, lower and upper bend falling and rising, upright. */
export type Symbols = [string, string, string, string, string, string, string, string, string, string];

/** What a chart is drawn with. Curve, limits and marks differ in shape, so that colour is never needed. */
export interface Glyphs {
  readonly curve: Symbols;
  readonly limit: Symbols;
  /** How sure the curve is: the ends of its intervals. */
  readonly band: Symbols;
  readonly upperLimit: string;
  readonly lowerLimit: string;
  readonly measured: string;
  readonly mark: string;
  readonly guide: string;
  readonly tickLeft: string;
  readonly upright: string;
  readonly corner: string;
  readonly level: string;
  readonly tickBelow: string;
  /** A cell filled by eighths from below, and from the left; the first is empty, the last is full. */
  readonly rising: string;
  readonly lengthening: string;
}

/** The line's six symbols; the axis and the stubs are drawn otherwise. */
function symbols(drawn: string): Symbols {
  const [level = "", lowerFalling = "", upperRising = "", upperFalling = "", lowerRising = "", upright = ""] = drawn;
  return [" ", " ", " ", " ", level, lowerFalling, upperRising, upperFalling, lowerRising, upright];
}

const UNICODE: Glyphs = {
  curve: symbols("─╰╭╮╯│"),
  limit: symbols("╌╌╌╌╌╎"),
  band: symbols("······"),
  upperLimit: "▾",
  lowerLimit: "▴",
  measured: "●",
  mark: "◆",
  guide: "┊",
  tickLeft: "┤",
  upright: "│",
  corner: "└",
  level: "─",
  tickBelow: "┬",
  rising: " ▁▂▃▄▅▆▇█",
  lengthening: " ▏▎▍▌▋▊▉█",
};

const ASCII: Glyphs = {
  curve: symbols("-'..'|"),
  limit: symbols("=====:"),
  band: symbols(",,,,,,"),
  upperLimit: "v",
  lowerLimit: "^",
  measured: "o",
  mark: "#",
  guide: "!",
  tickLeft: "+",
  upright: "|",
  corner: "+",
  level: "-",
  tickBelow: "+",
  rising: " ____==##",
  lengthening: " ....####",
};

export const glyphsFor = (ascii = false): Glyphs => (ascii ? ASCII : UNICODE);
