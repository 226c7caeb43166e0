import { accepted, type Outcome, refused } from "./entry/outcome.ts";
import { findFor } from "./envelope/find.ts";
import { judgeLimit, productVerdict } from "./envelope/judge.ts";
import { type JudgedLimit, limitsOf } from "./envelope/limit.ts";
import { basisOf, type ChoiceOverrides, choicesOf } from "./grading/choices.ts";
import { grade } from "./grading/grade.ts";
import type { Fraction, GradedFraction, Grading, GradingChoices } from "./grading/grading.ts";
import type { ModelFits } from "./grading/models/fit.ts";
import { fitModels } from "./grading/models/fitModels.ts";
import { netOfWeighingG } from "./grading/netMass.ts";
import { openEndWarnings, panEnd, topEnd } from "./grading/openEnds.ts";
import { passingAt } from "./grading/passingAt.ts";
import { percentiles } from "./grading/percentile.ts";
import { characteristicValues } from "./grading/values/table.ts";
import { type ConductedTest, conductOf } from "./procedure/conductOf.ts";
import type { RuleInForce } from "./procedure/rules/inForce.ts";
import { resolveRules } from "./procedure/rules/resolve.ts";
import { ruleSetOf } from "./procedure/rules/ruleSets.ts";
import type { ProcedureCheck } from "./procedure/verdict/check.ts";
import { massesOnly, type ProcedureFacts } from "./procedure/verdict/facts.ts";
import { judgeProcedure, type ProcedureVerdict } from "./procedure/verdict/judgeProcedure.ts";
import type { Determination } from "./record/determination.ts";
import type { Severity } from "./record/procedure.ts";
import type { Basis, Decision, Interpolation, Product } from "./record/product.ts";
import type { ProductVerdict, TestRecord, TestVerdict } from "./record/test.ts";
import { VALUE_IDS, type ValueId } from "./record/valueIds.ts";

export type { JudgedLimit } from "./envelope/limit.ts";
export type { Severity } from "./record/procedure.ts";

/** Something the operator must know about this test, in words for three in the morning. */
export interface Notice {
  readonly id: string;
  readonly severity: Severity;
  readonly text: string;
  /** What was found, and what is allowed, with units; null or absent where there is no figure. */
  readonly found?: string | null;
  readonly limit?: string | null;
  readonly rule?: string;
  readonly source?: string;
  /** What to do now, as an order. */
  readonly remedy?: string;
}

/** What is known of how the test was run, besides its masses; what is absent was not noted or not looked at. */
export type Conduct = Partial<
  Pick<
    ProcedureFacts,
    "moisturePct" | "balance" | "endPoint" | "program" | "run" | "sieves" | "usualEmptyG" | "mostHeldG"
  >
>;

/** What was weighed: every fraction, in any order, and the dry mass put on (and left after washing), where known. */
export interface Weighed {
  readonly fractions: readonly Fraction[];
  readonly chargeG: number | null;
  readonly washedG: number | null;
  /** The pan was not weighed: it is what the charge leaves over, so no loss can be told. */
  readonly panAssumed?: boolean;
  readonly conduct?: Conduct;
}

/** What else bears on the numbers: the balance, and choices made for this one run of them. */
export interface Circumstances extends ChoiceOverrides {
  readonly readabilityG: number;
}

export interface Assessment {
  readonly basis: Basis;
  readonly interpolation: Interpolation;
  readonly chargeG: number | null;
  readonly recoveredG: number;
  readonly lossG: number | null;
  readonly lossPct: number | null;
  readonly fractions: readonly GradedFraction[];
  /** By passing %: "5", "10", ... "95". */
  readonly percentilesUm: Readonly<Record<string, Determination>>;
  readonly values: Readonly<Record<ValueId, Determination>>;
  /** Fitted when first asked for: lists and trends never ask. */
  readonly models: ModelFits;
  readonly verdict: {
    readonly test: TestVerdict;
    readonly product: ProductVerdict;
    readonly limits: readonly JudgedLimit[];
  };
  /** By which rules the test itself was judged, and what each check found, in the order of the work. */
  readonly procedure: {
    readonly ruleSet: { readonly id: string; readonly title: string } | null;
    readonly checks: readonly Omit<ProcedureCheck, "notices">[];
    readonly rules: readonly RuleInForce[];
  };
  readonly notices: readonly Notice[];
}

