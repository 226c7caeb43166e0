import { hasPassed } from "../procedure/balance/balanceState.ts";
import type { IndexRow } from "../record/indexRow.ts";
import type { LogEntry } from "../record/logEntry.ts";
import { shortSeal } from "../record/seal.ts";
import type { Handover } from "../shift/handover.ts";
import type { LateSample } from "../shift/sampling.ts";
import { columnsOf, drawable, pad } from "../terminal/sanitise.ts";
import { SIGNS } from "../terminal/signs.ts";
import { clockText, dayText, momentText, shortMoment } from "../words/figures.ts";
import { ENGLISH } from "../words/manner.ts";
import { say } from "../words/say.ts";
import { inManner } from "../words/speaking.ts";
import { spoken } from "../words/spoken.ts";
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

function verdictOf({ test, verdict }: IndexRow): string {
  if (test === "invalid") return spoken(TEST_WORDS.invalid);
  return test === "not checked" && verdict === "pass" ? say`PASS unproven` : spoken(PRODUCT_WORDS[verdict]);
}

/** What later entries made of a test, in a word; nothing where there are none. */
export const amendedWords = ({ amended }: Pick<IndexRow, "amended">): string =>
  [
    amended?.voided ? say`VOID` : "",
    amended?.waived ? say`waived` : "",
    amended !== undefined && amended.corrections > 0 ? say`corrected` : "",
  ]
    .filter((word) => word !== "")
    .join(", ");

const testHeading = (): readonly string[] => [
  say`time`,
  say`no.`,
  say`product`,
  say`lot`,
  say`line`,
  "d50",
  say`loss %`,
  say`verdict`,
];

/** How a retest came about stands below its row: a row is as wide as the page already. */
const retestLine = (row: IndexRow | undefined): readonly string[] =>
  row?.retest === undefined ? [] : [`             ${spoken(repeatedWords(row.retest))}`];

function testRows(tests: readonly IndexRow[]): string[] {
  const rows = tests.map((row) => {
    const d50 = row.values["percentileUm@50"];
    return [
      clockText(row.at),
      `${row.number}`,
      row.product,
      row.lot,
      row.line,
      d50 === undefined ? SIGNS.none : sizeText(d50),
      pctText(row.lossPct, 2),
      [verdictOf(row), spoken(row.disposition ?? ""), amendedWords(row)].filter((word) => word !== "").join(", "),
    ].map(drawable);
  });
  const [heading = "", ...lines] = leftColumns([testHeading(), ...rows]);
  return [heading, ...lines.flatMap((line, i) => [line, ...retestLine(tests[i])])];
}

/** Cells in columns as wide as their widest cell, all to the left: the page is read along its rows. */
function leftColumns(rows: readonly (readonly string[])[]): string[] {
  const widths = (rows[0] ?? []).map((_, column) => Math.max(...rows.map((row) => columnsOf(row[column] ?? ""))));
  return rows.map((row) =>
    row
      .map((cell, i) => pad(cell, widths[i] ?? 0))
      .join("  ")
      .trimEnd(),
  );
}

const lateWords = ({ rule, dueAt, takenAt, why }: LateSample, isOver: boolean): string => {
  const open = isOver ? say`NOT TAKEN by the end` : say`not taken yet`;
  const taken = takenAt === null ? open : say`taken ${clockText(takenAt)}`;
  return say`${rule.product} on ${rule.line} (${spoken(why)}): due ${shortMoment(dueAt)}, ${taken}`;
};

const told = (entry: LogEntry): string => `${clockText(entry.at)}  ${spoken(entryWords(entry))}, ${entry.by}`;

/** The counts that are read first: how many tests, how they ended. */
function counts(tests: readonly IndexRow[]): string {
  const counted = tests.filter(({ amended }) => amended?.voided !== true);
  const invalid = counted.filter(({ test }) => test === "invalid").length;
  const of = (verdict: IndexRow["verdict"]) =>
    counted.filter((row) => row.test !== "invalid" && row.verdict === verdict).length;
  const told: readonly (readonly [number, string])[] = [
    [of("pass"), say`${of("pass")} pass`],
    [of("fail"), say`${of("fail")} fail`],
    [of("borderline"), say`${of("borderline")} borderline`],
    [of("not judged"), say`${of("not judged")} not judged`],
    [invalid, say`${invalid} invalid`],
    [tests.length - counted.length, say`${tests.length - counted.length} void`],
  ];
  const all = tests.length === 1 ? say`1 test` : say`${tests.length} tests`;
  return [all, ...told.flatMap(([many, words]) => (many === 0 ? [] : [words]))].join(", ");
}

const BLANK = "____________________";
const unsigned = (): string => say`handed over by ${BLANK}   taken over by ${BLANK}`;

interface Signed {
  readonly by: string;
  readonly at: string;
}

const signature = ({ by, at }: Signed): string => `${by}, ${momentText(at)}`;

