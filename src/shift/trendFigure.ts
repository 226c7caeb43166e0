import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { quoted } from "../entry/quoted.ts";
import { limitName, limitsOf } from "../envelope/limit.ts";
import { PERCENTILES } from "../grading/percentile.ts";
import { CHARACTERISTIC_VALUES } from "../grading/values/table.ts";
import { type Determination, determined, undetermined } from "../record/determination.ts";
import type { IndexRow } from "../record/indexRow.ts";
import type { Product } from "../record/product.ts";
import { apertureText, nominalText } from "../series/apertureText.ts";

/** What a trend can be of: one number that every test of a product has, or a reason why not. */
export interface Figure {
  /** As limits are named: "passingPct@500", "percentileUm@50" or the id of a value. */
  readonly on: string;
  /** For people: "d50", "passing 500 um", "Uniformity Cu". */
  readonly label: string;
  readonly unit: string;
  /** What the product allows; null: nothing on that side. */
  readonly min: number | null;
  readonly max: number | null;
  /** Why it is offered: the product limits it, shows it, or the tests have it. */
  readonly standing: "limited" | "shown" | "other";
}

const SHARES = {
  passingPct: (size: string) => `passing ${size}`,
  retainedPct: (size: string) => `retained on ${size}`,
  coarserPct: (size: string) => `coarser than ${size}`,
} as const;
type Share = keyof typeof SHARES;
const isShare = (kind: string): kind is Share => kind in SHARES;

export interface Named {
  readonly label: string;
  readonly unit: string;
}

/** What a name of a limit stands for; null where it is the name of nothing. */
function named(on: string): Named | null {
  const [kind = "", at] = on.split("@");
  const place = Number(at);
  if (at === undefined) {
    const row = CHARACTERISTIC_VALUES.find(({ id }) => id === kind);
    return row ? { label: row.label, unit: row.unit } : null;
  }
  if (!(place > 0)) return null;
  if (isShare(kind)) return { label: SHARES[kind](nominalText(place)), unit: "%" };
  return kind === "percentileUm" && place < 100 ? { label: `d${place}`, unit: "um" } : null;
}

/** What a name of a limit stands for, for people: "passing 500 um" and its unit; the name itself where it is none. */
export const figureWords = (on: string): Named => named(on) ?? { label: on, unit: "" };

function figure(on: string, standing: Figure["standing"]): Figure[] {
  const found = named(on);
  return found === null ? [] : [{ on, ...found, min: null, max: null, standing }];
}

/** Every figure of a product that a trend can show: those with limits first, then those it shows, then all others. */
export function figuresOf(product: Product): readonly Figure[] {
  const limited = limitsOf(product).flatMap(({ on, min, max }) =>
    figure(limitName(on), "limited").map((one) => ({ ...one, min, max })),
  );
  const shown = (product.show ?? []).flatMap((id) => figure(id, "shown"));
  const others = [
    ...PERCENTILES.map((q) => `percentileUm@${q}`),
    ...product.stackUm.toSorted((a, b) => b - a).map((um) => `passingPct@${um}`),
    ...CHARACTERISTIC_VALUES.map(({ id }) => id),
  ].flatMap((on) => figure(on, "other"));
  const all = [...limited, ...shown, ...others];
  return all.filter(({ on }, i) => all.findIndex((one) => one.on === on) === i);
}

/**
 * The figure with which a trend begins: d50 where it is limited, else the first value with a limit, else the first limit
 * (on a sieve), else d50.
 */
export function firstFigure(figures: readonly Figure[]): Figure | undefined {
  const d50 = figures.find(({ on }) => on === "percentileUm@50");
  const limited = figures.filter(({ standing }) => standing === "limited");
  if (d50?.standing === "limited") return d50;
  return limited.find(({ on }) => !isShare(on.split("@")[0] ?? "")) ?? limited[0] ?? d50;
}

const PERCENTILE = /^d(\d+(?:\.\d+)?)$/i;
const NAMES = "d50, passingPct@500, or the id of a value like finenessModulus";

/** The figure that is asked for by name, of this product: d50, percentileUm@50, passingPct@500, or the id of a value. */
export function figureNamed(product: Product, asked: string): Outcome<Figure> {
  const wanted = asked.trim().replace(PERCENTILE, "percentileUm@$1");
  const known = figuresOf(product).find(({ on }) => on.toLowerCase() === wanted.toLowerCase());
  if (known) return accepted(known);
  const place = Number(wanted.split("@")[1]);
  if (/^percentileUm@/i.test(wanted) && place > 0)
    return refused(`d${place} is not kept in the index, which has ${PERCENTILES.map((q) => `d${q}`).join(", ")}`);
  const [other] = figure(wanted, "other");
  return other ? accepted(other) : refused(`${quoted(asked)} names no figure: give ${NAMES}`);
}

/** What one sieve retained: the difference to the next coarser one, on the coarsest to all. */
function retainedPct({ passingPct }: IndexRow, apertureUm: number): number | null {
  const at = passingPct[`${apertureUm}`];
  if (at === undefined) return null;
  const coarser = Object.keys(passingPct)
    .map(Number)
    .filter((um) => um > apertureUm);
  return (coarser.length === 0 ? 100 : (passingPct[`${Math.min(...coarser)}`] ?? 100)) - at;
}

function shareIn(row: IndexRow, kind: Share, apertureUm: number): Determination {
  const passing = row.passingPct[`${apertureUm}`];
  if (passing === undefined) {
    const beyond = `its stack had no sieve of ${apertureText(apertureUm)}, or its curve does not reach that aperture`;
    return undetermined(row.apertures ? beyond : `its stack had no sieve of ${apertureText(apertureUm)}`);
  }
  const coarsest = Math.max(...Object.keys(row.passingPct).map(Number)) === apertureUm;
  if (kind === "retainedPct" && coarsest && row.apertures)
    return undetermined("the index does not keep what the coarsest aperture of such a curve retains");
  if (kind === "retainedPct") return determined(retainedPct(row, apertureUm) ?? 0, "%");
  return determined(kind === "passingPct" ? passing : 100 - passing, "%");
}

/** The figure as one recorded test found it, or why it didn't. */
export function figureIn(row: IndexRow, { on, unit }: Pick<Figure, "on" | "unit">): Determination {
  const [kind = "", at] = on.split("@");
  if (at !== undefined && isShare(kind)) return shareIn(row, kind, Number(at));
  const found = row.values[on];
  if (found !== undefined) return determined(found, unit);
  const kept = kind !== "percentileUm" || (PERCENTILES as readonly string[]).includes(`${Number(at)}`);
  return undetermined(kept ? "it could not be determined in this test" : `the index does not keep d${at}`);
}