const SIMPLE: Decision = { rule: "simple", compare: "absolute" };

const rowName = (apertureUm: number) => (apertureUm === 0 ? "the pan" : `the ${apertureUm} um sieve`);

interface Levelled {
  readonly fractions: readonly Fraction[];
  readonly notices: readonly Notice[];
}

/** A fraction lighter than nothing by no more than the balance can read counts as nothing, and is noted; more is refused. */
function levelled(fractions: readonly Fraction[], readabilityG: number): Outcome<Levelled> {
  const low = fractions.filter((f) => f.netG < 0);
  const wrong = low.find((f) => f.netG < -readabilityG);
  if (wrong) return refused(`${rowName(wrong.apertureUm)} is ${-wrong.netG} g lighter full than empty: weigh it again`);
  return accepted({
    fractions: fractions.map((f) => (f.netG < 0 ? { ...f, netG: 0 } : f)),
    notices: low.map((f) => ({
      id: "below-empty",
      severity: "note",
      text: `${rowName(f.apertureUm)} is ${-f.netG} g lighter full than empty, within what the balance reads: counted as 0`,
    })),
  });
}

/** Is the test itself valid? Judged by the rules that the product names, and by nothing else. */
function conducted(
  grading: Grading,
  weighed: Weighed,
  product: Product | null,
  readabilityG: number,
): ProcedureVerdict {
  const facts = {
    ...massesOnly(grading, weighed.washedG),
    panAssumed: weighed.panAssumed ?? false,
    readabilityG,
    ...weighed.conduct,
  };
  return judgeProcedure(facts, resolveRules(product?.method, product?.method?.procedure));
}

function ruleSetWords(product: Product | null) {
  const id = product?.method?.procedure?.ruleSet;
  if (id === undefined) return null;
  const { title, edition } = ruleSetOf(id);
  return { id, title: edition === "" ? title : `${title}, ${edition}` };
}

const asksFor = ({ show, values }: Product, id: ValueId): boolean =>
  (show ?? []).includes(id) || (values ?? []).some((wish) => wish.id === id);

/** Values that rest on an assumed top or bottom of more than a little: said wherever somebody looks at such values. */
function openEndNotices(grading: Grading, product: Product | null, { choices, values }: Judged): Notice[] {
  const asked = product === null ? VALUE_IDS : VALUE_IDS.filter((id) => asksFor(product, id));
  const assumed = [topEnd(grading, choices), panEnd(grading, choices)].flatMap((end) =>
    end.ok && "assumption" in end.value && end.value.assumption !== null ? [end.value.assumption] : [],
  );
  const resting = asked.some((id) => {
    const found = values[id];
    return found.determinable && (found.assumptions ?? []).some((text) => assumed.includes(text));
  });
  if (!resting) return [];
  const severity = product === null ? "note" : "warning";
  return openEndWarnings(grading, choices).map((text) => ({ id: "open-end", severity, text }));
}

interface Judged {
  readonly limits: readonly JudgedLimit[];
  readonly choices: GradingChoices;
  readonly values: Readonly<Record<ValueId, Determination>>;
}

function judged(grading: Grading, product: Product | null, circumstances: Circumstances): Judged {
  const choices = choicesOf(product, circumstances);
  const values = characteristicValues(grading, choices);
  const findings = { grading, choices, values, interpolateMissing: product?.method?.interpolateMissing ?? false };
  const decision = product?.decision ?? SIMPLE;
  const limits = product
    ? limitsOf(product).map((limit) => judgeLimit(limit, findFor(limit.on, findings), decision))
    : [];
  return { limits, choices, values };
}