/** Who signed, and when; a line to sign on where nobody did. One person on both sides is allowed, and said. */
function signatureLines({ handed, taken }: Pick<Handover, "handed" | "taken">): string[] {
  if (handed === null) return [unsigned()];
  const given = drawable(say`handed over by ${signature(handed)} (no. ${handed.number})`);
  if (taken === null) return [say`${given}   taken over by ${BLANK}`];
  const same = taken.by === handed.by ? [say`${SIGNS.invalid} handed over and taken over by one person`] : [];
  return [given, drawable(say`taken over by ${signature(taken)} (no. ${taken.number})`), ...same];
}

/** The page as it is kept when it is handed over: with the name of whoever signs it, in English as all records are. */
export const signedPage = (page: string, by: Signed): string =>
  inManner(ENGLISH, () =>
    page.replace(unsigned(), () => drawable(say`handed over by ${signature(by)}   taken over by ${BLANK}`)),
  );

const offsetOf = (at: string): string => at.slice(19).replace("Z", "+00:00");

/** In the night in which the clock is changed an hour comes twice, or not at all. */
function clockChange({ began, ends }: Handover["shift"]): string[] {
  const [from, to] = [offsetOf(began), offsetOf(ends)];
  return from === to
    ? []
    : [say`the clock is changed in this shift (UTC${from} to UTC${to}); what follows is in the order of the log`];
}

const careSign = (grade: Handover["careNow"][number]["grade"]): string =>
  grade === "stop" ? say`${SIGNS.invalid} out of use` : grade === "act" ? SIGNS.invalid : say`soon`;

/** The checks and the care of the shift, then how sieves and balance stand now. */
const careOf = ({ balanceChecks, care, careNow }: Handover): string[] => [
  ...balanceChecks.map(({ at, check, by }) =>
    hasPassed(check)
      ? say`${clockText(at)}  balance ${check.balance} passed, ${by}`
      : say`${clockText(at)}  balance ${check.balance} FAILED, ${by}`,
  ),
  ...care.map(told),
  ...careNow.map(({ of, grade, text }) => say`now  ${careSign(grade)}  ${spoken(of)}: ${spoken(text)}`),
];

/** A section that is named in passing where there is nothing to tell in it. */
interface MinorSection {
  readonly title: string;
  readonly inPassing: string;
  readonly lines: readonly string[];
}

const minorSections = (handover: Handover, { drifts }: HandoverExtras): readonly MinorSection[] => [
  { title: say`HOLDS CLOSED`, inPassing: say`holds closed`, lines: handover.closed.map(told) },
  { title: say`CHANGES OF THE LINE`, inPassing: say`changes of the line`, lines: handover.lineEvents.map(told) },
  { title: say`BALANCE AND SIEVES`, inPassing: say`balance and sieves`, lines: careOf(handover) },
  { title: say`DRIFTS`, inPassing: say`drifts`, lines: drifts },
  {
    title: say`CORRECTED, VOIDED, ENDED`,
    inPassing: say`corrected, voided, ended`,
    lines: [...handover.corrections, ...handover.ended].map(told),
  },
  {
    title: say`NOTES`,
    inPassing: say`notes`,
    lines: handover.notes.map(({ at, text, by }) => `${clockText(at)}  ${text} (${by})`),
  },
  { title: say`THE STATION ITSELF`, inPassing: say`the station itself`, lines: handover.station.map(told) },
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
    ...(lines.length === 0 ? [say`  none`] : lines.flatMap((line) => wrapped(`  ${drawable(line)}`, width, "      "))),
  ];
  const minor = minorSections(handover, extras);
  const silent = minor.filter(({ lines }) => lines.length === 0).map(({ inPassing }) => inPassing);
  const work = handover.inWork.map(
    ({ product, lot, line, stage }) => say`${product.code} lot ${lot}, ${line}: ${spoken(stage)}`,
  );
  return `${[
    ...wrapped(drawable(say`HANDOVER  ${extras.station}  ${extras.plant}`), width),
    drawable(
      say`${shift.name}  ${momentText(shift.began)} to ${momentText(shift.ends)}  production day ${dayText(shift.day)}`,
    ),
    ...clockChange(shift),
    ...(extras.demo ? [say`demo station: every name, test and figure here is invented`] : []),
    SIGNS.rule.repeat(width),
    counts(tests),
    ...section(
      say`HOLDS OPEN`,
      handover.open.map((hold) => `${momentText(hold.at)}  ${spoken(entryWords(hold))}`),
    ),
    ...section(
      say`LATE SAMPLES`,
      handover.late.map((late) => lateWords(late, isOver)),
    ),
    ...section(say`TESTS IN WORK`, work),
    "",
    say`TESTS`,
    ...(tests.length === 0 ? [say`  none`] : testRows(tests).map((row) => `  ${row}`)),
    ...minor.flatMap(({ title, lines }) => (lines.length === 0 ? [] : section(title, lines))),
    ...(silent.length === 0 ? [] : ["", ...wrapped(say`nothing to tell of: ${silent.join("; ")}`, width, "  ")]),
    SIGNS.rule.repeat(width),
    head === null ? say`the log is empty` : say`the log ends with entry ${head.number}, seal ${shortSeal(head.seal)}`,
    ...(extras.signOn ? [] : [say`initials are not checked by PIN at this station`]),
    say`drawn up ${momentText(extras.printedAt)}`,
    "",
    ...signatureLines(handover),
  ].join("\n")}\n`;
}
