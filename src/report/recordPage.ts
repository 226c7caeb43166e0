import { assessTest } from "../assess/assessTest.ts";
import type { Amendment, Head, TestEntry } from "../record/logEntry.ts";
import { sealOf, shortSeal } from "../record/seal.ts";
import type { TestRecord } from "../record/test.ts";
import { standingOf, type TestHistory, type Version, versionsOf } from "../record/versions.ts";
import { drawable } from "../terminal/sanitise.ts";
import { SIGNS } from "../terminal/signs.ts";
import { momentText } from "../words/figures.ts";
import { amendmentText, correctionsText, standingText } from "./amendmentWords.ts";
import { inColumns, wrapped } from "./columns.ts";
import { decimalsOf, massText, NO_FIGURE } from "./figures.ts";
import { resultPage } from "./page.ts";
import { retestWords } from "./retestWords.ts";
import { sievesUsedWords } from "./sievesUsed.ts";
import { signedWords } from "./signOnWords.ts";
import { takenOverWords } from "./takenOverWords.ts";
import { PRODUCT_WORDS, TEST_WORDS } from "./verdictWords.ts";
import { DIFFERS, fieldText, markedCell, versionRows } from "./versionTable.ts";

/** What a record is printed with: how wide, its curve, by which program and when, and where the log ended. */
export interface RecordLook {
  readonly width: number;
  readonly curveOf: (test: TestRecord) => readonly string[];
  readonly printed: string;
  readonly head: Pick<Head, "number" | "seal">;
  /** The test as it was recorded, instead of as it is to be read today. */
  readonly original: boolean;
}

/** How many versions stand side by side before the next ones come below. */
const VERSIONS_ACROSS = 3;

/**
 * A recorded test for an auditor: who and when, the result of the version shown, every version side by side, all that was
 * said later with its reasons, the seals, and what the names on it are worth.
 */
export function recordPage(history: TestHistory, look: RecordLook): string {
  const { versions, unfit } = versionsOf(history);
  const shown = (look.original ? versions[0] : versions.at(-1)) ?? originalOf(history);
  const rule = SIGNS.rule.repeat(look.width);
  const parts: readonly (readonly string[])[] = [
    heading(history, shown, look),
    [rule, ...result(shown.test, look)],
    versions.length > 1 ? [rule, ...versionTables(versions), ...unfit.map(unfitText)] : [],
    laterEntries(history, look.width),
    seals(history, look),
  ];
  const lines = parts.filter((part) => part.length > 0).map((part) => part.map(drawable).join("\n"));
  return `${lines.join("\n\n")}\n`;
}

const originalOf = ({ entry }: TestHistory): Version => ({
  test: entry.test,
  number: entry.number,
  at: entry.at,
  by: entry.by,
  reason: null,
});

function heading(history: TestHistory, shown: Version, { width, original }: RecordLook): string[] {
  const { number, at, day, station, test } = history.entry;
  const standing = standingText(standingOf(history));
  const words = [
    `RECORD OF TEST no. ${number}   station ${station}${standing === "" ? "" : `   ${standing}`}`,
    `set out ${momentText(test.startedAt)}, recorded ${momentText(at)}, production day ${day}, ${signedWords(history.entry)}`,
    ...whichVersion(history, shown, original),
    `sampling point ${shown.test.samplingPoint || NO_FIGURE}   disposition ${shown.test.disposition ?? NO_FIGURE}`,
    `balance ${test.balance.id}, ${test.balance.readabilityG} g   shaker program ${test.program?.code ?? NO_FIGURE}${shaking(test)}`,
    ...sievesUsedWords(test),
    ...takenOverWords(shown.test),
    ...(shown.test.retest === undefined ? [] : [retestWords(shown.test)]),
    ...(shown.test.remark === "" ? [] : [`remark: ${shown.test.remark}`]),
  ];
  return words.flatMap((text) => wrapped(text, width, "  "));
}

const shaking = ({ shaking: { skipped } }: TestRecord): string =>
  skipped === null ? "" : `, shaking cut short: ${skipped}`;