/** A value worked out when it is first asked for, and then kept. */
function onDemand<T>(work: () => T): () => T {
  let kept: { readonly found: T } | null = null;
  return () => {
    kept ??= { found: work() };
    return kept.found;
  };
}

/**
 * THE function: what was weighed, judged against a product (or nothing), in given circumstances.
 *
 * Masses become fractions, fractions percentages of the basis, percentages a curve; from the curve come percentiles,
 * characteristic values and the verdict on each limit. The test itself is judged first: an invalid test proves
 * nothing about the product. Everything that shows a result shows what this function returns.
 *
 * @returns the assessment, or why the weighings can't be assessed at all, in the operator's words
 */
export function assess(weighed: Weighed, product: Product | null, circumstances: Circumstances): Outcome<Assessment> {
  const level = levelled(weighed.fractions, circumstances.readabilityG);
  if (!level.ok) return level;
  const basis = basisOf(product, circumstances);
  const graded = grade(level.value.fractions, { basis, chargeG: weighed.chargeG, washedG: weighed.washedG });
  if (!graded.ok) return graded;
  const grading = graded.value;
  const found = judged(grading, product, circumstances);
  const { limits, choices, values } = found;
  const procedure = conducted(grading, weighed, product, circumstances.readabilityG);
  const models = onDemand(() => fitModels(grading, choices));
  return accepted({
    basis,
    interpolation: choices.interpolation,
    chargeG: grading.chargeG,
    recoveredG: grading.recoveredG,
    lossG: weighed.panAssumed ? null : grading.lossG,
    lossPct: weighed.panAssumed ? null : grading.lossPct,
    fractions: grading.rows,
    percentilesUm: percentiles(grading, choices.interpolation),
    values,
    get models() {
      return models();
    },
    verdict: { test: procedure.verdict, product: productVerdict(limits, procedure.verdict), limits },
    procedure: {
      ruleSet: ruleSetWords(product),
      checks: procedure.checks.map(({ check, state, required, text }) => ({ check, state, required, text })),
      rules: procedure.rules,
    },
    notices: [...level.value.notices, ...procedure.notices, ...openEndNotices(grading, product, found)],
  });
}

/** What of a test, in progress or recorded, bears on its assessment. */
export type Tested = ConductedTest & Pick<TestRecord, "weighings" | "chargeG" | "washedG" | "product" | "balance">;

/** What a test weighed, as fractions; a weighing that is missing makes the test not assessable. */
export function weighedIn(test: Tested): Outcome<Weighed> {
  const missing = test.weighings.find((w) => w.emptyG === null || w.fullG === null);
  if (missing) return refused(`${rowName(missing.apertureUm)} is not weighed yet`);
  const fractions = test.weighings.map((weighing) => {
    const { apertureUm, emptyG, fullG } = weighing;
    return { apertureUm, emptyG, fullG, netG: netOfWeighingG(weighing) ?? 0 };
  });
  return accepted({ fractions, chargeG: test.chargeG, washedG: test.washedG ?? null, conduct: conductOf(test) });
}

/** Records and drafts are never changed in place, so what one was assessed as holds as long as it exists. */
const ASSESSED = new WeakMap<Tested, Outcome<Assessment>>();

/** A test, in progress or recorded, against its own copy of the product revision. */
export function assessTest(test: Tested): Outcome<Assessment> {
  const known = ASSESSED.get(test);
  if (known) return known;
  const weighed = weighedIn(test);
  const found = weighed.ok ? assess(weighed.value, test.product, { readabilityG: test.balance.readabilityG }) : weighed;
  ASSESSED.set(test, found);
  return found;
}

/** The passing curve of an assessment at any size: % passing, or null outside the sieves. */
export const curveOf =
  ({ fractions, interpolation }: Pick<Assessment, "fractions" | "interpolation">) =>
  (sizeUm: number): number | null => {
    const passing = passingAt({ rows: fractions }, sizeUm, interpolation);
    return passing.determinable ? passing.value : null;
  };
