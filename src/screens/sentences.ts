import { phrase, say } from "../words/say.ts";
import { spoken } from "../words/spoken.ts";
import { type Line, said } from "./line.ts";

const UNIT = /^(.*) (g|%|um|mm)$/;
const VERDICTS: Readonly<Record<string, string>> = {
  "✓": phrase("within"),
  "✗": phrase("outside"),
  "~": phrase("borderline to"),
  "?": phrase("not judged against"),
};

const figure = (text: string): string =>
  text.replace(/ – /g, say` to `).replace("≤", say`at most`).replace("≥", say`at least`);

interface Part {
  readonly name: string;
  readonly told: string;
}

/** "net g" over "9.80" reads "net 9.80 g"; a cell in hand says so. */
function wordsOf({ name, told }: Part): string {
  const typing = told.endsWith("▌");
  const shown = figure(told.replace("▌", ""));
  const [, what = name, unit = ""] = UNIT.exec(name) ?? [];
  const words = `${what} ${shown}${unit === "" || shown === "" ? "" : ` ${unit}`}`.trim();
  return typing ? say`${words} being typed` : words;
}

/** The sign of a limit goes before the limit: "within 95 to 100", "outside 95 to 100 below". */
function judged(parts: readonly Part[]): readonly Part[] {
  const told: Part[] = [];
  for (const part of parts) {
    const [sign = "", ...rest] = part.told.split(" ");
    const verdict = part.name === "" ? VERDICTS[sign] : undefined;
    const limit = verdict === undefined ? undefined : told.pop();
    told.push(verdict && limit ? { name: spoken(verdict), told: [limit.told, ...rest].join(" ") } : part);
  }
  return told;
}

/**
 * A row of a table with what it says where it is read aloud: "1.40 mm: net 9.80 g, passing 96.7 %, within 95 to 100". The
 * heading has a cell for each of the row's, named or not; empty cells say nothing.
 */
export const tabled = (heading: Line, row: Line): Line =>
  said(row, () => {
    const filled = row
      .map(({ text }, i) => ({ name: heading[i]?.text.trim() ?? "", told: text.trim() }))
      .filter(({ told }) => told !== "");
    const marked = filled[0]?.told === "▸" || filled[0]?.told === "…";
    const [head, ...rest] = judged(marked ? filled.slice(1) : filled);
    const words = `${figure(head?.told ?? "")}: ${rest.map(wordsOf).join(", ")}`;
    return marked ? say`here ${words}` : words;
  });
