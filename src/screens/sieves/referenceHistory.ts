import { type CheckNote, evidenceOf } from "../../care/apertureChosen.ts";
import { checkHistory } from "../../care/reference/history.ts";
import { referenceCheck } from "../../care/reference/referenceCheck.ts";
import type { LedgerNote } from "../../record/careLedger.ts";
import { sizeText } from "../../report/figures.ts";
import { dayText } from "../../words/figures.ts";
import { say } from "../../words/say.ts";
import { type Line, line } from "../line.ts";
import type { ReferencePlace } from "./places.ts";
import { told } from "./told.ts";

/** Runs that are told before a material is chosen. */
const LATEST_RUNS = 4;

/** What a run said of all its sieves together. */
function runWords({ number, day, care }: CheckNote): string {
  const sieves = referenceCheck(care);
  const off = sieves.filter(({ result }) => result === "disagrees" || result === "questionable");
  const names = off.map(({ serial, apertureUm }) => serial ?? `${apertureUm} um`).join(", ");
  const of = say`${dayText(day)}  ${care.material.code} on ${String(sieves.length)} sieves, no. ${String(number)}`;
  return off.length === 0 ? say`${of}: none is off` : say`${of}: off are ${names}`;
}

const runsIn = (notes: readonly LedgerNote[]): readonly CheckNote[] =>
  notes.flatMap(({ number, day, at, care }) => (care.did === "reference check" ? [{ number, day, at, care }] : []));

/** The latest runs of any reference material, newest first, as far as they still bear on a sieve. */
export function latestRuns({ known }: Pick<ReferencePlace, "known">, columns: number): readonly Line[] {
  const runs = runsIn(known.notes).toSorted((a, b) => b.number - a.number);
  if (runs.length === 0) return [];
  return [
    [],
    line(say`  latest runs`, "dim"),
    ...runs.slice(0, LATEST_RUNS).flatMap((run) => told(runWords(run), columns, "dim")),
    ...told(say`the whole history of a sieve stands on its own page, by material`, columns, "dim"),
  ];
}

/** The effective apertures that the sieves of a run had at their run before, to hold the new ones against. */
export function runBefore({ known, check }: Pick<ReferencePlace, "known" | "check">, columns: number): readonly Line[] {
  const before = (check?.found ?? []).flatMap(({ serial }) => {
    const note = serial === undefined ? null : evidenceOf(known, serial).check;
    const [last] = note === null || serial === undefined ? [] : checkHistory(serial, [note]);
    if (last === undefined || !last.checked.effectiveUm.determinable) return [];
    return [say`${serial ?? ""} ${sizeText(last.checked.effectiveUm.value, 1)} on ${dayText(last.day)}`];
  });
  return before.length === 0 ? [] : told(say`at the run before: ${before.join("; ")}`, columns, "dim");
}
