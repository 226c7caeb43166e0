import type { Frame, ProcedureChoice } from "../../record/procedure.ts";
import type { ProductContent } from "../../record/productDraft.ts";
import { apertureText } from "../../series/apertureText.ts";
import { type Compare, field, unit, yesNo } from "./change.ts";

const RULES = "by the rule set";

/** One field of the rules by which a test is judged; absent, the rule set decides. */
const rule = <T>(
  name: string,
  label: string,
  of: (choice: ProcedureChoice) => T | undefined,
  show: (there: T) => string = String,
  unset = RULES,
): Compare => {
  const there = ({ method }: ProductContent): T | undefined =>
    method?.procedure === undefined ? undefined : of(method.procedure);
  return field(`method.procedure.${name}`, `test rules: ${label}`, there, show, unset);
};

const frameText = (frame: Frame): string =>
  typeof frame === "number" ? `${frame} mm` : `${frame.widthMm} x ${frame.lengthMm} mm`;

type Interval = NonNullable<NonNullable<ProcedureChoice["balance"]>["interval"]>;
const intervalText = (every: Interval): string => (typeof every === "string" ? every : `${every.hours} h`);

type PerSieve = NonNullable<NonNullable<ProcedureChoice["load"]>["perSieve"]>;
const perSieveText = (limits: PerSieve): string =>
  limits.length === 0
    ? "an empty list"
    : limits.map(({ apertureUm, limitG }) => `${apertureText(apertureUm)} ${limitG} g`).join(", ");

const LOAD_FIELDS: readonly Compare[] = [
  rule("load.rule", "load by", (c) => c.load?.rule),
  rule("load.limitG", "load at most", (c) => c.load?.limitG, unit("g"), "none"),
  rule("load.perSieve", "load by sieve", (c) => c.load?.perSieve, perSieveText, "none"),
  rule("load.overload", "overload is a", (c) => c.load?.overload),
];

const END_POINT_FIELDS: readonly Compare[] = [
  rule("endPoint.criterion.of", "end point in % of", (c) => c.endPoint?.criterion?.of),
  rule("endPoint.criterion.limitPct", "end point at", (c) => c.endPoint?.criterion?.limitPct, unit("%")),
  rule("endPoint.criterion.periodS", "end point within", (c) => c.endPoint?.criterion?.periodS, unit("s")),
  rule("endPoint.criterion.below", "end point below its limit only", (c) => c.endPoint?.criterion?.below, yesNo, "no"),
  rule("endPoint.criterion.orG", "end point or at", (c) => c.endPoint?.criterion?.orG, unit("g"), "none"),
  rule(
    "endPoint.criterion.small.belowPct",
    "small residue below",
    (c) => c.endPoint?.criterion?.small?.belowPct,
    unit("%"),
    "none",
  ),
  rule(
    "endPoint.criterion.small.limitPct",
    "end point of a small residue at",
    (c) => c.endPoint?.criterion?.small?.limitPct,
    unit("%"),
    "none",
  ),
  rule("endPoint.criterion.sieves", "end point on sieves", (c) => c.endPoint?.criterion?.sieves),
  rule("endPoint.required", "end point required", (c) => c.endPoint?.required, yesNo),
  rule("endPoint.notReached", "end point not reached is a", (c) => c.endPoint?.notReached),
];

/** The rules by which a test itself is judged. */
export const PROCEDURE_FIELDS: readonly Compare[] = [
  rule("ruleSet", "rule set", (c) => c.ruleSet, String, "none"),
  rule("frameMm", "sieve frame", (c) => c.frameMm, frameText),
  rule("charge.largestParticleMm", "largest particle", (c) => c.charge?.largestParticleMm, unit("mm")),
  rule("charge.outside", "charge out of range is a", (c) => c.charge?.outside),
  ...LOAD_FIELDS,
  ...END_POINT_FIELDS,
  rule("balance.required", "balance check required", (c) => c.balance?.required, yesNo),
  rule("balance.interval", "balance check every", (c) => c.balance?.interval, intervalText),
  rule("balance.readabilityPct", "balance reads to", (c) => c.balance?.readabilityPct, unit("% of the charge")),
  rule("program.required", "program required", (c) => c.program?.required, yesNo),
  rule("program.deviation", "program run otherwise is a", (c) => c.program?.deviation),
  rule("moisture.maxPct", "moisture at most", (c) => c.moisture?.maxPct, unit("%")),
  rule("moisture.required", "moisture required", (c) => c.moisture?.required, yesNo),
  rule("moisture.above", "moisture above is a", (c) => c.moisture?.above),
  rule("sieves.required", "sieves by serial required", (c) => c.sieves?.required, yesNo),
];
