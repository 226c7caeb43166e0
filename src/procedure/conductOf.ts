import { netMassG } from "../grading/netMass.ts";
import type { EndPointReading } from "../record/checks.ts";
import type { ProgramRun } from "../record/program.ts";
import { standing, type TestRecord, type TrailItem } from "../record/test.ts";
import { balanceState, type CheckInterval } from "./balance/balanceState.ts";
import { passedThroughStackG } from "./endPoint/endPoint.ts";
import { type ProcedureRules, resolveRules } from "./rules/resolve.ts";
import type { ProcedureFacts } from "./verdict/facts.ts";
import { moisturePct } from "./wash/moisture.ts";

/** What of a test tells how it was run. */
export type ConductedTest = Pick<TestRecord, "product"> &
  Partial<
    Pick<
      TestRecord,
      | "startedAt"
      | "weighings"
      | "moistG"
      | "dryG"
      | "balanceKnown"
      | "program"
      | "usualEmpty"
      | "sieves"
      | "shaking"
      | "earlierShaking"
      | "ran"
      | "checkMinute"
      | "trail"
    >
  >;

type Conduct = Partial<Omit<ProcedureFacts, "grading" | "washedG" | "panAssumed" | "readabilityG">>;

const intervalOf = (
  interval: ProcedureRules["balance"]["interval"],
  known: NonNullable<TestRecord["balanceKnown"]>,
): CheckInterval => {
  if (typeof interval !== "string") return { per: "hours", hours: interval.hours };
  return { per: interval, began: interval === "shift" ? known.shiftBegan : known.dayBegan };
};

function balanceOf(test: ConductedTest): Conduct {
  const { balanceKnown: known, startedAt } = test;
  if (!known || !startedAt) return {};
  const { interval } = resolveRules(test.product.method, test.product.method?.procedure).balance;
  return { balance: balanceState(known.last === null ? [] : [known.last], startedAt, intervalOf(interval, known)) };
}

/** Sieves weighed again after the check minute: full masses accepted since, as far as they still stand. */
function weighedAgain(test: ConductedTest): ReadonlySet<number> {
  const entries = standing(test.trail ?? []);
  const since = entries.findLastIndex((item) => item.field === "checkMinute");
  const after = since < 0 ? [] : entries.slice(since + 1).filter((item) => item.field === "fullG");
  return new Set(after.map((item) => item.apertureUm ?? 0));
}

/**
 * What the check minute did on each sieve that was weighed again, coarsest first. The whole stack ran on, so what
 * passed a sieve is what it and the coarser ones lost; that is known only while no coarser sieve was left out.
 */
function endPointReadings(test: ConductedTest): EndPointReading[] {
  const { checkMinute, weighings = [] } = test;
  if (!checkMinute) return [];
  const again = weighedAgain(test);
  const sieves = weighings.flatMap(({ apertureUm, emptyG, fullG }) => {
    const before = checkMinute.before.find((b) => b.apertureUm === apertureUm);
    if (apertureUm === 0 || emptyG === null || fullG === null || !before) return [];
    const afterG = again.has(apertureUm) ? fullG : before.fullG;
    return [{ apertureUm, beforeG: netMassG(before.fullG, emptyG), afterG: netMassG(afterG, emptyG) }];
  });
  const passed = passedThroughStackG(sieves);
  const firstLeftOut = sieves.findIndex((sieve) => !again.has(sieve.apertureUm));
  return sieves.flatMap((sieve, row) => {
    if (!again.has(sieve.apertureUm) || sieve.beforeG <= 0) return [];
    const wholeStack = firstLeftOut < 0 || row < firstLeftOut;
    return [wholeStack ? { ...sieve, passedG: passed[row] ?? 0 } : sieve];
  });
}

/** How long one portion was shaken by the clock, in s; never started: what was noted, else 0. Null: as planned. */
function shakenS(
  { skipped, startedAt, endedAt }: TestRecord["shaking"],
  skippedAt: string | undefined,
  notedS: number | undefined,
): number | null {
  if (skipped === null) return null;
  const until = endedAt ?? skippedAt;
  return startedAt && until ? Math.max(0, (Date.parse(until) - Date.parse(startedAt)) / 1000) : (notedS ?? 0);
}

/** Moments at which shaking was cut short, in the order of the portions. */
const cutShortAt = (trail: readonly TrailItem[]): string[] =>
  standing(trail)
    .filter((item) => item.field === "shaking" && String(item.to).startsWith("skipped"))
    .map((item) => item.at);

/** How the shaker really ran: what was noted, and the shortest time by the clock if any portion was cut short. */
function runOf({ program, shaking, earlierShaking = [], ran, trail = [] }: ConductedTest): ProgramRun | null {
  if (!program || !shaking) return null;
  const all = [...earlierShaking, shaking];
  if (all.every((one) => one.skipped === null)) return ran ?? (shaking.endedAt === null ? null : {});
  if (!ran && all.every((one) => one.startedAt === null)) return null;
  const moments = cutShortAt(trail);
  const cutShort = all.filter((one) => one.skipped !== null);
  const seconds = cutShort.flatMap((one, i) => shakenS(one, moments[i], ran?.durationS) ?? []);
  return { ...ran, durationS: Math.min(ran?.durationS ?? Number.POSITIVE_INFINITY, ...seconds) };
}

const wasCutShort = ({ shaking, earlierShaking = [] }: ConductedTest): boolean =>
  [...earlierShaking, ...(shaking ? [shaking] : [])].some(({ skipped }) => skipped !== null);

/** The most that each sieve held at once, where the charge was sieved in portions. */
function mostHeld({ weighings = [] }: ConductedTest): ReadonlyMap<number, number> {
  return new Map(
    weighings.flatMap(({ apertureUm, emptyG, fullG, earlierFullG }) => {
      if (!earlierFullG || emptyG === null || fullG === null) return [];
      return [[apertureUm, Math.max(...[...earlierFullG, fullG].map((full) => netMassG(full, emptyG)))] as const];
    }),
  );
}

function moistureOf({ moistG, dryG }: ConductedTest): Conduct {
  if (moistG === null || moistG === undefined || dryG === null || dryG === undefined) return {};
  const moisture = moisturePct(moistG, dryG);
  return moisture.determinable ? { moisturePct: moisture.value } : {};
}

/** How a test was run, drawn from what was entered in it: the facts by which its validity is judged. */
export function conductOf(test: ConductedTest): Conduct {
  return {
    ...moistureOf(test),
    ...balanceOf(test),
    endPoint: endPointReadings(test),
    program: test.program ?? null,
    run: runOf(test),
    cutShort: wasCutShort(test),
    sieves: test.sieves ?? [],
    mostHeldG: mostHeld(test),
    usualEmptyG: new Map((test.usualEmpty ?? []).map(({ apertureUm, emptyG }) => [apertureUm, emptyG])),
  };
}
