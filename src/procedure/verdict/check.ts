import type { Severity } from "../../record/procedure.ts";

/** Something about the procedure that the operator must know, and what to do about it. */
export interface ProcedureNotice {
  readonly id: string;
  readonly severity: Severity;
  readonly text: string;
  /** What was found and what is allowed, with units; null where there is no figure. */
  readonly found: string | null;
  readonly limit: string | null;
  readonly rule: string;
  readonly source: string;
  /** What to do now, as an order. */
  readonly remedy: string;
}

export type CheckName =
  | "balance"
  | "sieves"
  | "charge"
  | "readability"
  | "moisture"
  | "washing"
  | "program"
  | "load"
  | "end point"
  | "loss";

/** One question asked of a test, and the answer. */
export interface ProcedureCheck {
  readonly check: CheckName;
  readonly state: "met" | "not met" | "not done" | "not asked";
  /** The product wants it: a test without it is not checked. */
  readonly required: boolean;
  readonly text: string;
  readonly notices: readonly ProcedureNotice[];
}

export const notAsked = (check: CheckName, text: string): ProcedureCheck => ({
  check,
  state: "not asked",
  required: false,
  text,
  notices: [],
});

export const met = (check: CheckName, required: boolean, text: string): ProcedureCheck => ({
  check,
  state: "met",
  required,
  text,
  notices: [],
});

export const notMet = (
  check: CheckName,
  required: boolean,
  text: string,
  notices: readonly ProcedureNotice[],
): ProcedureCheck => ({ check, state: "not met", required, text, notices });

/** A check that was not made: a warning with what to do where the product requires it, else a note of the state. */
export function notDone(
  check: CheckName,
  required: boolean,
  text: string,
  missing: Pick<ProcedureNotice, "id" | "rule" | "source" | "remedy">,
): ProcedureCheck {
  const severity = required ? "warning" : "note";
  return {
    check,
    state: "not done",
    required,
    text,
    notices: [{ ...missing, severity, text, found: null, limit: null }],
  };
}
