// How many assessments of a 12-sieve test a core makes in a second: all characteristic values, without and with the
// non-linear fits of the three models.
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";
import { line } from "./figures.mjs";

const SECONDS = 3;
const SIEVES_UM = [4000, 2800, 2000, 1400, 1000, 710, 500, 355, 250, 180, 125, 90];

const share = (um, medianUm) => 100 / (1 + (medianUm / um) ** 2.6);

/** A different sample each time, so that nothing kept from the last one helps. */
function sample(round) {
  const passing = SIEVES_UM.map((um) => share(um, 600 + (round % 97)));
  const bounds = [100, ...passing, 0];
  const fractions = [...SIEVES_UM, 0].map((apertureUm, i) => ({
    apertureUm,
    emptyG: null,
    fullG: null,
    netG: 3 * (bounds[i] - bounds[i + 1]),
  }));
  return { fractions, chargeG: 300.2, washedG: null };
}

const perCore = (what, found, least) =>
  line({ what, figure: `${found} /s`, floor: "on one core", goal: `>= ${least} /s`, met: found >= least });

export async function benchAssess() {
  const folder = await mkdtemp(join(tmpdir(), "sievewright-bench-"));
  try {
    const outfile = join(folder, "assess.mjs");
    await build({
      entryPoints: ["src/assess.ts"],
      outfile,
      bundle: true,
      platform: "node",
      format: "esm",
      minify: true,
      logLevel: "error",
    });
    const { assess } = await import(pathToFileURL(outfile).href);
    const perSecond = (work) => {
      for (let round = 0; round < 300; round++) work(sample(round));
      const until = process.cpuUsage().user + SECONDS * 1e6;
      let rounds = 0;
      while (process.cpuUsage().user < until) for (let i = 0; i < 50; i++) work(sample(rounds++));
      return Math.round(rounds / SECONDS);
    };
    const product = null;
    const plain = perSecond((weighed) => assess(weighed, product, { readabilityG: 0.01 }));
    const fitted = perSecond((weighed) => assess(weighed, product, { readabilityG: 0.01 }).value.models);
    perCore("assessments of 12 sieves with all values", plain, 5000);
    perCore("the same with three non-linear fits", fitted, 500);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
