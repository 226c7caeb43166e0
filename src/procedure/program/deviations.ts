import { roundHalfAway } from "../../grading/rounding.ts";
import type { Aid, Program, ProgramRun } from "../../record/program.ts";
import { peakAccelerationG } from "../motion/acceleration.ts";
import { durationWords } from "../wording.ts";

/** A clock stopped by hand, and a stroke read off a scale, may differ by this much from the plan. */
const SECONDS_APART = 2;
const SHARE_APART = 0.02;

const NUMBERS = [
  { key: "strokeMm", label: "stroke", unit: "mm" },
  { key: "peakAccelerationG", label: "peak acceleration", unit: "g" },
  { key: "frequencyHz", label: "frequency", unit: "Hz" },
  { key: "tapsPerMin", label: "taps", unit: "a minute" },
  { key: "onS", label: "time on", unit: "s" },
  { key: "offS", label: "pause", unit: "s" },
] as const;

/**
 * In what a run of the shaker differed from its program, in words, one line each; nothing for what was not noted.
 * Times may differ by 2 s or 2 %, other numbers by 2 %. Where the program gives an acceleration and the run a
 * stroke (or the reverse), they are compared by way of the frequency.
 *
 * @source common practice, no source
 */
export function deviations(planned: Program, run: ProgramRun): string[] {
  const withAcceleration = sameTerms(planned, run);
  return [
    ...differs("program", planned.code, run.code),
    ...differs("motion", planned.motion, run.motion),
    ...durationDiffers(planned.durationS, run.durationS),
    ...NUMBERS.flatMap(({ key, label, unit }) => numberDiffers(label, unit, planned[key], withAcceleration[key])),
    ...aidsDiffer(planned.aids, run.aids),
    ...differs("sieving", wetness(planned.wet ?? false), run.wet === undefined ? undefined : wetness(run.wet)),
  ];
}

const wetness = (wet: boolean): string => (wet ? "wet" : "dry");

const differs = (label: string, planned: string, ran: string | undefined): string[] =>
  ran === undefined || ran === planned ? [] : [`${label} ${ran} instead of ${planned}`];

const secondsApart = (plannedS: number): number => Math.max(SECONDS_APART, SHARE_APART * plannedS);

/**
 * Whether the shaker ran for less time than its program says, by more than 2 s and 2 %; false where its time was not
 * noted.
 *
 * @source common practice, no source
 */
export const ranTooShort = ({ durationS }: Program, ran: ProgramRun): boolean =>
  ran.durationS !== undefined && durationS - ran.durationS > secondsApart(durationS);

function durationDiffers(plannedS: number, ranS: number | undefined): string[] {
  if (ranS === undefined || Math.abs(ranS - plannedS) <= secondsApart(plannedS)) return [];
  return [`ran ${durationWords(ranS)} instead of ${durationWords(plannedS)}`];
}

function numberDiffers(label: string, unit: string, planned: number | undefined, ran: number | undefined): string[] {
  if (planned === undefined || ran === undefined || Math.abs(ran - planned) <= SHARE_APART * planned) return [];
  return [`${label} ${roundHalfAway(ran, 2)} ${unit} instead of ${roundHalfAway(planned, 2)} ${unit}`];
}

/** The run with an acceleration worked out of its stroke, where the program knows only the acceleration, or the reverse. */
function sameTerms(planned: Program, run: ProgramRun): ProgramRun {
  const frequencyHz = run.frequencyHz ?? planned.frequencyHz;
  if (frequencyHz === undefined) return run;
  const perMm = peakAccelerationG(1, frequencyHz);
  if (planned.strokeMm === undefined && run.peakAccelerationG === undefined && run.strokeMm !== undefined)
    return { ...run, peakAccelerationG: run.strokeMm * perMm };
  if (planned.peakAccelerationG === undefined && run.strokeMm === undefined && run.peakAccelerationG !== undefined)
    return { ...run, strokeMm: run.peakAccelerationG / perMm };
  return run;
}

function aidsDiffer(planned: Program["aids"], ran: ProgramRun["aids"]): string[] {
  if (ran === undefined) return [];
  const [wanted, used] = [(planned ?? []).map(aidWords), ran.map(aidWords)];
  return [
    ...wanted.filter((aid) => !used.includes(aid)).map((aid) => `without ${aid}`),
    ...used.filter((aid) => !wanted.includes(aid)).map((aid) => `with ${aid}, which the program does not have`),
  ];
}

/** "3 rubber balls", "0.5 g of flow agent": a sieving aid in words. */
export function aidWords(aid: string | Aid): string {
  if (typeof aid === "string") return aid;
  const { count, material, doseG, onUm } = aid;
  const parts = [
    ...(doseG === undefined ? [] : [`${doseG} g of`]),
    ...(count === undefined ? [] : [`${count}`]),
    ...(material === undefined ? [] : [material]),
    aid.aid,
    ...(onUm === undefined ? [] : [`on ${onUm.map((um) => `${um} um`).join(", ")}`]),
  ];
  return parts.join(" ");
}
