import { phrase, say } from "../words/say.ts";
import { spoken } from "../words/spoken.ts";
import { type Line, said, sentenceOf, span, unsaid } from "./line.ts";

const UNIT = /^(.*) (g|%|um|mm)$/;
const VERDICTS: Readonly<Record<string, string>> = {
  "✓": phrase("within"),
  "✗": phrase("outside"),
  "~": phrase("borderline to"),
  "?": phrase("not judged against"),
};

const JUDGED: Readonly<Record<string, string>> = {
  "✓": phrase("within its limits"),
  "✗": phrase("outside its limits"),
  "~": phrase("borderline"),
};

/** A figure with nothing but a sign behind it says what the sign means. */
const figure = (text: string): string =>
  text
    .replace(/ – /g, say` to `)
    .replace("≤", say`at most`)
    .replace("≥", say`at least`)
    .replace(/^(.*\d.*) ([✓✗~])$/, (_, shown: string, sign: string) => `${shown} ${spoken(JUDGED[sign] ?? sign)}`);

interface Part {
  readonly name: string;
  readonly told: string;
}

/** "net g" over "9.80" reads "net 9.80 g"; a cell in hand says so, and one without a figure has none. */
function wordsOf({ name, told }: Part): string {
  if (told === "–") return say`${name}: none`;
  if (name.startsWith("±")) return told;
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

/** Where hands or mark are: nothing but its sign, the letter of a marked test, or that it is being saved. */
const MARKER = /^[▸…]\S?$/u;

/**
 * A row of a table with what it says where it is read aloud: "1.40 mm: net 9.80 g, passing 96.7 %, within 95 to 100". The
 * heading has a cell for each of the row's, named or not; empty cells say nothing.
 */
export const tabled = (heading: Line, row: Line): Line =>
  said(row, () => {
    const filled = row
      .map(({ text }, i) => ({ name: heading[i]?.text.trim() ?? "", told: text.trim() }))
      .filter(({ told }) => told !== "");
    const marked = MARKER.test(filled[0]?.told ?? "");
    const [head, ...rest] = judged(marked ? filled.slice(1) : filled);
    const name = figure((head?.told ?? "").replace("▌", ""));
    return sentenceOfList(marked, name, rest.map(wordsOf));
  });

const sentenceOfList = (marked: boolean, head: string, parts: readonly string[]): string => {
  const told = parts.filter((part) => part !== "");
  const words = told.length === 0 ? head : `${head}: ${told.join(", ")}`;
  return marked ? say`here ${words}` : words;
};

/** The same for a row of a list, from words of its own, which no column cuts. */
export const listed = (row: Line, marked: boolean, head: string, parts: readonly string[]): Line =>
  said(row, () =>
    sentenceOfList(
      marked,
      head,
      parts.map((part) => figure(part.trim())),
    ),
  );

/** Rows of texts in columns, the headings first: each says what it holds by these. */
export const tabledTexts = (drawn: readonly Line[], texts: readonly (readonly string[])[]): Line[] => {
  const [headings = [], ...rows] = texts.map((row) => row.map((text) => span(text)));
  return drawn.map((l, i) =>
    i === 0 ? unsaid(l) : said(l, () => sentenceOf(tabled(headings, rows[i - 1] ?? [])) ?? ""),
  );
};
