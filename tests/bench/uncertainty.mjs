// What a whole budget of a 12-sieve test costs, and 10^5 draws, against a plain loop of as many random numbers. Run alone:
// node tests/bench/uncertainty.mjs
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";
import { against, spread, within } from "./figures.mjs";

const SIEVES_UM = [4000, 2800, 2000, 1400, 1000, 710, 500, 355, 250, 180, 125, 90];
const DRAWS = 100_000;
/** Even and normal numbers that one draw of everything takes, and how many masses they change. */
const [EVEN, NORMAL, MASSES] = [56, 41, 15];

const CONDITIONS = {
  balance: { readabilityG: 0.01, repeatabilityG: 0.01, linearityG: 0.02, driftG: 0.02 },
  apertures: {},
  material: { particleDensityKgM3: 2650 },
  sampling: { kind: "stated", sdPctAt50: 0.5 },
  endPoint: { remainderPct: 0.1 },
};

const ENTRY = `
export { budgetOf } from "./src/uncertainty/budget.ts";
export { monteCarloOf } from "./src/uncertainty/monteCarlo/monteCarlo.ts";
export { grade } from "./src/grading/grade.ts";
export { choicesOf } from "./src/grading/choices.ts";
export { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
export { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
`;

const share = (um, medianUm) => 100 / (1 + (medianUm / um) ** 2.6);

/** Time of one piece of work on one core, in ms. */
function cpuMs(work) {
  const before = process.cpuUsage().user;
  work();
  return (process.cpuUsage().user - before) / 1000;
}

function plainLoop(even) {
  const masses = new Float64Array(MASSES);
  for (let i = 0; i < DRAWS; i++) {
    for (let c = 0; c < EVEN; c++) masses[c % MASSES] += even() - 0.5;
    for (let c = 0; c < NORMAL; c++) masses[c % MASSES] += Math.sqrt(-2 * Math.log(1 - even())) * even();
  }
  return masses;
}

function measure({ budgetOf, monteCarloOf, grade, choicesOf, xoroshiro128plus, uniformFloat64 }) {
  const choices = choicesOf(null, {});
  const sample = (round) => {
    const bounds = [100, ...SIEVES_UM.map((um) => share(um, 600 + (round % 97))), 0];
    const fractions = [...SIEVES_UM, 0].map((apertureUm, i) => ({
      apertureUm,
      emptyG: null,
      fullG: null,
      netG: 3 * (bounds[i] - bounds[i + 1]),
    }));
    const outcome = grade(fractions, { basis: "recovered", chargeG: 300.2, washedG: null });
    return { grading: outcome.value, choices };
  };
  const seeded = (seed) => {
    const generator = xoroshiro128plus(seed);
    return () => uniformFloat64(generator);
  };
  for (let round = 0; round < 200; round++) budgetOf(sample(round), CONDITIONS);
  const budgets = Array.from({ length: 300 }, (_, round) => {
    const graded = sample(round);
    return cpuMs(() => budgetOf(graded, CONDITIONS));
  });
  const { median, p99 } = spread(budgets);
  within("budget of 12 sieves and all values, median", median, 16);
  within("  p99", p99, 16);
  const shares = SIEVES_UM.map((apertureUm) => ({ kind: "passingPct", apertureUm }));
  const sizes = [10, 50, 60, 90].map((passingPct) => ({ kind: "percentileUm", passingPct }));
  const graded = sample(1);
  const options = { mostDraws: DRAWS, digits: 2 };
  const draw = (seed) => monteCarloOf(graded, CONDITIONS, [...shares, ...sizes], seeded(seed), options);
  draw(0);
  const floor = spread([1, 2, 3].map((seed) => cpuMs(() => plainLoop(seeded(seed))))).median;
  const drawing = spread([1, 2, 3].map((seed) => cpuMs(() => draw(seed)))).median;
  against("100 000 draws of 12 sieves and 4 percentiles", drawing, floor, "as many random numbers");
}

export async function benchUncertainty() {
  const folder = await mkdtemp(join(tmpdir(), "sievewright-bench-"));
  try {
    const outfile = join(folder, "uncertainty.mjs");
    const stdin = { contents: ENTRY, resolveDir: join(import.meta.dirname, "../.."), loader: "ts" };
    await build({ stdin, outfile, bundle: true, platform: "node", format: "esm", minify: true, logLevel: "error" });
    measure(await import(pathToFileURL(outfile).href));
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) await benchUncertainty();
