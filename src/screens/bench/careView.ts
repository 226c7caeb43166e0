import { type CareMatter, careMatters } from "../../care/matters.ts";
import { phrase, say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { cells, type Line, line } from "../line.ts";
import type { App } from "../place.ts";

const WORDS = { stop: phrase("OUT !"), act: phrase("care !"), soon: phrase("care") } as const;
const ROLES = { stop: "fail", act: "warning", soon: "dim" } as const;

function matterLine({ of, grade, text }: CareMatter, wide: boolean): Line {
  return cells([
    { text: "", columns: 2 },
    { text: spoken(WORDS[grade]), columns: 8, role: ROLES[grade] },
    { text: `${spoken(of)}: ${spoken(text)}`, columns: wide ? 108 : 69, role: grade === "soon" ? "dim" : "plain" },
  ]);
}

/** What is to be told of sieves and balance, in so many rows; the rest is counted. */
export function careLines({ care }: App, rows: number, wide: boolean): readonly Line[] {
  const matters = care === undefined ? [] : careMatters(care);
  const shown = matters.length > rows ? rows - 1 : rows;
  const more = matters.length - shown;
  const told = more > 0 ? [line(say`          and ${more} more of sieves and balance: s shows them`, "dim")] : [];
  return [...matters.slice(0, shown).map((matter) => matterLine(matter, wide)), ...told];
}
