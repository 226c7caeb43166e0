import type { Draft } from "../record/draft.ts";
import type { Product } from "../record/product.ts";
import type { Program } from "../record/program.ts";
import type { Weighing } from "../record/test.ts";
import { changesNoted } from "./changesNoted.ts";
import { type LastTest, type Run, type Setting, setOutFields } from "./run.ts";

const unweighed = (apertureUm: number): Weighing => ({ apertureUm, emptyG: null, fullG: null });

/** The stack of a product as rows to weigh: coarsest first, the pan last. */
export const rowsToWeigh = (product: Product): Weighing[] =>
  [...product.stackUm.toSorted((a, b) => b - a), 0].map(unweighed);

/** The program that the product's method names, if the library has it. */
export const programOf = (product: Product, programs: readonly Program[]): Program | null =>
  programs.find((program) => program.code === product.method?.program) ?? null;

const unshaken = (program: Program | null) => ({
  plannedS: program?.durationS ?? 0,
  startedAt: null,
  endedAt: null,
  skipped: null,
});

/**
 * The draft with everything that hangs on the product copied from it, so that later edits of the library change nothing;
 * lot, line and sampling point as in the latest test of that product.
 */
export function withProduct(draft: Draft, product: Product, { programs, last }: Setting): Draft {
  const program = programOf(product, programs);
  const words = last.get(product.code) ?? {};
  const {
    usualEmpty: _ofTheOther,
    set: _set,
    sieves: _its,
    knownApertures: _known,
    meanApertures: _means,
    ...kept
  } = withoutMasses(draft, product);
  return { ...kept, ...words, product, program, weighings: rowsToWeigh(product), shaking: unshaken(program) };
}

/** Masses that this product does not ask for must not count in its test. */
function withoutMasses(draft: Draft, product: Product): Draft {
  const { moistG, dryG, washedG, ...rest } = draft;
  const asked = new Set<string>(setOutFields(product));
  const masses = Object.entries({ moistG, dryG, washedG }).filter(([field]) => asked.has(field));
  return { ...rest, ...Object.fromEntries(masses) };
}

/** Which test it is; and which one it repeats, where it repeats one. */
export interface Identity extends Pick<Draft, "retest"> {
  readonly testId: string;
  readonly station: string;
  readonly at: string;
}

/** A new test: nothing accepted yet, the last test's words standing in each field. */
export function startRun(product: Product, last: LastTest, setting: Setting, identity: Identity): Run {
  const program = programOf(product, setting.programs);
  const draft: Draft = {
    schema: "sievewright.draft/1",
    stage: "set out",
    testId: identity.testId,
    station: identity.station,
    startedAt: identity.at,
    product,
    ...last,
    ...(identity.retest === undefined ? {} : { retest: identity.retest }),
    chargeG: null,
    balance: setting.balance,
    ...(setting.balanceKnown ? { balanceKnown: setting.balanceKnown } : {}),
    program,
    weighings: rowsToWeigh(product),
    shaking: unshaken(program),
    remark: "",
    disposition: null,
    trail: [],
  };
  return { draft, at: 0, typed: "", doubt: null, message: null, setting };
}

/** The row to weigh next: the nearest one below that is not weighed, else the nearest one above; null when all are. */
export function nextRow(weighings: readonly Weighing[], column: "emptyG" | "fullG", from: number): number | null {
  const below = weighings.findIndex((w, row) => row > from && w[column] === null);
  if (below >= 0) return below;
  const above = weighings.findLastIndex((w, row) => row < from && w[column] === null);
  return above >= 0 ? above : null;
}

/**
 * A draft taken up again, hands on the first row that is not weighed yet. What is known of the balance is brought up to
 * date as long as nothing has been weighed.
 */
export function resumeRun(draft: Draft, setting: Setting): Run {
  const begun = draft.chargeG !== null || draft.weighings.some((w) => w.emptyG !== null);
  const { balanceKnown } = setting;
  const known = begun || !balanceKnown ? draft : { ...draft, balanceKnown };
  const column = draft.stage === "weigh full" ? "fullG" : "emptyG";
  const weighing = draft.stage === "weigh full" || draft.stage === "weigh empty";
  const at = weighing ? (nextRow(draft.weighings, column, -1) ?? 0) : 0;
  return { draft: changesNoted(known, setting.care), at, typed: "", doubt: null, message: null, setting };
}
