import type { CareKnown } from "../care/known.ts";
import { newLife } from "../care/ledger/ledger.ts";
import type { TareState } from "../care/tare/finding.ts";
import { watchLives } from "../care/tare/ofLife.ts";
import type { TareWatch } from "../care/tare/tareWatch.ts";
import type { SieveLife, WeighedEmpty } from "../record/careLedger.ts";
import type { Draft } from "../record/draft.ts";
import { takenOverIn } from "../record/takenOver.ts";
import { standing, type Weighing } from "../record/test.ts";

/** What is told at the balance; wear comes slowly and is told where sieves are looked after. */
const TOLD: readonly TareState[] = ["caught", "step up", "step down", "odd"];

/** After whatever the log holds. */
const NOT_RECORDED = Number.MAX_SAFE_INTEGER;

/** The empty weighings of this test as far as they were made, the one in question in place of what stood in its row. */
function weighedNow(draft: Draft, inHand: Weighing, grams: number, at: string): ReadonlyMap<string, WeighedEmpty> {
  const { testId } = draft;
  const unweighed = new Set(takenOverIn(draft).map(({ apertureUm }) => apertureUm));
  const found = draft.weighings.flatMap(({ serial, emptyG, apertureUm }) => {
    const massG = apertureUm === inHand.apertureUm ? grams : unweighed.has(apertureUm) ? null : emptyG;
    const day = at.slice(0, 10);
    return serial === undefined || massG === null
      ? []
      : [[serial, { number: NOT_RECORDED, day, at, testId, emptyG: massG }] as const];
  });
  return new Map(found);
}

/** The lives of the sieves in the stack, as they will be once this test is recorded. */
function livesNow(draft: Draft, inHand: Weighing, grams: number, at: string, care: CareKnown): SieveLife[] {
  const now = weighedNow(draft, inHand, grams, at);
  return draft.weighings.flatMap(({ serial, apertureUm }) => {
    if (serial === undefined || apertureUm === 0) return [];
    const life = care.lives.get(serial) ?? newLife(serial);
    const earlier = life.weighings.filter((w) => w.testId !== draft.testId);
    const own = now.get(serial);
    return [{ ...life, apertureUm, weighings: own === undefined ? earlier : [...earlier, own] }];
  });
}

const OF_BALANCE = "all empty sieves weigh";
/** Once said of all sieves it need not be said at each of them. */
const isSaid = (draft: Draft): boolean =>
  standing(draft.trail).some(({ field, warned }) => field === "emptyG" && warned?.includes(OF_BALANCE) === true);

function wordsOf({ together, sieves }: TareWatch, draft: Draft, serial: string): string | null {
  if (together !== null) return isSaid(draft) ? null : `${together.text}: ${together.advice}`;
  const own = sieves.find((one) => one.serial === serial);
  return own !== undefined && TOLD.includes(own.state) ? `${own.text}: ${own.advice}` : null;
}

/** What is said of a mass by the history of its sieve. */
export type TareSaid = { readonly known: false } | { readonly known: true; readonly text: string | null };

/**
 * What the history of a sieve says of an empty mass just entered: grains caught in the mesh, a step, or all of them moved
 * together, which is the balance. Of a sieve without a history nothing is known.
 *
 * @source `tareWatch`
 */
export function tareSaid(
  draft: Draft,
  row: Weighing,
  grams: number,
  at: string,
  care: CareKnown | undefined,
): TareSaid {
  if (care === undefined || row.serial === undefined || row.apertureUm === 0) return { known: false };
  const watch = watchLives(livesNow(draft, row, grams, at, care), care.notes, care.balance);
  const own = watch?.sieves.find(({ serial }) => serial === row.serial);
  if (watch === null || own === undefined || own.state === "learning") return { known: false };
  return { known: true, text: wordsOf(watch, draft, row.serial) };
}

/** What a sieve of this serial weighed empty when it was weighed last; null where it never was. */
export const lastEmptyG = (care: CareKnown | undefined, serial: string): number | null =>
  care?.lives.get(serial)?.weighings.at(-1)?.emptyG ?? null;
