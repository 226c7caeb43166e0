import { effectiveRuns, KNOWN_BY, type Outcome, type Planted } from "./effectiveRuns.ts";
import { BLEND, MATERIALS } from "./materials.ts";
import { blindingRuns, endRuns, healthyRuns } from "./tareRuns.ts";
import { type BalanceFault, type Fate, healthy } from "./tares.ts";

export interface Size {
  /** Stacks looked at for each row of the table of effective apertures. */
  readonly looks: number;
  /** Series of 500 tests of a healthy stack. */
  readonly healthyRuns: number;
  /** Runs for each way of going wrong. */
  readonly runs: number;
}

const SEED = 20_261;
const pct = (share: number) => (share > 0 && share < 0.005 ? "under 1 %" : `${Math.round(100 * share)} %`);
const row = (cells: readonly (string | number)[]) => `| ${cells.join(" | ")} |\n`;

const KNOWN_WORDS = { nominal: "nominal apertures", certificate: "certificates", "tests before": "tests from before" };

function effectiveRow(planted: Planted, looks: number, seed: number): string {
  const { detected, others, biasPct, covered }: Outcome = effectiveRuns(planted, looks, seed);
  const { error, where } = planted;
  const what = error === 0 ? "none" : `${error > 0 ? "+" : ""}${Math.round(100 * error)} %`;
  const nothing = !Number.isFinite(biasPct);
  return row([
    planted.material.name,
    KNOWN_WORDS[planted.knownBy],
    error === 0 ? what : `${what}${where === "end" ? ", at the end" : ""}`,
    error === 0 ? "-" : pct(detected),
    pct(others),
    nothing ? "not told" : `${biasPct.toFixed(2)} %`,
    nothing ? "-" : pct(covered),
  ]);
}

/** The table of effective apertures: what was planted against what is said. */
export function effectiveTable(size: Size, errors: readonly number[], withEnds: boolean): string {
  const head =
    "| material | sieves known by | error planted | found | another blamed | bias | range holds the truth |\n" +
    "| --- | --- | --- | ---: | ---: | ---: | ---: |\n";
  const materials = withEnds ? [...MATERIALS, BLEND] : MATERIALS;
  const rows = materials.flatMap((material) =>
    KNOWN_BY.flatMap((knownBy, k) => {
      const planted = material === BLEND ? [0, 0.06] : errors;
      const inside = planted.map((error) => ({ material, knownBy, error, where: "inside" }) as const);
      const end = { material, knownBy, error: 0.06, where: "end" } as const;
      const all = withEnds && material !== BLEND ? [...inside, end] : inside;
      return all.map((one) => effectiveRow(one, size.looks, SEED + k));
    }),
  );
  return head + rows.join("");
}

const tally = (words: readonly string[]): string =>
  [...new Set(words)]
    .toSorted()
    .map((word) => `${word} ${pct(words.filter((w) => w === word).length / words.length)}`)
    .join(", ");

/** The most false alarms in the long run that go with so few counted, at 95 %: Poisson. */
function mostBehind(counted: number): number {
  const asFew = (mean: number): number => {
    let [term, sum] = [Math.exp(-mean), 0];
    for (let k = 0; k <= counted; k++) {
      sum += term;
      term *= mean / (k + 1);
    }
    return sum;
  };
  let mean = counted;
  while (asFew(mean) > 0.05) mean += 0.01;
  return mean;
}

/** What is said of healthy stacks. */
export function healthyTable({ healthyRuns: runs }: Size): string {
  const said = healthyRuns(runs, 500, SEED);
  const weighings = runs * 500 * 7;
  const most = (1000 * mostBehind(Math.round(said.alarms * runs))) / weighings;
  return (
    `| in 500 tests of seven empty masses each, mean of ${runs} | told |\n| --- | ---: |\n` +
    row(["weighings with a slip of the hand", said.slips.toFixed(1)]) +
    row(["told as odd, to be weighed again", said.odd.toFixed(1)]) +
    row(["told as odd without a slip", said.oddWithout.toFixed(2)]) +
    row(["false alarms: grains caught, wear, step, balance or stack", said.alarms.toFixed(2)]) +
    row(["false alarms in a thousand weighings, with 95 % certainty fewer than", most.toFixed(2)])
  );
}

