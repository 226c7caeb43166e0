import type { CareKnown } from "../care/known.ts";
import { notesOf } from "../care/use/life.ts";
import { isBetweenWeighings } from "../record/changedSieves.ts";
import type { Draft } from "../record/draft.ts";
import { SIEVE_CHANGES, type SieveChange, type SieveKnown } from "../record/sieve.ts";

const isChange = (did: string): did is SieveChange["did"] => SIEVE_CHANGES.some((change) => change === did);

/** The latest thing done to the sieve of a row since it was weighed empty and before it was weighed full. */
function changeOf(draft: Draft, serial: string, care: CareKnown): SieveChange | undefined {
  const row = draft.weighings.find((one) => one.serial === serial);
  if (row === undefined) return undefined;
  return notesOf(serial, care.notes)
    .flatMap(({ at, care: { did } }) => (isChange(did) ? [{ did, at }] : []))
    .findLast(({ at }) => isBetweenWeighings(draft, row.apertureUm, at));
}

/** What was noted before stays: the ledger keeps no entry that later ones make needless for the sieve itself. */
const withChange = (sieve: SieveKnown, changed: SieveChange | undefined): SieveKnown =>
  changed === undefined ? sieve : { ...sieve, changed };

/** The draft with what the care log tells of its sieves since they were weighed empty for it; as it is where nothing is known. */
export function changesNoted(draft: Draft, care: CareKnown | undefined): Draft {
  if (care === undefined || draft.sieves === undefined) return draft;
  const next = draft.sieves.map((sieve) => withChange(sieve, changeOf(draft, sieve.serial, care)));
  const isSame = next.every(({ changed }, i) => changed?.at === draft.sieves?.[i]?.changed?.at);
  return isSame ? draft : { ...draft, sieves: next };
}
