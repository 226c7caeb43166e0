import type { TareState } from "../../../src/care/tare/finding.ts";
import { tareWatch } from "../../../src/care/tare/tareWatch.ts";
import { chanceFrom } from "./chance.ts";
import { type BalanceFault, type Fate, healthy, READABILITY_G, STACK_UM, upTo, weighedEmpty } from "./tares.ts";

const CHOICE = { readabilityG: READABILITY_G };
const QUIET: readonly TareState[] = ["learning", "steady"];

/** All that is newly said in the course of so many tests of a stack, test by test: which test, of what. */
export function saidOver(
  fates: readonly Fate[],
  tests: number,
  seed: number,
  fault: BalanceFault | null = null,
  slipped: Set<string> = new Set(),
  scatterG?: number,
) {
  const histories = weighedEmpty(fates, tests, chanceFrom(seed), fault, slipped, scatterG);
  const standing = new Map<string, string>();
  const said: { test: number; serial: string; state: string; offG: number }[] = [];
  const tell = (test: number, serial: string, state: string, offG: number) => {
    if (state !== "quiet" && standing.get(serial) !== state) said.push({ test, serial, state, offG });
    standing.set(serial, state);
  };
  for (let test = 1; test <= tests; test++) {
    const watch = tareWatch(upTo(histories, test), CHOICE);
    tell(test, "all", watch.together?.cause ?? "quiet", watch.together?.offG ?? 0);
    for (const one of watch.sieves)
      tell(test, one.serial, QUIET.includes(one.state) ? "quiet" : one.state, one.offG ?? 0);
  }
  return said;
}

/** What is said in so many tests of a stack with nothing wrong but slips of the hand, on average over the runs. */
export function healthyRuns(runs: number, tests: number, seed: number, scatterG?: number) {
  let [slips, odd, oddWithout, alarms] = [0, 0, 0, 0];
  for (let r = 0; r < runs; r++) {
    const slipped = new Set<string>();
    for (const s of saidOver(healthy(), tests, seed + r, null, slipped, scatterG)) {
      if (s.state !== "odd") alarms++;
      else odd++;
      if (s.state === "odd" && !slipped.has(`${s.serial} ${s.test}`)) oddWithout++;
    }
    slips += slipped.size;
  }
  return { slips: slips / runs, odd: odd / runs, oddWithout: oddWithout / runs, alarms: alarms / runs };
}

const BLINDS_FROM = 30;

/** A sieve that begins to blind after 30 healthy tests: after how many tests, at what mass, it is told, and as what. */
export function blindingRuns(
  runs: number,
  gPerTest: number,
  apertureUm: (typeof STACK_UM)[number],
  seed: number,
  scatterG?: number,
) {
  const fates = healthy().map((fate) =>
    fate.apertureUm === apertureUm ? { ...fate, blinds: { from: BLINDS_FROM, gPerTest } } : fate,
  );
  const serial = `S-${apertureUm}-${STACK_UM.indexOf(apertureUm)}`;
  return Array.from({ length: runs }, (_, r) => {
    const said = saidOver(fates, BLINDS_FROM + 30, seed + r, null, new Set(), scatterG);
    const first = said.find((s) => s.serial === serial && s.state !== "odd" && s.test > BLINDS_FROM);
    const last = said.findLast((s) => s.serial === serial && s.state !== "odd");
    return first
      ? { told: true, after: first.test - BLINDS_FROM, offG: first.offG, firstAs: first.state, lastAs: last?.state }
      : { told: false, after: 30, offG: 0, firstAs: "nothing", lastAs: "nothing" };
  });
}

/** What is said at the end of 60 tests of a stack in which something happened at the 40th. */
export function endRuns(runs: number, fates: readonly Fate[], fault: BalanceFault | null, seed: number) {
  return Array.from({ length: runs }, (_, r) => {
    const watch = tareWatch(weighedEmpty(fates, 60, chanceFrom(seed + r), fault), CHOICE);
    const sieves = watch.sieves.map((s) => ({ apertureUm: s.apertureUm, state: s.state }));
    return { together: watch.together?.cause ?? "nothing", sieves };
  });
}
