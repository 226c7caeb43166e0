import { assessTest } from "../assess/assessTest.ts";
import { signedAs } from "../assess/signedAs.ts";
import type { Assessment } from "../assess.ts";
import { knownApertureOf } from "../care/apertureChosen.ts";
import { netMassG } from "../grading/netMass.ts";
import { normalCdf } from "../grading/normal.ts";
import type { Product } from "../record/product.ts";
import type { Program } from "../record/program.ts";
import type { Sieve, Stack } from "../record/sieve.ts";
import type { Balance } from "../record/station.ts";
import type { Disposition, TestRecord, TrailItem, Weighing } from "../record/test.ts";
import type { Chance } from "./chance.ts";
import type { Recipe } from "./recipes.ts";

/** What the invented day brings to one test. */
export interface Occasion {
  readonly recipe: Recipe;
  readonly product: Product;
  readonly program: Program | null;
  readonly balance: Balance;
  readonly station: string;
  readonly by: string;
  readonly lot: string;
  readonly d50Um: number;
  readonly endMs: number;
  readonly moment: (epochMs: number) => string;
  readonly programVersion: string;
  readonly set: Stack;
  readonly sieves: readonly Sieve[];
  /** What grains caught in the mesh of a sieve add to its empty mass. */
  readonly caughtG: (apertureUm: number) => number;
}

const hundredths = (grams: number) => Math.round(grams * 100) / 100;

/** A sieve of a stack weighs about 350 to 450 g here; always nearly the same for the same aperture. */
const emptyMassG = (apertureUm: number, caughtG: number, chance: Chance) =>
  hundredths(350 + ((apertureUm * 7919) % 9973) / 100 + caughtG + chance.normal(0, 0.02));

function shares(stackUm: readonly number[], d50Um: number, spread: number): number[] {
  const passing = stackUm.map((um) => normalCdf(Math.log(um / d50Um) / Math.log(spread)));
  const coarser = [0, ...passing.map((p) => 1 - p), 1];
  return coarser.slice(1).map((c, i) => c - (coarser[i] ?? 0));
}

/** Mostly a little dust; now and then a spill that makes the test invalid. */
const lostShare = (chance: Chance): number =>
  chance.even() < 0.025 ? 0.004 + 0.006 * chance.even() : Math.abs(chance.normal(0.0007, 0.0004));

function weighings(occasion: Occasion, chargeG: number, chance: Chance): Weighing[] {
  const { product, recipe } = occasion;
  const stackUm = product.stackUm.toSorted((a, b) => b - a);
  const spread = recipe.spread * Math.exp(chance.normal(0, 0.01));
  const kept = 1 - lostShare(chance);
  const parts = shares(stackUm, occasion.d50Um * Math.exp(chance.normal(0, recipe.scatter)), spread);
  return [...stackUm, 0].map((apertureUm, i) => {
    const emptyG = emptyMassG(apertureUm, occasion.caughtG(apertureUm), chance);
    const heldG = Math.max(0, (parts[i] ?? 0) * chargeG * kept * Math.exp(chance.normal(0, 0.01)));
    const serial = occasion.set.serials[i];
    return { apertureUm, ...(serial ? { serial } : {}), emptyG, fullG: hundredths(emptyG + heldG) };
  });
}

/** The last word of the stack is the scatter of its fractions: the whole is brought back to what was not lost. */
function closed(rows: readonly Weighing[], chargeG: number, chance: Chance): Weighing[] {
  const nets = rows.map((w) => netMassG(w.fullG ?? 0, w.emptyG ?? 0));
  const total = nets.reduce((sum, net) => sum + net, 0);
  const factor = (chargeG * (1 - lostShare(chance))) / total;
  return rows.map((w, i) => ({ ...w, fullG: hundredths((w.emptyG ?? 0) + (nets[i] ?? 0) * factor) }));
}

const STEP_MS = 18_000;

function trailOf(test: Omit<TestRecord, "trail" | "signed">, startMs: number, moment: Occasion["moment"]): TrailItem[] {
  let at = startMs;
  const item = (rest: Omit<TrailItem, "at" | "from">): TrailItem => {
    at += STEP_MS;
    return { at: moment(at), from: null, ...rest };
  };
  const named = `${test.product.code} rev ${test.product.revision}`;
  const setOut = [
    item({ field: "product", to: named }),
    item({ field: "lot", to: test.lot }),
    item({ field: "line", to: test.line }),
  ];
  const point = item({ field: "samplingPoint", to: test.samplingPoint });
  const charge = item({ field: "chargeG", to: test.chargeG });
  const empties = test.weighings.map((w) => item({ field: "emptyG", apertureUm: w.apertureUm, to: w.emptyG }));
  const started = item({ field: "shaking", to: "started" });
  at += test.shaking.plannedS * 1000 - STEP_MS;
  const ended = item({ field: "shaking", to: "ended" });
  const fulls = test.weighings.map((w) => item({ field: "fullG", apertureUm: w.apertureUm, to: w.fullG }));
  const disposed = item({ field: "disposition", to: test.disposition });
  return [...setOut, point, charge, ...empties, started, ended, ...fulls, disposed];
}

function disposed({ verdict }: Assessment): Disposition {
  if (verdict.test === "invalid") return "resample";
  return verdict.product === "pass" ? "release" : "hold";
}

/** One invented test from the first empty sieve to the signature, or nothing if its masses can't be assessed. */
export function inventTest(occasion: Occasion, chance: Chance): TestRecord | null {
  const { recipe, product, program, balance, moment, endMs } = occasion;
  const chargeG = hundredths(chance.normal(recipe.chargeG, recipe.chargeG * 0.01));
  const rows = closed(weighings(occasion, chargeG, chance), chargeG, chance);
  const known = occasion.sieves.flatMap((sieve) => knownApertureOf(sieve) ?? []);
  const certified = known.length === 0 ? {} : { knownApertures: known };
  const assessed = assessTest({ weighings: rows, chargeG, product, balance, program, ...certified });
  if (!assessed.ok) return null;
  const plannedS = program?.durationS ?? 0;
  const entries = 2 * rows.length + 8;
  const startMs = endMs - plannedS * 1000 - (entries + 1) * STEP_MS;
  const shakenFrom = startMs + (6 + rows.length) * STEP_MS;
  const test = {
    testId: new Date(startMs)
      .toISOString()
      .replace(/[-:.Z]/g, "")
      .replace("T", "-")
      .replace(/(\d{3})$/, "-$1"),
    station: occasion.station,
    startedAt: moment(startMs),
    product,
    lot: occasion.lot,
    line: recipe.line,
    samplingPoint: recipe.samplingPoint,
    chargeG,
    balance,
    set: occasion.set.code,
    ...certified,
    program,
    weighings: rows,
    shaking: { plannedS, startedAt: moment(shakenFrom), endedAt: moment(shakenFrom + plannedS * 1000), skipped: null },
    remark: "",
    disposition: disposed(assessed.value),
    finishedAt: moment(endMs),
    by: occasion.by,
  };
  const signed = signedAs(assessed.value, occasion.programVersion);
  return { ...test, trail: trailOf(test, startMs, moment), signed };
}
