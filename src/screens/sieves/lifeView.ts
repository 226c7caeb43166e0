import { wrapped } from "../../report/columns.ts";
import { lifeTelling } from "../../report/sieveWords.ts";
import type { LifeEntry } from "../../store/careReading.ts";
import { dayText, momentText } from "../../words/figures.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { type Line, line, span } from "../line.ts";
import type { SievePlace, WithCare } from "./places.ts";
import { type SieveShown, shownOf } from "./shown.ts";
import { told } from "./told.ts";

const WHEN_COLUMNS = 20;
const BY_COLUMNS = 10;

function words(entry: LifeEntry, { sieve, readabilityG }: SieveShown): string {
  if (entry.kind === "out of reach") return say`an entry that can't be read: ${spoken(entry.reason)}`;
  const { words: told, note } = lifeTelling(entry, sieve, readabilityG);
  return note === "" ? spoken(told) : `${spoken(told)} (${note})`;
}

/** One entry: when, what, by whom. */
function entryLines(entry: LifeEntry, shown: SieveShown, columns: number): Line[] {
  const by = entry.kind === "out of reach" ? "" : entry.by;
  const when = momentText(entry.at);
  return wrapped(words(entry, shown), columns - WHEN_COLUMNS - BY_COLUMNS - 1).map((text, i) => [
    span(`  ${(i === 0 ? when : "").padEnd(WHEN_COLUMNS - 2)}`, "dim"),
    span(text.padEnd(columns - WHEN_COLUMNS - BY_COLUMNS)),
    span(i === 0 ? by : "", "dim"),
  ]);
}

/** What happened outside the log, as the register tells it; oldest last, as in the list. */
function beforeLog({ sieve, condition }: SieveShown, columns: number): Line[] {
  const { firstUse, certificate } = sieve;
  const told: readonly (readonly [string, string])[] = [
    ...(firstUse === undefined ? [] : ([[firstUse, say`first used, by the register`]] as const)),
    ...(certificate === undefined
      ? []
      : ([[certificate.day, say`certified by ${certificate.laboratory}, by the register`]] as const)),
  ];
  const sorted = told.toSorted(([a], [b]) => (a < b ? 1 : -1));
  const lines = sorted.flatMap(([day, text]) =>
    wrapped(text, columns - WHEN_COLUMNS - 1).map((row, i) => [
      span(`  ${(i === 0 ? dayText(day) : "").padEnd(WHEN_COLUMNS - 2)}`, "dim"),
      span(row, "dim"),
    ]),
  );
  return condition.counts.since === null && lines.length === 0
    ? [line(say`  no day of first use is known`, "dim")]
    : lines;
}

/** The life of a sieve, newest first. */
export function lifeLines(place: WithCare<SievePlace>, columns: number): readonly Line[] {
  const shown = shownOf(place);
  if (shown === null || place.told === null) return told(say`reading the log ...`, columns, "dim");
  const { entries, older } = place.told;
  const more = older === 0 ? [] : told(say`and ${older} older entries in the log`, columns, "dim");
  const none = entries.length === 0 ? told(say`the log tells nothing of it yet`, columns, "dim") : [];
  return [
    ...none,
    ...entries.flatMap((entry) => entryLines(entry, shown, columns)),
    ...more,
    ...beforeLog(shown, columns),
  ];
}
