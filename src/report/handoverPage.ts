import { hasPassed } from "../procedure/balance/balanceState.ts";
import type { IndexRow } from "../record/indexRow.ts";
import type { LogEntry } from "../record/logEntry.ts";
import { shortSeal } from "../record/seal.ts";
import type { Handover } from "../shift/handover.ts";
import type { LateSample } from "../shift/sampling.ts";
import { columnsOf, drawable, pad } from "../terminal/sanitise.ts";
import { SIGNS } from "../terminal/signs.ts";
import { wrapped } from "./columns.ts";
import { entryWords } from "./entryLine.ts";
import { pctText, sizeText } from "./figures.ts";
import { repeatedWords } from "./retestWords.ts";
import { PRODUCT_WORDS, TEST_WORDS } from "./verdictWords.ts";

/** What the page needs besides the facts: whose station, and what others worked out for it. */
export interface HandoverExtras {
  readonly station: string;
  readonly plant: string;
  readonly demo: boolean;
  readonly printedAt: string;
  /** Drifts and forecasts in words, the most pressing first. */
  readonly drifts: readonly string[];
  readonly signOn: boolean;
}

const clock = (at: string): string => at.slice(11, 16);
const date = (at: string): string => at.slice(0, 16).replace("T", " ");

function verdictOf({ test, verdict }: IndexRow): string {
  if (test === "invalid") return TEST_WORDS.invalid;
  return test === "not checked" && verdict === "pass" ? "PASS unproven" : PRODUCT_WORDS[verdict];
}

/** What later entries made of a test, in a word; nothing where there are none. */
export const amendedWords = ({ amended }: Pick<IndexRow, "amended">): string =>
  [
    amended?.voided ? "VOID" : "",
    amended?.waived ? "waived" : "",
    amended !== undefined && amended.corrections > 0 ? "corrected" : "",
  ]
    .filter((word) => word !== "")
    .join(", ");

const TEST_HEADING = ["time", "no.", "product", "lot", "line", "d50", "loss %", "verdict"];

/** How a retest came about stands below its row: a row is as wide as the page already. */
const retestLine = (row: IndexRow | undefined): readonly string[] =>
  row?.retest === undefined ? [] : [`             ${repeatedWords(row.retest)}`];

function testRows(tests: readonly IndexRow[]): string[] {
  const rows = tests.map((row) => {
    const d50 = row.values["percentileUm@50"];
    return [
      clock(row.at),
      `${row.number}`,
      row.product,
      row.lot,
      row.line,
      d50 === undefined ? SIGNS.none : sizeText(d50),
      pctText(row.lossPct, 2),
      [verdictOf(row), row.disposition ?? "", amendedWords(row)].filter((word) => word !== "").join(", "),
    ].map(drawable);
  });
  const [heading = "", ...lines] = leftColumns([TEST_HEADING, ...rows]);
  return [heading, ...lines.flatMap((line, i) => [line, ...retestLine(tests[i])])];
}

/** Cells in columns as wide as their widest cell, all to the left: the page is read along its rows. */
function leftColumns(rows: readonly (readonly string[])[]): string[] {
  const widths = TEST_HEADING.map((_, column) => Math.max(...rows.map((row) => columnsOf(row[column] ?? ""))));
  return rows.map((row) =>
    row
      .map((cell, i) => pad(cell, widths[i] ?? 0))
      .join("  ")
      .trimEnd(),
  );
}

const lateWords = ({ rule, dueAt, takenAt, why }: LateSample, isOver: boolean): string => {
  const open = isOver ? "NOT TAKEN by the end" : "not taken yet";
  const taken = takenAt === null ? open : `taken ${clock(takenAt)}`;
  return `${rule.product} on ${rule.line} (${why}): due ${date(dueAt).slice(5)}, ${taken}`;
};

const told = (entry: LogEntry): string => `${clock(entry.at)}  ${entryWords(entry)}, ${entry.by}`;

/** The counts that are read first: how many tests, how they ended. */
function counts(tests: readonly IndexRow[]): string {
  const counted = tests.filter(({ amended }) => amended?.voided !== true);
  const invalid = counted.filter(({ test }) => test === "invalid").length;
  const of = (verdict: IndexRow["verdict"]) =>
    counted.filter((row) => row.test !== "invalid" && row.verdict === verdict).length;
  const words = [
    `${tests.length} ${tests.length === 1 ? "test" : "tests"}`,
    `${of("pass")} pass`,
    `${of("fail")} fail`,
    `${of("borderline")} borderline`,
    `${of("not judged")} not judged`,
    `${invalid} invalid`,
    `${tests.length - counted.length} void`,
  ];
  return words.filter((word, i) => i === 0 || !word.startsWith("0 ")).join(", ");
}

const BLANK = "____________________";
const UNSIGNED = `handed over by ${BLANK}   taken over by ${BLANK}`;

interface Signed {
  readonly by: string;
  readonly at: string;
}

const signature = ({ by, at }: Signed): string => `${by}, ${date(at)}`;

