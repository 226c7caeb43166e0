import { say } from "../words/say.ts";

/** What a control chart is drawn with: every kind of line and point has a shape of its own. */
export interface ControlGlyphs {
  readonly point: string;
  /** A point out of control. */
  readonly signal: string;
  readonly leftOut: string;
  readonly centre: string;
  readonly control: string;
  /** A limit of the product. */
  readonly product: string;
  /** A logged change of the line. */
  readonly change: string;
  readonly cursor: string;
  /** Where several points share a column. */
  readonly reach: string;
}

const UNICODE: ControlGlyphs = {
  point: "●",
  signal: "◆",
  leftOut: "×",
  centre: "·",
  control: "╌",
  product: "═",
  change: "┊",
  cursor: "▲",
  reach: "│",
};

const ASCII: ControlGlyphs = {
  point: "o",
  signal: "#",
  leftOut: "x",
  centre: ".",
  control: "-",
  product: "=",
  change: "!",
  cursor: "^",
  reach: "|",
};

export const controlGlyphs = (ascii = false): ControlGlyphs => (ascii ? ASCII : UNICODE);

export interface ControlLegend {
  /** Whether the product limits the figure. */
  readonly limited?: boolean;
  /** Whether there are more tests than columns. */
  readonly crowded?: boolean;
  readonly ascii?: boolean;
}

/** What the signs of a control chart stand for, in one line. */
export function controlLegend({ limited = false, crowded = false, ascii }: ControlLegend = {}): string {
  const { point, signal, centre, control, product, change, reach } = controlGlyphs(ascii);
  return [
    crowded ? `${say`tests`} ${reach}` : `${say`test`} ${point}`,
    `${say`signal`} ${signal}`,
    `${say`centre`} ${centre}${centre}`,
    `${say`control limit`} ${control}${control}`,
    ...(limited ? [`${say`product's limit`} ${product}${product}`] : []),
    `${say`change`} ${change}`,
  ].join("  ");
}
