import { standing, type TestRecord } from "./test.ts";

/** An empty mass of a test that was not weighed in it. */
export interface TakenOver {
  readonly apertureUm: number;
  /** The recorded test in which it was weighed, and when. */
  readonly number: number;
  readonly at: string;
}

/**
 * The empty masses of a test that were taken over from another one, coarsest first. One that was weighed anew, or corrected
 * later, is none.
 */
export function takenOverIn({ weighings, trail }: Pick<TestRecord, "weighings" | "trail">): readonly TakenOver[] {
  const entries = standing(trail).filter(({ field }) => field === "emptyG");
  return weighings.flatMap(({ apertureUm, emptyG }) => {
    const item = entries.findLast((one) => one.apertureUm === apertureUm);
    return item?.takenOver && item.to === emptyG ? [{ apertureUm, ...item.takenOver }] : [];
  });
}

/** Whether tests after this one may have taken its empty masses over: what becomes of it does not reach them by itself. */
export const mayBeTakenOver = ({ product }: Pick<TestRecord, "product">): boolean =>
  product.method?.emptyMasses === "each shift";
