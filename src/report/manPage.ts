import { TERMS_BY_NAME } from "./glossary/terms.ts";
import type { ScreensHelp } from "./placeHelp.ts";
import { STANDARD_IDS, standardsOf } from "./standards/standards.ts";
import { sourceText } from "./standards/told.ts";
import { TOPICS } from "./topics.ts";

/** A command of the program, as its own help names it. */
export interface CommandTold {
  readonly usage: string;
  readonly summary: string;
}

/** Text as roff takes it literally: no line of it is an instruction, every sign beyond ASCII is named by its number. */
export const roffText = (text: string): string =>
  text
    .replace(/\\/g, "\\e")
    .replace(/-/g, "\\-")
    .replace(
      /[^\x00-\x7f]/gu,
      (sign) => `\\[u${(sign.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, "0")}]`,
    )
    .replace(/^(?=[.'])/gm, "\\&");

const heading = (text: string): string => `.SH "${roffText(text.toUpperCase()).replaceAll('"', "")}"`;
const part = (text: string): string => `.SS "${roffText(text).replaceAll('"', "")}"`;
const paragraph = (text: string): string => `.PP\n${roffText(text)}`;
const item = (name: string, told: string): string => `.TP\n\\fB${roffText(name)}\\fR\n${roffText(told)}`;

/** Rows of a table keep their blanks and their ends. */
const asItIs = (rows: readonly string[]): string[] =>
  rows.length === 0 ? [] : [".PP", ".nf", ...rows.map(roffText), ".fi"];

const places = ({ places: told, everywhere }: ScreensHelp): string[] => [
  heading("screens"),
  ...told.flatMap(({ title, about, tables }) => [
    part(title),
    paragraph(about),
    ...tables.flatMap(({ when, keys }) => [
      ...(when === "" ? [] : [paragraph(`${when}:`)]),
      ...keys.map(({ keys: names, help }) => item(names, help)),
    ]),
  ]),
  part("everywhere"),
  ...everywhere.map(({ keys, help }) => item(keys, help)),
];

const PURPOSE = "test sieving at the line: weigh, see the size distribution and both verdicts, record it";
const SAFETY =
  "A pass here is no certificate of any law or licence. Dust, noise, heavy stacks, ovens and washing: your site's rules and " +
  "licensed practice come first.";

/** The manual as one man page (roff), from the tables that the screens and `help` draw from. */
export function manPage(version: string, commands: readonly CommandTold[], screens: ScreensHelp): string {
  return [
    `.TH SIEVEWRIGHT 1 "" "sievewright ${roffText(version)}" "Sievewright"`,
    heading("name"),
    `sievewright \\- ${roffText(PURPOSE)}`,
    heading("synopsis"),
    ".B sievewright\n[\\-\\-data FOLDER]\n.br\n.B sievewright\nCOMMAND [OPTIONS]",
    heading("description"),
    paragraph("Without a command the screens open on a station's folder; everything there is done by keys."),
    paragraph(SAFETY),
    heading("commands"),
    paragraph("sievewright COMMAND --help tells a command's options and exit codes."),
    ...commands.map(({ usage, summary }) => item(usage, summary)),
    ...places(screens),
    heading("terms"),
    ...TERMS_BY_NAME.map(({ name, meaning }) => item(name, meaning)),
    heading("topics"),
    ...TOPICS.flatMap(({ name, title, paragraphs, table = [] }) => [
      part(`${name}: ${title}`),
      ...paragraphs.map(paragraph),
      ...asItIs(table),
    ]),
    heading("where figures come from"),
    ...STANDARD_IDS.map(standardsOf).flatMap(({ title, rows }) => [
      part(title),
      ...rows.map((row) => item(row.figure, sourceText(row))),
    ]),
    "",
  ].join("\n");
}