/** Who signed, and when; a line to sign on where nobody did. One person on both sides is allowed, and said. */
function signatureLines({ handed, taken }: Pick<Handover, "handed" | "taken">): string[] {
  if (handed === null) return [UNSIGNED];
  const given = drawable(`handed over by ${signature(handed)} (no. ${handed.number})`);
  if (taken === null) return [`${given}   taken over by ${BLANK}`];
  const same = taken.by === handed.by ? [`${SIGNS.invalid} handed over and taken over by one person`] : [];
  return [given, drawable(`taken over by ${signature(taken)} (no. ${taken.number})`), ...same];
}

/** The page as it is kept when it is handed over: with the name of whoever signs it. */
export const signedPage = (page: string, by: Signed): string =>
  page.replace(UNSIGNED, () => drawable(`handed over by ${signature(by)}   taken over by ${BLANK}`));

const offsetOf = (at: string): string => at.slice(19).replace("Z", "+00:00");

/** In the night in which the clock is changed an hour comes twice, or not at all. */
function clockChange({ began, ends }: Handover["shift"]): string[] {
  const [from, to] = [offsetOf(began), offsetOf(ends)];
  return from === to
    ? []
    : [`the clock is changed in this shift (UTC${from} to UTC${to}); what follows is in the order of the log`];
}

const CARE_SIGNS = { stop: `${SIGNS.invalid} out of use`, act: SIGNS.invalid, soon: "soon" } as const;

/** The checks and the care of the shift, then how sieves and balance stand now. */
const careOf = ({ balanceChecks, care, careNow }: Handover): string[] => [
  ...balanceChecks.map(
    ({ at, check, by }) => `${clock(at)}  balance ${check.balance} ${hasPassed(check) ? "passed" : "FAILED"}, ${by}`,
  ),
  ...care.map(told),
  ...careNow.map(({ of, grade, text }) => `now  ${CARE_SIGNS[grade]}  ${of}: ${text}`),
];

/**
 * The page that a shift hands over: what is open first, then what was late, tests, changes of the line, balance and sieves,
 * drifts, corrections, notes, the station itself, and the end of the record chain, which on paper proves later that
 * nothing was cut off. Sections with nothing in them say so, so that nothing looks forgotten.
 */
export function handoverPage(handover: Handover, extras: HandoverExtras, width: number): string {
  const { shift, tests, head } = handover;
  const isOver = Date.parse(extras.printedAt) >= Date.parse(shift.ends);
  const section = (title: string, lines: readonly string[]): string[] => [
    "",
    title,
    ...(lines.length === 0 ? ["  none"] : lines.flatMap((line) => wrapped(`  ${drawable(line)}`, width, "      "))),
  ];
  /** Where nothing is told the title stands in one line with the others of that kind. */
  const minor: readonly (readonly [string, readonly string[]])[] = [
    ["HOLDS CLOSED", handover.closed.map(told)],
    ["CHANGES OF THE LINE", handover.lineEvents.map(told)],
    ["BALANCE AND SIEVES", careOf(handover)],
    ["DRIFTS", extras.drifts],
    ["CORRECTED, VOIDED, ENDED", [...handover.corrections, ...handover.ended].map(told)],
    ["NOTES", handover.notes.map(({ at, text, by }) => `${clock(at)}  ${text} (${by})`)],
    ["THE STATION ITSELF", handover.station.map(told)],
  ];
  const silent = minor.filter(([, lines]) => lines.length === 0).map(([title]) => title.toLowerCase());
  const work = handover.inWork.map(({ product, lot, line, stage }) => `${product.code} lot ${lot}, ${line}: ${stage}`);
  return `${[
    ...wrapped(drawable(`HANDOVER  ${extras.station}  ${extras.plant}`), width),
    drawable(`${shift.name}  ${date(shift.began)} to ${date(shift.ends)}  production day ${shift.day}`),
    ...clockChange(shift),
    ...(extras.demo ? ["demo station: every name, test and figure here is invented"] : []),
    SIGNS.rule.repeat(width),
    counts(tests),
    ...section(
      "HOLDS OPEN",
      handover.open.map((hold) => `${date(hold.at)}  ${entryWords(hold)}`),
    ),
    ...section(
      "LATE SAMPLES",
      handover.late.map((late) => lateWords(late, isOver)),
    ),
    ...section("TESTS IN WORK", work),
    "",
    "TESTS",
    ...(tests.length === 0 ? ["  none"] : testRows(tests).map((row) => `  ${row}`)),
    ...minor.flatMap(([title, lines]) => (lines.length === 0 ? [] : section(title, lines))),
    ...(silent.length === 0 ? [] : ["", ...wrapped(`nothing to tell of: ${silent.join("; ")}`, width, "  ")]),
    SIGNS.rule.repeat(width),
    head === null ? "the log is empty" : `the log ends with entry ${head.number}, seal ${shortSeal(head.seal)}`,
    ...(extras.signOn ? [] : ["initials are not checked by PIN at this station"]),
    `drawn up ${date(extras.printedAt)}`,
    "",
    ...signatureLines(handover),
  ].join("\n")}\n`;
}