/** Which version the figures below are of; always said where there is more than one. */
function whichVersion(history: TestHistory, shown: Version, original: boolean): string[] {
  const { corrections } = standingOf(history);
  if (corrections === 0) return [];
  const times = correctionsText(corrections);
  return original
    ? [`${times} later: what follows is the ORIGINAL, not what is to be read today`]
    : [`${times}: what follows is the version of no. ${shown.number}, which is to be read today`];
}

function result(test: TestRecord, { width, curveOf, printed }: RecordLook): string[] {
  const { signed, product, lot, line, balance } = test;
  const verdicts = `signed as ${TEST_WORDS[signed.test]}   PRODUCT ${PRODUCT_WORDS[signed.product]}   (program ${signed.program})`;
  const assessed = assessTest(test);
  if (!assessed.ok) return [verdicts, `can't be assessed any more: ${assessed.reason}`];
  const { verdict } = assessed.value;
  const same = verdict.test === signed.test && verdict.product === signed.product;
  const otherwise = same ? [] : [`${SIGNS.invalid} this program computes other verdicts, which stand below`];
  const head = { product, lot, line, printed, decimals: decimalsOf(balance.readabilityG) };
  const page = resultPage(assessed.value, head, { width, curve: curveOf(test) });
  return [verdicts, ...otherwise, "", ...page.trimEnd().split("\n")];
}

/** The versions side by side, a few at a time; the one before them stands at the left again. */
function versionTables(versions: readonly Version[]): string[] {
  const rows = versionRows(versions.map(({ test }) => test));
  const tables: string[] = [];
  for (let first = 0; first < versions.length; first += VERSIONS_ACROSS) {
    const numbers = versions.map((_, i) => i).slice(Math.max(0, first - (first > 0 ? 1 : 0)), first + VERSIONS_ACROSS);
    const titles = numbers.map((i) => `  ${i === 0 ? "original" : `version ${i + 1}`}, no. ${versions[i]?.number}`);
    const table = rows.map((row) => [row.label, ...numbers.map((i) => markedCell(row, i))]);
    tables.push(...(first > 0 ? [""] : []), ...leftAligned([[`${DIFFERS} differs from before`, ...titles], ...table]));
  }
  return ["versions", ...tables];
}

/** Columns as wide as their widest cell, all to the left: words and figures stand in one column here. */
function leftAligned(rows: readonly (readonly string[])[]): string[] {
  const columns = rows[0]?.length ?? 0;
  let lines = rows.map((row) => row[0] ?? "");
  for (let column = 1; column < columns; column++)
    lines = inColumns(rows.map((row, i) => [lines[i] ?? "", row[column] ?? ""]));
  return lines;
}

const unfitText = (number: number): string =>
  `${SIGNS.invalid} entry no. ${number} corrects what does not stand there, and is left out`;

const contentText = (content: string | number | null): string =>
  content === null || content === "" ? NO_FIGURE : typeof content === "number" ? massText(content, 3) : content;

function laterEntries({ later }: TestHistory, width: number): string[] {
  if (later.length === 0) return [];
  return ["later entries about this test", ...later.flatMap((entry) => laterLines(entry, width))];
}

function laterLines(entry: Amendment, width: number): string[] {
  const changes =
    entry.kind === "correction"
      ? entry.changes.map((change) => `${fieldText(change)}: ${contentText(change.from)} -> ${contentText(change.to)}`)
      : [];
  return [
    ...wrapped(`  ${amendmentText(entry)}`, width, "    "),
    ...changes.flatMap((text) => wrapped(`    ${text}`, width, "      ")),
  ];
}

function seals({ entry, later }: TestHistory, { head, width }: RecordLook): string[] {
  const one = (of: TestEntry | Amendment) => `no. ${of.number}: ${shortSeal(sealOf(of))}`;
  const all: readonly (TestEntry | Amendment)[] = [entry, ...later];
  const unproven = all.some(({ signedOn }) => signedOn !== true);
  return [
    ...wrapped(`seals  ${all.map(one).join("   ")}`, width, "  "),
    `end of the log: entry ${head.number}, ${shortSeal(head.seal)}`,
    ...(unproven
      ? wrapped("initials without a PIN are what somebody typed; nothing proves whose they are", width)
      : []),
  ];
}
