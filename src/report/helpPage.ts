import type { CharacteristicValue } from "../grading/values/characteristicValue.ts";
import { READ_FROM_CURVE } from "../grading/values/sharedWords.ts";
import { CHARACTERISTIC_VALUES } from "../grading/values/table.ts";
import { SIGNS } from "../terminal/signs.ts";
import { inColumns, wrapped } from "./columns.ts";
import { LISTS, standardsPage, termPage, termsPage } from "./glossaryPage.ts";
import type { Subject } from "./subject.ts";
import { TOPICS, type Topic } from "./topics.ts";
import { type ToldOfValue, valuePage } from "./valuePage.ts";

/** A name with its unit; a pure number has none, and some labels say it themselves. */
const withUnit = (name: string, { label, unit }: CharacteristicValue): string =>
  unit === "1" || label.endsWith(` in ${unit}`) ? name : `${name}, in ${unit}`;

const percentileWords = (passingPct: number): ToldOfValue => ({
  formula: `d${passingPct}, the smallest size whose passing % by mass reaches ${passingPct}`,
  convention: `The number is % passing: d10 is finer than d90. ${READ_FROM_CURVE}`,
  needs: `${passingPct} % passing within the sieves`,
  source: "B. M. Das, Principles of Geotechnical Engineering; ASTM D6913 (memory)",
});

function topicPage({ name, title, paragraphs, table = [] }: Topic, width: number): string[] {
  const told = paragraphs.flatMap((text, i) => [...(i === 0 ? [] : [""]), ...wrapped(text, width)]);
  return [`${name}: ${title}`, SIGNS.rule.repeat(width), ...told, ...(table.length > 0 ? ["", ...table] : [])];
}

function pageOn(subject: Subject, width: number): string[] {
  if (subject.kind === "topic") return topicPage(subject.topic, width);
  if (subject.kind === "term") return termPage(subject.term, width);
  if (subject.kind === "terms") return termsPage(width);
  if (subject.kind === "standards") return standardsPage(width);
  if (subject.kind === "percentile") {
    const { passingPct } = subject;
    return [`d${passingPct}, in um`, SIGNS.rule.repeat(width), ...valuePage(percentileWords(passingPct), null, width)];
  }
  const { row } = subject;
  const title = withUnit(`${row.label} (${row.id})`, row);
  return [title, SIGNS.rule.repeat(width), ...valuePage(row, null, width)];
}

/** All that is told about a value, a percentile or a topic, without a test. */
export const helpPage = (subject: Subject, width: number): string => `${pageOn(subject, width).join("\n")}\n`;

/** Every name that `help` knows. */
export function helpList(): string {
  const values = CHARACTERISTIC_VALUES.map((row) => [`  ${row.id}`, withUnit(row.label, row)]);
  return [
    "values",
    ...inColumns(values),
    "  d10, d50, d90, ...: the size that so many % by mass pass",
    "",
    "topics",
    ...inColumns(TOPICS.map(({ name, title }) => [`  ${name}`, title])),
    "",
    "lists",
    ...LISTS,
    "",
    "sievewright help NAME tells about one of them; the name of a command gives its usage",
    "",
  ].join("\n");
}
