import { netMassG, netOfWeighingG, sumG } from "../grading/netMass.ts";
import type { Weighing } from "../record/test.ts";
import { standing } from "../record/test.ts";
import { apertureText } from "../series/apertureText.ts";
import { fairLoadOn } from "./fairLoad.ts";
import type { Run } from "./run.ts";
import { columnOf } from "./run.ts";
import { conditionOfSerial, outOfServiceWords } from "./sieves.ts";
import { lastEmptyG, tareSaid } from "./tareDoubt.ts";

/** How far an empty mass may lie from the last one of that sieve before it is doubted: 0.5 g or 0.2 %. */
const TARE_SLACK_G = 0.5;
const TARE_SLACK_SHARE = 0.002;

interface Weighed {
  readonly run: Run;
  readonly row: Weighing;
  readonly grams: number;
  readonly at: string;
}

type Question = (weighed: Weighed) => string | null;

const rowName = (apertureUm: number) => (apertureUm === 0 ? "the pan" : `the ${apertureText(apertureUm)} sieve`);
const shown = (grams: number) => `${Number(grams.toFixed(3))} g`;

const belowEmpty: Question = ({ run, row, grams }) => {
  if (run.draft.stage !== "weigh full" || row.emptyG === null || grams >= row.emptyG) return null;
  return `full is ${shown(netMassG(row.emptyG, grams))} below empty (${shown(row.emptyG)}): the right sieve?`;
};

const sameAgain: Question = ({ run, grams }) => {
  const last = standing(run.draft.trail).at(-1);
  const weighed = last?.field === "emptyG" || last?.field === "fullG" || last?.field === "chargeG";
  return weighed && last.to === grams ? "the same mass as the one before: was the balance read again?" : null;
};

const overCapacity: Question = ({ run, grams }) => {
  const { capacityG } = run.setting.balance;
  return grams > capacityG ? `the balance carries ${shown(capacityG)} only: is this its reading?` : null;
};

/** By the history of the very sieve where it has one, else by what stood in this row last time. */
const otherTare: Question = ({ run, row, grams, at }) => {
  const { care, usual } = run.setting;
  if (run.draft.stage !== "weigh empty") return null;
  const said = tareSaid(run.draft, row, grams, at, care);
  if (said.known) return said.text;
  const lastG = row.serial === undefined ? usual.get(row.apertureUm)?.emptyG : lastEmptyG(care, row.serial);
  if (lastG === undefined || lastG === null) return null;
  const slackG = Math.max(TARE_SLACK_G, TARE_SLACK_SHARE * lastG);
  if (Math.abs(grams - lastG) <= slackG) return null;
  return `${rowName(row.apertureUm)} weighed ${shown(lastG)} empty last time: clean, and the right one?`;
};

const unusualNet: Question = ({ run, row, grams }) => {
  const usual = run.setting.usual.get(row.apertureUm);
  const { chargeG, stage } = run.draft;
  if (stage !== "weigh full" || !usual || row.emptyG === null || chargeG === null) return null;
  const netG = netMassG(grams, row.emptyG);
  const lowG = usual.lowShare * chargeG;
  const highG = usual.highShare * chargeG;
  if (netG >= lowG && netG <= highG) return null;
  return `${shown(netG)} net: usual for this product is ${shown(Math.round(lowG))} to ${shown(Math.round(highG))}`;
};

const aboveCharge: Question = ({ run, row, grams }) => {
  const { chargeG, stage, weighings } = run.draft;
  if (stage !== "weigh full" || chargeG === null) return null;
  const nets = weighings.map((w) => netOfWeighingG(w === row ? { ...w, fullG: grams } : w) ?? 0);
  const overG = netMassG(sumG(nets), chargeG);
  const allowedG = run.setting.balance.readabilityG * (nets.length + 1);
  return overG > allowedG ? `recovered ${shown(overG)} more than the charge of ${shown(chargeG)}` : null;
};

const overload: Question = ({ run, row, grams }) => {
  if (run.draft.stage !== "weigh full" || row.emptyG === null) return null;
  const fair = fairLoadOn(run.draft, row.apertureUm);
  const netG = netMassG(grams, row.emptyG);
  if (!fair?.determinable || netG <= fair.value) return null;
  return `${rowName(row.apertureUm)} holds ${shown(netG)}, a fair load is ${shown(Math.floor(fair.value))}: sieve in portions (a on the result)`;
};

/** Asked once a sieve, be it scanned or typed; it is told beside what the mass itself is doubted for. */
function outOfService({ setting, draft }: Run, { serial, apertureUm }: Weighing): string | null {
  if (serial === undefined) return null;
  const reason = conditionOfSerial(setting.care, serial)?.text ?? "";
  const asked = standing(draft.trail).some(
    (item) => item.apertureUm === apertureUm && item.warned?.includes(serial) && item.warned.includes(reason),
  );
  return asked ? null : outOfServiceWords(setting.care, serial);
}

/** In the order in which they say most; the first that has something to say is shown. */
const QUESTIONS: readonly Question[] = [
  belowEmpty,
  overCapacity,
  aboveCharge,
  overload,
  sameAgain,
  otherTare,
  unusualNet,
];

/**
 * Why a mass just entered can't be right, in the operator's words; null if nothing speaks against it.
 * Asked at once, while the sieve is still on the balance; a second Enter accepts the mass all the same.
 */
export function doubtOf(run: Run, grams: number, at: string = run.draft.startedAt): string | null {
  const row = run.draft.weighings[run.at];
  if (!row || row[columnOf(run.draft.stage)] === grams) return null;
  const out = outOfService(run, row);
  for (const question of QUESTIONS) {
    const text = question({ run, row, grams, at });
    if (text) return out === null ? text : `${text}; ${out}`;
  }
  return out === null ? null : `${out}; Enter again weighs it all the same`;
}