/** The same on benches where the same sieve weighs less alike, and how soon a sieve that blinds by 0.02 g a test is told there. */
export function noisyTable(): string {
  const head =
    "| the same sieve weighed again scatters by | false alarms in 500 tests, mean of 5 | a sieve that catches 0.02 g a test is told after (middle, latest) |\n" +
    "| ---: | ---: | ---: |\n";
  const rows = [8, 12, 16, 20, 25].map((scatterMg) => {
    const { alarms } = healthyRuns(5, 500, SEED, scatterMg / 1000);
    const after = blindingRuns(20, 0.02, 500, SEED, scatterMg / 1000).map((r) => r.after);
    return row([`${scatterMg} mg`, alarms.toFixed(1), `${middle(after)}, ${Math.max(...after)} tests`]);
  });
  return head + rows.join("");
}

const middle = (numbers: readonly number[]) => numbers.toSorted((a, b) => a - b)[Math.floor(numbers.length / 2)] ?? 0;

/** How soon a blinding sieve is told. */
export function blindingTable({ runs }: Size): string {
  const head =
    "| sieve | caught with each test | told within 30 tests | after so many tests (middle, latest) | caught by then | first told as |\n" +
    "| --- | ---: | ---: | ---: | ---: | --- |\n";
  const rows = ([250, 710] as const).flatMap((um) =>
    [0.005, 0.01, 0.03, 0.1].map((g) => {
      const all = blindingRuns(runs, g, um, SEED);
      const after = all.map((r) => r.after);
      return row([
        `${um} um`,
        `${g} g`,
        pct(all.filter((r) => r.told).length / all.length),
        `${middle(after)}, ${Math.max(...after)}`,
        `${(g * middle(after)).toFixed(2)} g`,
        tally(all.map((r) => r.firstAs)),
      ]);
    }),
  );
  return head + rows.join("");
}

const withOne = (apertureUm: number, fate: Partial<Fate>): Fate[] =>
  healthy().map((one) => (one.apertureUm === apertureUm ? { ...one, ...fate } : one));

const MISHAPS: readonly (readonly [string, readonly Fate[], BalanceFault | null, number | null])[] = [
  ["the 500 um sieve is another one, 2.3 g lighter", withOne(500, { steps: { from: 40, byG: -2.3 } }), null, 500],
  ["the 500 um sieve loses 0.12 g at once", withOne(500, { steps: { from: 40, byG: -0.12 } }), null, 500],
  ["a lump of 0.4 g stays in the 500 um sieve", withOne(500, { steps: { from: 40, byG: 0.4 } }), null, 500],
  ["the 250 um sieve wears by 4 mg a test", withOne(250, { wearsGPerTest: 0.004 }), null, 250],
  ["the balance adds 0.2 g", healthy(), { from: 40, addsG: 0.2 }, null],
  ["the balance adds 0.1 %", healthy(), { from: 40, addsPart: 0.001 }, null],
  [
    "the balance adds 0.2 g and the 500 um sieve is another one",
    withOne(500, { steps: { from: 40, byG: -2.3 } }),
    { from: 40, addsG: 0.2 },
    500,
  ],
  ["another stack", healthy().map((f, i) => ({ ...f, steps: { from: 40, byG: 3 * (i - 2.3) } })), null, null],
];

/** What is said 20 tests after something happened. */
export function mishapTable({ runs }: Size): string {
  const head =
    "| what happened at test 40 | of the stack | of that sieve | of the others |\n| --- | --- | --- | --- |\n";
  const rows = MISHAPS.map(([what, fates, fault, um]) => {
    const ends = endRuns(runs, fates, fault, SEED);
    const of = (own: boolean) =>
      ends.flatMap((end) => end.sieves.filter((s) => (s.apertureUm === um) === own).map((s) => s.state));
    return row([what, tally(ends.map((e) => e.together)), um === null ? "-" : tally(of(true)), tally(of(false))]);
  });
  return head + rows.join("");
}
