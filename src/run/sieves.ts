import { lackingWords } from "../assess/apertureNotices.ts";
import { meansOfTest, otherApertures } from "../assess/drawnOver.ts";
import { knownApertureOf, meanAperturesOf, type SerialRow } from "../care/apertureChosen.ts";
import type { Condition } from "../care/conditionOf.ts";
import type { CareKnown } from "../care/known.ts";
import { setsFor, sieveOf, sievesOf } from "../care/register/register.ts";
import type { Draft } from "../record/draft.ts";
import type { MeanAperture } from "../record/meanAperture.ts";
import type { SieveKnown, Stack } from "../record/sieve.ts";
import { standing, type Weighing } from "../record/test.ts";
import { apertureText } from "../series/apertureText.ts";

/** What stands for a stack of which no set is told. */
export const NO_SET = "none";

/** A test in progress, as far as its sieves are concerned. */
interface Choosing {
  readonly draft: Draft;
  readonly setting: { readonly care?: CareKnown };
}

/** Sets that make up the stack of the product in hand. */
export const setsOf = ({ draft, setting }: Choosing): readonly Stack[] =>
  setting.care === undefined ? [] : setsFor(setting.care.register, draft.product.stackUm);

export const conditionOfSerial = (care: CareKnown | undefined, serial: string): Condition | undefined =>
  care?.conditions.sieves.find((one) => one.serial === serial);

/** Why a sieve should not be used at all, with its serial; null where it may. */
export function outOfServiceWords(care: CareKnown | undefined, serial: string): string | null {
  const condition = conditionOfSerial(care, serial);
  if (condition?.state !== "out of service") return null;
  const { registered, text } = condition;
  if (registered === "in service") return `${serial} ${text}`;
  return `${serial} is ${registered === "retired" ? "" : "in "}${text}`;
}

const isInService = (care: CareKnown | undefined, { serials }: Stack): boolean =>
  serials.every((serial) => conditionOfSerial(care, serial)?.state !== "out of service");

/** The set that Enter takes: the one accepted, else the one used last, else the first whose sieves are all in service. */
export function setInHand(run: Choosing): Stack | null {
  const sets = setsOf(run);
  const named = (code: unknown) => sets.find((set) => set.code === code) ?? null;
  const accepted = standing(run.draft.trail).findLast(({ field }) => field === "set");
  if (accepted !== undefined) return named(accepted.to);
  const { care } = run.setting;
  return named(care?.lastSets.get(run.draft.product.code)) ?? sets.find((set) => isInService(care, set)) ?? null;
}

function knownOf(sieve: SieveKnown | undefined, serial: string, care: CareKnown | undefined): SieveKnown[] {
  const condition = conditionOfSerial(care, serial);
  if (condition === undefined) return sieve === undefined ? [] : [sieve];
  const { apertureUm, state, text } = condition;
  const changed = sieve?.changed === undefined ? {} : { changed: sieve.changed };
  return [{ serial, apertureUm, state, text: text.slice(0, 400), ...changed }];
}

const rowsWithSerial = ({ weighings }: Draft): SerialRow[] =>
  weighings.flatMap(({ serial, apertureUm }) => (serial === undefined ? [] : [{ serial, apertureUm }]));

/** What is known now of the mean apertures that the product draws its curve over; nothing for a curve over nominal ones. */
function meansNoted(draft: Draft, care: CareKnown | undefined): MeanAperture[] {
  const choice = otherApertures(draft.product);
  if (choice === null) return [];
  const rows = rowsWithSerial(draft);
  if (care !== undefined) return meanAperturesOf(rows, choice, care, draft.startedAt.slice(0, 10));
  return rows.flatMap(({ serial }) => draft.meanApertures?.find((mean) => mean.serial === serial) ?? []);
}

/** The draft with what is known now of the sieves whose serials stand in its rows. */
export function sievesNoted(draft: Draft, care: CareKnown | undefined): Draft {
  const { sieves: before, knownApertures, meanApertures: _former, ...rest } = draft;
  const serials = draft.weighings.flatMap(({ serial }) => serial ?? []);
  const sieves = serials.flatMap((serial) => {
    const former = before?.find((one) => one.serial === serial);
    return knownOf(former, serial, care);
  });
  const known =
    care === undefined
      ? (knownApertures ?? []).filter(({ serial }) => serial !== undefined && serials.includes(serial))
      : serials.flatMap((serial) => {
          const sieve = sieveOf(care.register, serial);
          return (sieve && knownApertureOf(sieve)) ?? [];
        });
  const means = meansNoted(draft, care);
  return {
    ...rest,
    ...(means.length > 0 ? { meanApertures: means } : {}),
    ...(sieves.length > 0 ? { sieves } : {}),
    ...(known.length > 0 ? { knownApertures: known } : {}),
  };
}

/** The draft with another sieve in the row of an aperture; null: none is told. */
export function withSerial(draft: Draft, apertureUm: number, serial: string | null): Draft {
  const weighings = draft.weighings.map((w) => {
    if (w.apertureUm !== apertureUm) return w;
    const { serial: _former, ...row } = w;
    return serial === null ? row : { ...row, serial };
  });
  return { ...draft, weighings };
}

/** The draft with a set in its rows, or with no sieve told. */
export function withSet(draft: Draft, set: Stack | null, care: CareKnown | undefined): Draft {
  const sieves = set === null || care === undefined ? [] : sievesOf(care.register, set);
  const { set: _former, ...rest } = draft;
  const filled = draft.weighings.reduce<Draft>((filling, { apertureUm }) => {
    const serial = sieves.find((sieve) => sieve.apertureUm === apertureUm)?.serial ?? null;
    return withSerial(filling, apertureUm, serial);
  }, rest);
  return sievesNoted(set === null ? filled : { ...filled, set: set.code }, care);
}

/** Why a sieve is not the one whose empty mass stands in a row: what is weighed full less that mass would be wrong. */
export function weighedAsOther({ serial: own, apertureUm, emptyG }: Weighing, serial: string): string | null {
  if (emptyG === null || own === undefined || own === serial) return null;
  return `the ${apertureText(apertureUm)} sieve was weighed empty as ${own} (${emptyG} g), not as ${serial}`;
}

/**
 * What is lacking for the curve that the product asks for, in words, while there is time to do something about it; null: nothing.
 *
 * @param only the sieve of this aperture, where no other is asked about
 */
export function meansLackingWords(draft: Draft, only: number | null = null): string | null {
  const choice = otherApertures(draft.product);
  const means = meansOfTest(draft) ?? [];
  const lacking = lackingWords(only === null ? means : means.filter(({ apertureUm }) => apertureUm === only));
  if (choice === null || lacking === null) return null;
  return `this product's curve is drawn over ${choice} mean apertures, and no size will be determined: ${lacking}`;
}

/** Sieves of the draft that should not be used, in words, those of one reason together; null when nothing is to be said. */
export function unfitWords({ sieves = [] }: Draft): string | null {
  const unfit = sieves.filter(({ state }) => state === "overdue" || state === "out of service");
  const texts = [...new Set(unfit.map(({ text }) => text))];
  const told = texts.map((text) => {
    const serials = unfit.filter((one) => one.text === text).map(({ serial }) => serial);
    return `${serials.join(", ")}: ${text}`;
  });
  return told.length === 0 ? null : told.join("; ");
}
