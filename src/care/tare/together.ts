import { inTime } from "../inTime.ts";
import { medianOf, scatterOf } from "../robust.ts";
import { dayOf, grams } from "../words.ts";
import { cleanedLevel, LEVEL_WEIGHINGS } from "./cleanedLevel.ts";
import { cusum } from "./cusum.ts";
import type { CommonFinding } from "./finding.ts";
import { actionLimitG, type TareChoice, type TareHistory } from "./history.ts";

/** With fewer sieves weighed together, a common move is no more than chance. */
const FEWEST_TOGETHER = 4;
/** This share of the sieves must have moved alike for the balance to be named. */
const MOST = 0.75;
const RECENT = 3;
/** Alike is within this part of the common move. */
const ALIKE = 0.35;

/** What one sieve of one test was off its own level, in g, and what it weighs. */
interface Off {
  readonly offG: number;
  readonly massG: number;
}

interface Round {
  readonly round: string;
  readonly at: string;
  readonly offs: ReadonlyMap<string, Off>;
  readonly commonG: number;
}

/** How a balance goes wrong: it adds the same mass to every reading, or a part of the reading. */
export type Course = "mass" | "part";

/** What is common to some moves, as a mass or as a part of the mass. */
export const commonOf = (offs: readonly Off[], course: Course): number =>
  medianOf(offs.map(({ offG, massG }) => (course === "mass" ? offG : offG / Math.max(1, massG))));

export const expectedG = (common: number, massG: number, course: Course): number =>
  course === "mass" ? common : common * massG;

/** Tests in which enough sieves of known level were weighed, oldest first, and what they were off. */
export function roundsOf(histories: readonly TareHistory[], choice: TareChoice): readonly Round[] {
  const byRound = new Map<string, { at: string; offs: Map<string, Off> }>();
  for (const history of histories) {
    const weighings = inTime(history.weighings);
    const level = cleanedLevel(weighings, choice);
    for (const { round, at, emptyG } of level === null ? [] : weighings) {
      const one = byRound.get(round) ?? { at, offs: new Map<string, Off>() };
      byRound.set(round, one);
      one.offs.set(history.serial, { offG: emptyG - (level?.levelG ?? emptyG), massG: emptyG });
    }
  }
  const rounds = [...byRound]
    .filter(([, one]) => one.offs.size >= FEWEST_TOGETHER)
    .map(([round, one]) => ({ round, ...one, commonG: commonOf([...one.offs.values()], "mass") }));
  return inTime(rounds);
}

/** Each sieve's middle move over the last tests. */
function movesOf(recent: readonly Round[]): Off[] {
  const serials = new Set(recent.flatMap((round) => [...round.offs.keys()]));
  return [...serials].map((serial) => {
    const offs = recent.flatMap((round) => round.offs.get(serial) ?? []);
    return { offG: medianOf(offs.map((o) => o.offG)), massG: medianOf(offs.map((o) => o.massG)) };
  });
}

/** How far each sieve moved otherwise than a balance gone wrong in this way would have it move. */
const missesG = (moves: readonly Off[], course: Course): { readonly missG: number; readonly wantedG: number }[] => {
  const common = commonOf(moves, course);
  return moves.map(({ offG, massG }) => {
    const wantedG = expectedG(common, massG, course);
    return { missG: Math.abs(offG - wantedG), wantedG };
  });
};

function causeOf(moves: readonly Off[], { readabilityG }: TareChoice) {
  const total = (course: Course): number => missesG(moves, course).reduce((sum, m) => sum + m.missG, 0);
  const course: Course = total("part") < total("mass") ? "part" : "mass";
  const misses = missesG(moves, course);
  const near = misses.filter((m) => m.missG <= Math.max(4 * readabilityG, ALIKE * Math.abs(m.wantedG)));
  const cause: CommonFinding["cause"] = near.length / misses.length >= MOST ? "balance" : "stack";
  return { cause, course };
}

/**
 * Did all empty masses weighed together move together? The median over the sieves of each test is watched as one
 * sieve is. Moves alike, by the same mass or the same part of it, are the balance; unlike ones another stack.
 *
 * @returns null where the middle of the stack is steady, or where never four sieves were weighed together
 * @source own rules, no source; see docs/care-simulations.md
 */
export function commonMove(histories: readonly TareHistory[], choice: TareChoice): CommonFinding | null {
  const rounds = roundsOf(histories, choice);
  if (rounds.length < LEVEL_WEIGHINGS) return null;
  const commons = rounds.map((round) => round.commonG);
  const floorG = choice.repeatabilityG ?? choice.readabilityG / 2;
  const scatterG = Math.max(floorG, scatterOf(commons));
  const { alarm, since } = cusum(commons.map((offG) => offG / scatterG));
  const offG = medianOf(commons.slice(-RECENT));
  if (alarm === null || Math.abs(offG) <= actionLimitG(choice)) return null;
  const { cause, course } = causeOf(movesOf(rounds.slice(-RECENT)), choice);
  const from = rounds[since]?.at ?? "";
  return { cause, course, offG, since: from, ...words(cause, offG, from, choice) };
}

function words(cause: CommonFinding["cause"], offG: number, since: string, { readabilityG }: TareChoice) {
  const moved = `since ${dayOf(since)} all empty sieves weigh about ${grams(Math.abs(offG), readabilityG)}`;
  const way = offG > 0 ? "more" : "less";
  return cause === "balance"
    ? { text: `${moved} ${way}: the balance, not the sieves`, advice: "check the balance with its weights" }
    : {
        text: `${moved} ${way}, each by its own amount: another stack, or sieves changed about`,
        advice: "compare the serial numbers of the stack, then check the balance with its weights",
      };
}
