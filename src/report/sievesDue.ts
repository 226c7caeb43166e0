import type { BalanceCondition, CalibrationCondition } from "../care/balanceCondition.ts";
import type { Condition } from "../care/conditionOf.ts";
import type { StationConditions } from "../care/conditions.ts";
import { hasPassed } from "../procedure/balance/balanceState.ts";
import { apertureText } from "../series/apertureText.ts";
import { drawable } from "../terminal/sanitise.ts";
import { SIGNS } from "../terminal/signs.ts";
import { inColumns, wrapped } from "./columns.ts";
import { conditionWord } from "./sieveWords.ts";

/** A sieve that is retired for good asks for nothing. */
const asks = ({ state, registered, advice }: Condition): boolean =>
  registered !== "retired" && (state !== "fit" || advice.length > 0);

const isPast = ({ state }: CalibrationCondition): boolean => state === "due" || state === "overdue";
const failed = ({ lastCheck }: BalanceCondition): boolean => lastCheck !== null && !hasPassed(lastCheck);

/** Of everything registered what is due, overdue, out of service, or has something that is to be done about it. */
export const whatIsDue = ({ sieves, balances, weights }: StationConditions): StationConditions => ({
  sieves: sieves.filter(asks),
  balances: balances.filter((balance) => isPast(balance) || failed(balance)),
  weights: weights.filter(isPast),
});

const CALIBRATION_WORDS: Readonly<Record<CalibrationCondition["state"], string>> = {
  fit: `fit ${SIGNS.pass}`,
  due: `due ${SIGNS.borderline}`,
  overdue: `OVERDUE ${SIGNS.invalid}`,
  "not known": "not known ?",
};

export const calibrationWord = (condition: CalibrationCondition): string => CALIBRATION_WORDS[condition.state];

interface Row {
  readonly cells: readonly [name: string, aperture: string, state: string];
  readonly texts: readonly string[];
}

const sieveRow = (condition: Condition): Row => ({
  cells: [condition.serial, apertureText(condition.apertureUm), conditionWord(condition)],
  // Why it is out of service; what is due, and what its empty masses tell, the advice says with its figures.
  texts: [
    ...(condition.state === "out of service" ? [condition.text] : []),
    ...condition.advice.map((text) => `! ${text}`),
  ],
});

function balanceRow(balance: BalanceCondition): Row {
  const word = failed(balance) ? `FAILED ${SIGNS.fail}` : calibrationWord(balance);
  const check = failed(balance) ? ["! its latest check failed: nothing weighed since then counts"] : [];
  return { cells: [balance.id, "balance", word], texts: [balance.text, ...check] };
}

/** What is to be done about sieves, balances and check weights, as a page: name, state, why, and what to do. */
export function sievesDuePage(due: StationConditions, day: string, width: number): string {
  const rows: readonly Row[] = [
    ...due.sieves.map(sieveRow),
    ...due.balances.map(balanceRow),
    ...due.weights.map((one): Row => ({ cells: [one.weight, "weight", calibrationWord(one)], texts: [one.text] })),
  ];
  if (rows.length === 0)
    return `nothing is due on ${day}, and nothing is to be done about sieves, balance or weights\n`;
  const heads = inColumns(rows.map(({ cells }) => [...cells]));
  const lines = rows.flatMap(({ texts }, i) => [
    heads[i] ?? "",
    ...texts.flatMap((text) => wrapped(`    ${text}`, width, "      ")),
  ]);
  return `${[`due on ${day}`, ...lines].map(drawable).join("\n")}\n`;
}
