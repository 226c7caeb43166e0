import { inTime } from "../inTime.ts";
import { medianOf } from "../robust.ts";
import { dayOf, grams, sieveName } from "../words.ts";
import { type CleanedLevel, cleanedLevel, LEVEL_WEIGHINGS } from "./cleanedLevel.ts";
import { cusum } from "./cusum.ts";
import type { TareFinding, TareState } from "./finding.ts";
import { actionLimitG, type EmptyWeighing, type TareChoice, type TareHistory } from "./history.ts";
import { shapeOf } from "./shape.ts";

/** One weighing alone is odd beyond this many standard deviations. */
const ODD_Z = 8;
/** Weighings before a change that are looked at with it, to tell a step from a slow change. */
const LEAD = 8;
const RECENT = 3;
/**
 * The median of three weighings differs from a level learnt from twelve by about 0.76 of their scatter, by chance alone;
 * where the scatter is large against the readability, a change must be clear of that by this many times the scatter.
 */
const CLEAR_OF_SCATTER = 4;

interface Change {
  readonly state: TareState;
  readonly offG: number;
  readonly since: string | null;
}

const STATES = {
  rise: { slow: "caught", step: "step up" },
  fall: { slow: "wearing", step: "step down" },
} as const;

function changeOf(weighings: readonly EmptyWeighing[], level: CleanedLevel, actionG: number): Change {
  const moves = weighings.map((w) => w.emptyG - level.levelG);
  const emptied = new Set(weighings.flatMap((w, i) => (w.cleaned ? [i] : [])));
  const { alarm, since } = cusum(
    moves.map((move) => move / level.scatterG),
    emptied,
  );
  // What was brushed out is no more in the mesh: only what was weighed since tells where the sieve stands.
  const offG = medianOf(moves.slice(Math.max(moves.length - RECENT, ...emptied)));
  const last = moves.at(-1) ?? 0;
  const clearG = Math.max(actionG, ODD_Z * level.scatterG);
  // A mass that has come back from the latest ones (brushed and not noted, or another sieve) is told as it is, not as they were.
  const backG = alarm === "rise" ? offG - last : alarm === "fall" ? last - offG : 0;
  const goesOn = backG <= clearG;
  const beyond = alarm === "rise" ? offG > actionG : alarm === "fall" && offG < -actionG;
  if (alarm !== null && beyond && goesOn) {
    const first = Math.max(0, since - LEAD);
    const { way, from } = shapeOf(moves.slice(first));
    return { state: STATES[alarm][way], offG, since: weighings[first + from]?.at ?? null };
  }
  return Math.abs(last) > clearG
    ? { state: "odd", offG: last, since: weighings.at(-1)?.at ?? null }
    : { state: "steady", offG: goesOn ? offG : last, since: null };
}

const ADVICE: Readonly<Record<TareState, string | null>> = {
  learning: null,
  steady: null,
  odd: "weigh it again, and compare its serial number",
  caught: "clean it by brush or ultrasonic bath, then weigh it again",
  "step up": "clean it and weigh it again; compare its serial number; was the same balance used?",
  wearing: "inspect the cloth: measure its apertures, look for thinned or loose wires",
  "step down": "hold it to the light: a tear or a loose wire; compare its serial number; was the same balance used?",
};

function textOf(name: string, { state, offG, since }: Change, readabilityG: number): string {
  const mass = grams(Math.abs(offG), readabilityG);
  const from = since === null ? "" : ` since ${dayOf(since)}`;
  switch (state) {
    case "caught":
      return `${name} weighs ${mass} more than when clean, slowly risen${from}: grains caught in the mesh`;
    case "wearing":
      return `${name} weighs ${mass} less than when clean, slowly fallen${from}: wear`;
    case "step up":
      return `${name} weighs ${mass} more${from}, in one step: grains caught at once, another sieve or another balance`;
    case "step down":
      return `${name} weighs ${mass} less${from}, in one step: damage, another sieve or another balance`;
    case "odd":
      return `${name} weighs ${mass} ${offG > 0 ? "more" : "less"} than when clean, this once`;
    default:
      return `${name} weighs what it weighs when clean`;
  }
}

/**
 * What the empty weighings of one sieve tell: nothing, grains caught in the mesh, wear, or a step. A change is told
 * when the cumulative sums alarm and the last three weighings lie on their median beyond the action limit, and beyond
 * four times their own scatter.
 *
 * @returns state "learning" while its cleaned level is not known
 * @source own rules, no source; false alarms and delays in docs/care-simulations.md
 */
export function watchOne(history: TareHistory, choice: TareChoice): TareFinding {
  const weighings = inTime(history.weighings);
  const { serial, apertureUm } = history;
  const name = sieveName({ serial, apertureUm });
  const level = cleanedLevel(weighings, choice);
  if (level === null || weighings.length < LEVEL_WEIGHINGS) {
    const text = `${name} was weighed empty ${weighings.length} times: too few to know its own level`;
    const unknown = { levelG: null, toldFromG: null, offG: null, since: null, advice: null };
    return { serial, apertureUm, state: "learning", text, ...unknown };
  }
  const watched = weighings.slice(level.learnt - Math.min(level.learnt, LEVEL_WEIGHINGS));
  const toldFromG = choice.actionG ?? Math.max(actionLimitG(choice), CLEAR_OF_SCATTER * level.scatterG);
  const change = changeOf(watched, level, toldFromG);
  const text = textOf(name, change, choice.readabilityG);
  return { serial, apertureUm, levelG: level.levelG, toldFromG, ...change, text, advice: ADVICE[change.state] };
}
