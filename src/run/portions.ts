import type { Draft } from "../record/draft.ts";
import type { Shaking, Weighing } from "../record/test.ts";

/** A weighing whose present full mass joins the earlier portions, so that the next portion can be weighed. */
const setAside = (weighing: Weighing): Weighing =>
  weighing.fullG === null
    ? weighing
    : { ...weighing, fullG: null, earlierFullG: [...(weighing.earlierFullG ?? []), weighing.fullG] };

function broughtBack(weighing: Weighing): Weighing {
  const { earlierFullG = [], ...rest } = weighing;
  const fullG = earlierFullG.at(-1) ?? null;
  const earlier = earlierFullG.slice(0, -1);
  return earlier.length > 0 ? { ...rest, fullG, earlierFullG: earlier } : { ...rest, fullG };
}

const notShaken = ({ plannedS }: Shaking): Shaking => ({ plannedS, startedAt: null, endedAt: null, skipped: null });

/** How many portions of the charge have been put on the stack. */
export const portionOf = (draft: Draft): number => 1 + (draft.earlierShaking ?? []).length;

/** The sieves emptied for another portion of the charge: what each held is kept, and will be summed. */
export const withAnotherPortion = (draft: Draft): Draft => ({
  ...draft,
  weighings: draft.weighings.map(setAside),
  earlierShaking: [...(draft.earlierShaking ?? []), draft.shaking],
  shaking: notShaken(draft.shaking),
  checkMinute: null,
});

/** The last portion taken back: the masses and the shaking of the one before stand again. */
export function withoutLastPortion(draft: Draft): Draft {
  const { earlierShaking = [], ...rest } = draft;
  const shaking = earlierShaking.at(-1) ?? draft.shaking;
  const earlier = earlierShaking.slice(0, -1);
  const weighings = draft.weighings.map(broughtBack);
  return earlier.length > 0
    ? { ...rest, weighings, shaking, earlierShaking: earlier }
    : { ...rest, weighings, shaking };
}
