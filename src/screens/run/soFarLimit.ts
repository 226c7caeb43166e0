import type { RowSoFar } from "../../run/soFar.ts";
import { phrase } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { type Span, span, widthOf } from "../line.ts";
import { limitText, shortSignOf } from "../words.ts";

/** In full, and where that is too long for the column. */
const WORD = {
  passingPct: ["", ""],
  retainedPct: [phrase("ret. "), phrase("ret.")],
  coarserPct: [phrase("coarser "), phrase("coa.")],
} as const;

/** The limit on a row as short as the column asks: "75 – 95", "ret. ≤ 3", "coa.40–70". */
export function limitShort({ limit }: RowSoFar, columns: number): string {
  if (limit === null) return "";
  const [word = "", short = ""] = WORD[limit.of].map(spoken);
  const bounds = limitText(limit);
  const tight = bounds.replaceAll(" ", "");
  const tries = [`${word}${bounds}`, `${word}${tight}`, `${short}${tight}`];
  return tries.find((text) => widthOf([span(text)]) <= columns) ?? `${short}${tight}`;
}

/** How a row stands to its limit so far; "!" where its percentage cannot be. */
export const soFarSign = ({ limit, impossible }: RowSoFar): Span =>
  impossible ? span(" !", "warning") : shortSignOf(limit?.result);
