/** A colour as this program wants it, and which of the sixteen that every terminal has stands for it. */
export interface Colour {
  readonly rgb: `#${string}`;
  readonly ansi: number;
}

/** How many colours a terminal shows: none, the sixteen named ones, the 256 of the usual cube, or all. */
export type Depth = "none" | "16" | "256" | "all";

type Environment = Readonly<Record<string, string | undefined>>;

const FORCED: Readonly<Record<string, Depth>> = { "0": "none", false: "none", "1": "16", "2": "256", "3": "all" };
const COLOURLESS = /^(?:vt\d|ansi-m|.*-m(?:ono)?$)/;

/**
 * The colours that a terminal has, by its environment: NO_COLOR (set and not empty) means none whatever the rest says, then
 * FORCE_COLOR 0 to 3, COLORTERM, the name in TERM. Windows' console has all of them. A terminal that says nothing has sixteen.
 */
export function colourDepth(env: Environment, platform: NodeJS.Platform): Depth {
  if (env.NO_COLOR) return "none";
  const forced = FORCED[env.FORCE_COLOR ?? ""];
  if (forced) return forced;
  const term = env.TERM ?? "";
  if (platform === "win32" || /truecolor|24bit/i.test(env.COLORTERM ?? "") || /direct|truecolor/.test(term))
    return "all";
  if (/256/.test(term)) return "256";
  return COLOURLESS.test(term) ? "none" : "16";
}

/** Red, green and blue, 0 to 255. */
export const channelsOf = (rgb: string): readonly [number, number, number] => {
  const whole = Number.parseInt(rgb.slice(1), 16);
  return [(whole >> 16) & 255, (whole >> 8) & 255, whole & 255];
};

const STEPS: readonly number[] = [0, 95, 135, 175, 215, 255];

const nearestStep = (channel: number): number =>
  STEPS.reduce((best, step, i) => (Math.abs(step - channel) < Math.abs((STEPS[best] ?? 0) - channel) ? i : best), 0);

/** The colour of the usual 256 nearest to one wanted: 16 to 231 the cube of six steps, 232 to 255 greys. */
export function cubeIndexOf(rgb: string): number {
  const channels = channelsOf(rgb);
  const steps = channels.map(nearestStep);
  const cube = 16 + 36 * (steps[0] ?? 0) + 6 * (steps[1] ?? 0) + (steps[2] ?? 0);
  const mean = channels.reduce((sum, c) => sum + c, 0) / 3;
  const grey = Math.max(0, Math.min(23, Math.round((mean - 8) / 10)));
  const offBy = (of: readonly number[]) => channels.reduce((sum, c, i) => sum + (c - (of[i] ?? 0)) ** 2, 0);
  const greyLevel = 8 + 10 * grey;
  const cubeOff = offBy(steps.map((step) => STEPS[step] ?? 0));
  return offBy([greyLevel, greyLevel, greyLevel]) < cubeOff ? 232 + grey : cube;
}

/** The SGR parameters that choose a colour for the text or for its ground. */
export function sgrOf({ rgb, ansi }: Colour, depth: Depth, ground: boolean): string {
  if (depth === "none") return "";
  if (depth === "16") return `${(ansi < 8 ? 30 + ansi : 82 + ansi) + (ground ? 10 : 0)}`;
  const chosen = depth === "256" ? `5;${cubeIndexOf(rgb)}` : `2;${channelsOf(rgb).join(";")}`;
  return `${ground ? 48 : 38};${chosen}`;
}
