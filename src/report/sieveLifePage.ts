import type { Condition } from "../care/conditionOf.ts";
import { checkHistory } from "../care/reference/history.ts";
import type { TareChoice } from "../care/tare/history.ts";
import { tareHistory } from "../care/tare/ofLife.ts";
import { grams, sieveName } from "../care/words.ts";
import { controlChart } from "../chart/controlChart.ts";
import type { Sieve } from "../record/sieve.ts";
import type { CareReading } from "../store/careDesk.ts";
import type { LifeEntry, SieveTold } from "../store/careReading.ts";
import { drawable } from "../terminal/sanitise.ts";
import { SIGNS } from "../terminal/signs.ts";
import { indented, labelled } from "./paragraphs.ts";
import { checkedWords, checksDrawing, checksLegend } from "./sieveChecks.ts";
import { tareDrawing, tareLegend } from "./sieveTare.ts";
import { certificateWords, conditionWord, lifeWords, tallyWords, tareOffWords } from "./sieveWords.ts";

/** All that the page of one sieve tells. */
export interface SieveShown {
  readonly sieve: Sieve;
  readonly condition: Condition;
  readonly reading: CareReading;
  readonly told: SieveTold;
  readonly balance: TareChoice;
}

export interface SieveLook {
  readonly width: number;
  readonly ascii: boolean;
}

const LABEL = 13;
const WHEN = 18;
const CHART_ROWS = 12;
const CHECK_ROWS = 9;
/** What the axis and the names of the lines take of the width. */
const AXIS_COLUMNS = 24;

function emptyWords({ condition, reading, balance: { readabilityG } }: SieveShown): string {
  const last = tareHistory(reading.life, reading.notes).weighings.at(-1);
  if (last === undefined) return "never weighed empty since it last began anew";
  const now = `${grams(last.emptyG, readabilityG)} on ${last.at.slice(0, 10)}`;
  const level = condition.tare?.levelG ?? null;
  if (level === null) return `${now}; its own level is not known yet`;
  return `${now}; clean ${grams(level, readabilityG)}, off by ${tareOffWords(condition, readabilityG)}`;
}

function facts(shown: SieveShown, width: number): string[] {
  const { sieve, condition, reading } = shown;
  const { counts, due, text } = condition;
  const since = counts.since === null ? "" : ` since ${counts.since}`;
  const rows: readonly (readonly [string, string])[] = [
    ["state", `${conditionWord(condition)}  ${text}`],
    ["used", `${tallyWords(counts)}${since}`],
    ["in all", tallyWords(reading.life.ever)],
    ["inspection", due.onDay === null ? due.text : `on ${due.onDay}; ${due.text}`],
    ["empty", emptyWords(shown)],
    ["cloth", [sieve.cloth ?? "woven wire", sieve.standard, sieve.location].filter(Boolean).join("; ")],
    ["certificate", sieve.certificate === undefined ? "none" : certificateWords(sieve.certificate)],
  ];
  return rows.flatMap(([label, words]) => labelled(label, LABEL, words, width));
}

function chart(shown: SieveShown, { width, ascii }: SieveLook): string[] {
  const { reading, condition, balance } = shown;
  const drawing = tareDrawing(reading.life, reading.notes, condition, balance, Math.max(1, width - AXIS_COLUMNS));
  if (drawing === null) return [];
  const { series, lines, changes = [], firstAt, lastAt } = drawing;
  const ends: [string, string] = [firstAt.slice(0, 10), lastAt.slice(0, 10)];
  const rows = controlChart({ series, lines, changes, ends, width, height: CHART_ROWS, ascii });
  return [`${drawing.weighings} empty weighings in g`, ...rows.map((row) => row.trimEnd()), `  ${tareLegend(ascii)}`];
}

/** Its effective apertures by reference materials over time, and each run in words, newest first. */
function byMaterial({ sieve, told }: SieveShown, { width, ascii }: SieveLook): string[] {
  const history = checkHistory(sieve.serial, told.checks);
  if (history.length === 0) return [];
  const drawing = checksDrawing(history, sieve, Math.max(1, width - AXIS_COLUMNS));
  const rows =
    drawing === null
      ? []
      : controlChart({
          series: drawing.series,
          lines: drawing.lines,
          ends: [drawing.firstAt.slice(0, 10), drawing.lastAt.slice(0, 10)],
          width,
          height: CHECK_ROWS,
          ascii,
        });
  const words = history
    .toReversed()
    .flatMap((one) =>
      labelled(`  ${one.day}`, WHEN + 2, `${one.material}, no. ${one.number}: ${checkedWords(one, sieve)}`, width),
    );
  return [
    `effective aperture by reference material, ${history.length} ${history.length === 1 ? "run" : "runs"}, in um`,
    ...rows.map((row) => row.trimEnd()),
    ...(drawing === null ? [] : [`  ${checksLegend(ascii)}`]),
    ...words,
  ];
}

function lifeRows(entry: LifeEntry, { sieve, balance }: SieveShown, width: number): string[] {
  const [when, words] =
    entry.kind === "out of reach"
      ? [entry.at, `an entry that can't be read: ${entry.reason}`]
      : [entry.at, `${lifeWords(entry, sieve, balance.readabilityG)}, by ${entry.by} (no. ${entry.number})`];
  return labelled(`  ${when.slice(0, 16).replace("T", " ")}`, WHEN + 2, words, width);
}

/** One sieve as a page: how it stands and what to do, what it was used for, its empty masses, its life, newest first. */
export function sieveLifePage(shown: SieveShown, look: SieveLook): string {
  const { sieve, condition, told } = shown;
  const { width } = look;
  const older = told.older === 0 ? [] : [`  and ${told.older} older entries in the log`];
  const life = told.entries.flatMap((entry) => lifeRows(entry, shown, width));
  const parts = [
    [sieveName(sieve).replace(/^the /, ""), SIGNS.rule.repeat(width), ...facts(shown, width)],
    condition.advice.flatMap((text) => indented(`! ${text}`, width)),
    chart(shown, look),
    byMaterial(shown, look),
    life.length === 0 ? ["the log tells nothing of it yet"] : ["its life, newest first", ...life, ...older],
  ];
  return `${parts
    .filter((rows) => rows.length > 0)
    .map((rows) => rows.map(drawable).join("\n"))
    .join("\n\n")}\n`;
}
