import type { Condition } from "../care/conditionOf.ts";
import { isOutside, tareBand } from "../care/tare/band.ts";
import type { TareChoice } from "../care/tare/history.ts";
import { tareHistory } from "../care/tare/ofLife.ts";
import { type CareNote, notesOf } from "../care/use/life.ts";
import { grams } from "../care/words.ts";
import type { ControlDrawing } from "../chart/controlChart.ts";
import { controlGlyphs } from "../chart/controlGlyphs.ts";
import type { SieveLife } from "../record/careLedger.ts";

/** Empty masses of one sieve as a chart draws them, and what to say beside it. */
export interface TareDrawing extends Pick<ControlDrawing, "series" | "lines" | "changes"> {
  /** How many are drawn, and how many there are. */
  readonly drawn: number;
  readonly weighings: number;
  readonly firstAt: string;
  readonly lastAt: string;
  readonly nowG: number;
  /** Null while the sieve's own level is not known. */
  readonly band: { readonly levelG: number; readonly lowG: number; readonly highG: number } | null;
}

/** Places of the first weighings after each cleaning. */
function cleanedAt(serial: string, notes: readonly CareNote[], times: readonly number[]): readonly number[] {
  return notesOf(serial, notes)
    .filter(({ care }) => care.did === "cleaning")
    .map(({ at }) => times.findIndex((ms) => ms >= Date.parse(at)))
    .filter((place) => place > 0);
}

/**
 * The empty weighings of a sieve since it last began anew, the latest so many, with its own cleaned level and the masses
 * between which nothing is said; a mass outside them bears another sign.
 *
 * @returns null where it was never weighed empty
 */
export function tareDrawing(
  life: SieveLife,
  notes: readonly CareNote[],
  { tare }: Pick<Condition, "tare">,
  choice: TareChoice,
  atMost: number,
): TareDrawing | null {
  const all = tareHistory(life, notes).weighings;
  const weighings = all.slice(-atMost);
  const [first, last] = [weighings.at(0), weighings.at(-1)];
  if (first === undefined || last === undefined) return null;
  const band = tareBand(tare);
  const times = weighings.map(({ at }) => Date.parse(at));
  const across = (um: number) => Array<number>(weighings.length).fill(um);
  const named = (word: string, massG: number) => `${word} ${grams(massG, choice.readabilityG).replace(" g", "")}`;
  return {
    drawn: weighings.length,
    weighings: all.length,
    firstAt: first.at,
    lastAt: last.at,
    nowG: last.emptyG,
    band,
    series: [
      weighings.map(({ emptyG }) => ({
        y: emptyG,
        sign: band !== null && isOutside(band, emptyG, choice) ? ("signal" as const) : ("point" as const),
      })),
    ],
    lines:
      band === null
        ? []
        : [
            { kind: "centre", label: named("clean", band.levelG), ys: across(band.levelG) },
            { kind: "control", label: named("+", band.highG), ys: across(band.highG) },
            { kind: "control", label: named("-", band.lowG), ys: across(band.lowG) },
          ],
    changes: cleanedAt(life.serial, notes, times),
  };
}

/** What the signs of the chart of empty masses stand for. */
export function tareLegend(ascii = false): string {
  const { point, signal, centre, control, change } = controlGlyphs(ascii);
  return `empty mass ${point}  outside ${signal}  clean ${centre}${centre}  told from ${control}${control} on  cleaned ${change}`;
}
