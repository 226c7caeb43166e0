import type { Condition } from "../care/conditionOf.ts";
import type { StationConditions } from "../care/conditions.ts";
import type { CareKnown } from "../care/known.ts";
import { type Register, sieveOf } from "../care/register/register.ts";
import { grams } from "../care/words.ts";
import { roundHalfAway } from "../grading/rounding.ts";
import { apertureText } from "../series/apertureText.ts";
import { drawable } from "../terminal/sanitise.ts";
import { inColumns, wrapped } from "./columns.ts";
import { NO_FIGURE } from "./figures.ts";
import { labelled } from "./paragraphs.ts";
import { calibrationWord } from "./sievesDue.ts";
import { conditionWord, tareOffWords } from "./sieveWords.ts";

const COLUMNS =
  "tests and kg since the last inspection; off clean: against the sieve's own cleaned level (!: see sieves --due)";
const HEAD = ["  sieve", "aperture", "state", "tests", "kg", "due on", "off clean", "", "set"];

function sieveCells(condition: Condition, sets: string, readabilityG: number): string[] {
  const { serial, apertureUm, counts, due, tare } = condition;
  return [
    `  ${serial}`,
    apertureText(apertureUm),
    conditionWord(condition),
    `${counts.tests}`,
    roundHalfAway(counts.passedKg, 1),
    due.onDay ?? NO_FIGURE,
    tareOffWords(condition, readabilityG),
    tare?.advice == null ? "" : "!",
    sets,
  ];
}

const setsOf = ({ sets }: Register, serial: string): string =>
  sets
    .filter((set) => set.serials.includes(serial))
    .map(({ code }) => code)
    .join(" ");

function table(heading: string, rows: readonly (readonly string[])[]): string[] {
  return rows.length === 0 ? [] : ["", heading, ...inColumns(rows)];
}

function othersRows({ register }: CareKnown, { balances, weights }: StationConditions): string[] {
  return [
    ...table(
      "balances",
      register.balances.map(({ id, capacityG, readabilityG }) => {
        const found = balances.find((one) => one.id === id);
        const calibration = found === undefined ? ["", ""] : [calibrationWord(found), found.text];
        return [`  ${id}`, `${capacityG} g`, `reads ${grams(readabilityG, readabilityG)}`, ...calibration];
      }),
    ),
    ...table(
      "check weights",
      register.weights.map(({ weight, nominalG, weightClass = NO_FIGURE }) => {
        const found = weights.find((one) => one.weight === weight);
        return [
          `  ${weight}`,
          `${nominalG} g`,
          weightClass,
          ...(found ? [calibrationWord(found), found.text] : ["", ""]),
        ];
      }),
    ),
    ...table(
      "reference materials",
      register.materials.map(({ code, certificate, points, name }) => [
        `  ${code}`,
        `${points.length} points`,
        `certified ${certificate.day}`,
        name,
      ]),
    ),
  ];
}

/** Everything that a station sieves and weighs with, as a page. */
export function sievesRegisterPage(known: CareKnown, day: string, width: number): string {
  const { register, conditions, balance } = known;
  const cells = conditions.sieves.map((one) => sieveCells(one, setsOf(register, one.serial), balance.readabilityG));
  const none = ["no sieve is registered: sievewright register FILE takes them in, or s on the bench"];
  const sets = register.sets.flatMap(({ code, name, serials }) => {
    const apertures = serials.flatMap((serial) => sieveOf(register, serial)?.apertureUm ?? []).map(apertureText);
    return labelled(`  ${code}`, 16, `${name}: ${apertures.join(", ")}`, width);
  });
  const lines = [
    `register on ${day}`,
    ...(known.short
      ? ["! part of the log can't be read: counts, masses and runs here may be fewer than what was done"]
      : []),
    ...(cells.length === 0 ? none : table("sieves", [HEAD, ...cells]).slice(1)),
    ...(sets.length === 0 ? [] : ["", "sets", ...sets]),
    ...othersRows(known, conditions),
    "",
    ...wrapped(COLUMNS, width),
  ];
  return `${lines.map(drawable).join("\n")}\n`;
}
