import type { Assessment } from "../../assess.ts";
import type { Product } from "../../record/product.ts";
import { inColumns, wrapped } from "../../report/columns.ts";
import { budgetNames, limitedNames } from "../../report/sureSection.ts";
import { budgetCells, chanceCells, chanceExplained, includedWords, notIncludedWords } from "../../report/sureTable.ts";
import { decidesWords } from "../../report/sureWords.ts";
import { columnsOf } from "../../terminal/sanitise.ts";
import type { Role } from "../../terminal/theme.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { type Line, line } from "../line.ts";
import type { Size } from "../place.ts";
import { tabledTexts } from "../sentences.ts";

const INDENT = 2;

const told = (texts: readonly string[], columns: number, role: Role = "plain"): Line[] =>
  texts.flatMap((text) => wrapped(text, columns - INDENT - 1, "  ")).map((text) => line(`  ${text}`, role));

const table = (texts: readonly (readonly string[])[], gap?: number): Line[] => {
  const drawn = inColumns(texts, gap).map((row, i) => line(`  ${row}`, i === 0 ? "dim" : "plain"));
  return tabledTexts(drawn, texts);
};

const isPlain = (text: string): boolean => !text.includes("BORDERLINE");

/** What decides, in sentences below the table of the first page. */
export const decidesLines = ({ howSure }: Assessment, columns: number): Line[] =>
  decidesWords(howSure).flatMap((text) => told([spoken(text)], columns, isPlain(text) ? "plain" : "borderline"));

/** Where the words of the results don't fit, their signs do. */
function fittedChances(rows: readonly (readonly string[])[], columns: number): readonly (readonly string[])[] {
  if (inColumns(rows).every((row) => columnsOf(row) <= columns)) return rows;
  return rows.map((row) => [...row.slice(0, -1), row.at(-1)?.split(" ").at(-1) ?? ""]);
}

/** Each limit with its guard band, the chance that it is met, and the risk of what was decided. */
export function chancesPage(assessment: Assessment, size: Size): Line[] {
  const { howSure } = assessment;
  const rows = fittedChances(chanceCells(howSure), size.columns - INDENT);
  if (rows.length === 0)
    return [line(say`  nothing is judged here, so there is no chance of conforming to tell`, "dim")];
  return [
    line(say`  how sure is each limit?`, "strong"),
    ...table(rows),
    ...told(chanceExplained(size.columns - INDENT - 1), size.columns, "dim"),
  ];
}

/** The whole budget by component, and what is not in it, with the reason. */
export function surenessPage(assessment: Assessment, product: Product, size: Size): Line[] {
  const { howSure } = assessment;
  const texts = [...notIncludedWords(howSure), includedWords(howSure)].filter((text) => text !== "");
  const words = told(texts.map(spoken), size.columns, "dim");
  const rows = (names: readonly string[]) => table(budgetCells(howSure, names, size.columns - INDENT), 1);
  const all = rows(budgetNames(assessment, product));
  const fits = 1 + all.length + words.length <= size.rows;
  return [
    line(say`  what makes it uncertain? standard uncertainty (k = 1) by component`, "strong"),
    ...(fits ? all : rows(limitedNames(assessment))),
    ...words,
  ];
}
