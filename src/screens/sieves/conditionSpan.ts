import type { CalibrationCondition } from "../../care/balanceCondition.ts";
import type { Condition } from "../../care/conditionOf.ts";
import { conditionWord } from "../../report/sieveWords.ts";
import type { Role } from "../../terminal/theme.ts";
import { type Span, span } from "../line.ts";

const ROLES: Readonly<Record<Condition["state"], Role>> = {
  fit: "pass",
  due: "warning",
  overdue: "fail",
  "out of service": "invalid",
};

/** The state of a sieve: a word, a sign, and colour third. */
export const conditionSpan = (condition: Condition): Span =>
  span(
    conditionWord(condition),
    condition.registered === "retired" || condition.registered === "cleaning" ? "dim" : ROLES[condition.state],
  );

const CALIBRATIONS: Readonly<Record<CalibrationCondition["state"], { readonly text: string; readonly role: Role }>> = {
  fit: { text: "fit ✓", role: "pass" },
  due: { text: "due ~", role: "warning" },
  overdue: { text: "OVERDUE !", role: "fail" },
  "not known": { text: "not known ?", role: "warning" },
};

export const calibrationSpan = ({ state }: CalibrationCondition): Span =>
  span(CALIBRATIONS[state].text, CALIBRATIONS[state].role);
