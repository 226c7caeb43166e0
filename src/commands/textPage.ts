import { asciiTwin } from "../terminal/asciiTwin.ts";
import { hasUnicode } from "../terminal/signs.ts";
import type { Io } from "./io.ts";

const NARROWEST = 60;
const WIDEST = 100;
const USUAL = 80;

/** How a page of text is to be drawn: as wide as the terminal within reason, in ASCII where there is nothing else. */
export interface TextLook {
  readonly width: number;
  readonly ascii: boolean;
}

export const textLook = ({ stdout, env }: Pick<Io, "stdout" | "env">): TextLook => ({
  width: Math.min(WIDEST, Math.max(NARROWEST, stdout.columns ?? USUAL)),
  ascii: !hasUnicode(env, process.platform),
});

/** A page as it can be printed: every sign that the terminal lacks becomes an ASCII one. */
export const textPage = (page: string, { ascii }: TextLook): string =>
  ascii ? page.split("\n").map(asciiTwin).join("\n") : page;
