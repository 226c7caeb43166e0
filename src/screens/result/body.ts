import { assessTest } from "../../assess/assessTest.ts";
import type { Assessment } from "../../assess.ts";
import type { CheckName } from "../../procedure/verdict/check.ts";
import type { Draft } from "../../record/draft.ts";
import { wrapped } from "../../report/columns.ts";
import { decimalsOf, massText, pctText, valueText } from "../../report/figures.ts";
import { reasonText, type ShownValue, shownValues } from "../../report/shown.ts";
import { sureOn, sureText } from "../../report/sureFigures.ts";
import { columnsOf, pad } from "../../terminal/sanitise.ts";
import { phrase, say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { type Line, line, type Span, said, span, textOf, widthOf } from "../line.ts";
import type { Size } from "../place.ts";
import { limitBeside, signOf } from "../words.ts";
import { beyondLimits, drawnOverLines, overWords } from "./drawnOver.ts";
import { chancesPage, decidesLines, surenessPage } from "./sureness.ts";
import { fractionTable } from "./table.ts";
import { drawView, VIEWS } from "./views.ts";

type Tested = Pick<Draft, "weighings" | "chargeG" | "product" | "balance" | "remark"> &
  Partial<Pick<Draft, "shaking" | "earlierShaking">>;

const sureSpan = (sure: string): Span => span(sure.startsWith("±") ? ` ${sure}` : "", "dim");

const valueSpans = ({ label, found, limit }: ShownValue, sure: string): Span[] => [
  span(`${spoken(label)} `, "dim"),
  span(valueText(found), "strong"),
  sureSpan(found.determinable ? sure : ""),
  ...(limit ? [span(` (${limitBeside(limit)})`, "dim"), signOf(limit.result)] : []),
];

const inOneRow = (items: readonly (readonly Span[])[]): Span[] =>
  items.flatMap((item, i) => [span(i === 0 ? "  " : "   "), ...item]);

/** Items one after the other, as many to a row as fit. */
function flowed(items: readonly (readonly Span[])[], columns: number): Line[] {
  const rows: (readonly Span[])[][] = [];
  for (const item of items) {
    const last = rows.at(-1);
    const fitting = last && widthOf(inOneRow(last)) + widthOf(item) + 3 <= columns;
    if (last && fitting) last.push(item);
    else rows.push([item]);
  }
  return rows.map((row) => said(inOneRow(row), () => row.map(textOf).join("\n")));
}

/** The limit of loss in force, be it the product's own or that of the rule set it names. */
function lossLimit({ procedure }: Assessment): string {
  const inForce = procedure.rules.find(({ rule }) => rule === "loss");
  if (!inForce) return say`, no limit set`;
  const [, most] = /^loss or gain at most (.+)$/.exec(inForce.text) ?? [];
  return most === undefined ? ` (${spoken(inForce.text)})` : say` (at most ${spoken(most)})`;
}

function lossWords(assessment: Assessment, decimals: number): string {
  const { lossG, lossPct } = assessment;
  if (lossG === null || lossPct === null) return say`loss not known: the charge was not weighed`;
  const [grams, pct] = [massText(Math.abs(lossG), decimals), pctText(Math.abs(lossPct), 2)];
  return `${lossG < 0 ? say`gain ${grams} g = ${pct} %` : say`loss ${grams} g = ${pct} %`}${lossLimit(assessment)}`;
}

const CURVES = {
  "log-linear": phrase("curve log-linear"),
  linear: phrase("curve linear"),
  "log-probability": phrase("curve log-probability"),
  monotone: phrase("curve monotone"),
} as const;

function closure(assessment: Assessment, { balance }: Tested): Span[][] {
  const decimals = decimalsOf(balance.readabilityG);
  const { washedG, basis, interpolation } = assessment;
  const of = basis === "recovered" ? say`percent of the recovered total` : say`percent of the charge`;
  const washed = washedG === null ? [] : [say`washed ${massText(washedG, decimals)} g`];
  const told = [
    lossWords(assessment, decimals),
    ...washed,
    of,
    spoken(CURVES[interpolation]),
    ...overWords(assessment),
  ];
  return told.map((text) => [span(text, "dim")]);
}

const NOTICE_ROLE = { invalidates: "invalid", warning: "warning", note: "dim" } as const;

/** What was found, then what to do about it; notes that ask for nothing stay on the page of checks. */
export const noticeLines = ({ notices }: Assessment, columns: number, all = false): Line[] =>
  notices
    .filter(({ severity }) => all || severity !== "note")
    .flatMap(({ severity, text, remedy }) => {
      const sign = severity === "note" ? " " : "!";
      const told = remedy === undefined ? spoken(text) : `${spoken(text)}: ${spoken(remedy)}`;
      return wrapped(`${sign} ${told}`, columns - 3, "  ").map((row) => line(`  ${row}`, NOTICE_ROLE[severity]));
    });

function missingReasons(values: readonly ShownValue[], limits: Assessment["verdict"]["limits"]): Line[] {
  const wanted = values.filter((v) => !v.found.determinable && limits.some((l) => l.on === v.id));
  return wanted.map(({ label, found }) =>
    line(`  ? ${spoken(label)}: ${found.determinable ? "" : reasonText(found.reason)}`, "warning"),
  );
}

/** Why the shaking was cut short, portion by portion: it is signed with the rest. */
const cutShort = ({ shaking, earlierShaking = [] }: Tested, columns: number): Line[] =>
  [...earlierShaking, ...(shaking ? [shaking] : [])]
    .flatMap(({ skipped }) => (skipped === null ? [] : wrapped(say`shaking cut short: ${skipped}`, columns - 4)))
    .map((row) => line(`  ${row}`, "warning"));

/** In a window as low as this what decides comes before the values. */
const LOW_ROWS = 16;
/** Least height in which a drawing still says something. */
const LEAST_DRAWING_ROWS = 6;

function firstPage(assessment: Assessment, test: Tested, size: Size): Line[] {
  const values = shownValues(assessment, test.product);
  const shown = values.map((value) => valueSpans(value, sureText(sureOn(assessment.howSure, value.id))));
  const valueLines = flowed(shown, size.columns);
  const decides = assessment.verdict.test === "invalid" ? [] : decidesLines(assessment, size.columns);
  const upper = [
    ...fractionTable(assessment, decimalsOf(test.balance.readabilityG), size.columns),
    ...(size.rows < LOW_ROWS ? [...decides, ...valueLines] : [...valueLines, ...decides]),
    ...noticeLines(assessment, size.columns),
    ...cutShort(test, size.columns),
    ...beyondLimits(assessment, size.columns),
    ...missingReasons(values, assessment.verdict.limits),
    ...flowed(closure(assessment, test), size.columns),
    ...(test.remark === "" ? [] : [line(say`  remark: ${test.remark}`, "dim")]),
  ];
  const room = size.rows - upper.length;
  return room < LEAST_DRAWING_ROWS
    ? upper
    : [...upper, ...drawView("passing", assessment, test.product, { columns: size.columns, rows: room })];
}

/** Checks that are not met and only warn leave the test valid, and must not look as if they did not. */
const notMetSpan = ({ verdict }: Assessment): Span =>
  verdict.test === "invalid" ? span("✗", "fail") : span("!", "warning");

const CHECK_SIGN = {
  met: span("✓", "pass"),
  "not done": span("?", "warning"),
  "not asked": span(" "),
};

const CHECK_WORDS: Readonly<Record<Exclude<CheckName, "load">, string>> = {
  balance: phrase("balance"),
  sieves: phrase("sieves"),
  charge: phrase("charge"),
  readability: phrase("readability"),
  moisture: phrase("moisture"),
  washing: phrase("washing"),
  program: phrase("program"),
  "end point": phrase("end point"),
  loss: phrase("loss"),
};

/** Fills in nothing, but makes a message of its own: as the name of a check "load" is what lies on a sieve. */
const NOUN = "";

const checkWord = (check: CheckName): string => (check === "load" ? say`load${NOUN}` : spoken(CHECK_WORDS[check]));

/** How the test itself was judged: each check, the rules in force with their sources, every notice with its remedy. */
function checksPage(assessment: Assessment, size: Size): Line[] {
  const { checks, rules, ruleSet } = assessment.procedure;
  const asked = checks.filter(({ state }) => state !== "not asked");
  const unasked = checks.filter(({ state }) => state === "not asked").map(({ check }) => checkWord(check));
  const by = ruleSet
    ? say`  is the test valid? by ${ruleSet.title}`
    : say`  is the test valid? by the product's own limits; it names no rule set`;
  const inForce = rules.flatMap(({ text, source, standing }) => {
    const told = standing === "memory" ? say`${spoken(source)} (recalled: check your copy)` : spoken(source);
    return wrapped(`${spoken(text)} · ${told}`, size.columns - 6, "  ").map((row) => line(`    ${row}`, "dim"));
  });
  const columns = Math.max(12, ...asked.map(({ check }) => columnsOf(checkWord(check)) + 1));
  return [
    line(by, "strong"),
    ...asked.flatMap(({ check, state, text }): Line[] => {
      const sign = state === "not met" ? notMetSpan(assessment) : CHECK_SIGN[state];
      const [first = "", ...more] = wrapped(spoken(text), size.columns - columns - 5);
      const rest = more.map((row) => line(`    ${" ".repeat(columns)}${row}`));
      return [[span("  "), sign, span(` ${pad(checkWord(check), columns)}`), span(first)], ...rest];
    }),
    ...(unasked.length > 0
      ? wrapped(say`    not asked by this product: ${unasked.join(", ")}`, size.columns - 1, "      ").map((row) =>
          line(row, "dim"),
        )
      : []),
    ...noticeLines(assessment, size.columns, true),
    ...drawnOverLines(assessment, size.columns),
    ...(inForce.length > 0 ? [line(say`  rules in force`, "strong"), ...inForce] : []),
  ];
}

/** The result of a test: everything on the first page, then one drawing or list a page. */
export function resultBody(test: Tested, viewAt: number, size: Size): Line[] {
  const assessed = assessTest(test);
  if (!assessed.ok) return [[], line(`  ! ${spoken(assessed.reason)}`, "warning")];
  const view = VIEWS[viewAt % VIEWS.length] ?? "summary";
  if (view === "summary") return firstPage(assessed.value, test, size);
  if (view === "checks") return checksPage(assessed.value, size);
  if (view === "chances") return chancesPage(assessed.value, size);
  if (view === "sureness") return surenessPage(assessed.value, test.product, size);
  return drawView(view, assessed.value, test.product, size);
}
