import type { CalibrationCondition } from "../../care/balanceCondition.ts";
import type { Condition } from "../../care/conditionOf.ts";
import type { SieveState } from "../../record/sieve.ts";
import type { Role } from "../../terminal/theme.ts";
import { phrase } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { type Span, span } from "../line.ts";

const ROLES: Readonly<Record<Condition["state"], Role>> = {
  fit: "pass",
  due: "warning",
  overdue: "fail",
  "out of service": "invalid",
};

const FITNESS: Readonly<Record<Exclude<Condition["state"], "out of service">, string>> = {
  fit: phrase("fit ✓"),
  due: phrase("due ~"),
  overdue: phrase("OVERDUE !"),
};

/** Out of service: one that is in service all the same failed its inspection. */
const OUT: Readonly<Record<SieveState, string>> = {
  "in service": phrase("FAULTY ✗"),
  cleaning: phrase("cleaning –"),
  quarantine: phrase("QUARANTINE ✗"),
  retired: phrase("retired –"),
};

/** Every word that `conditionShown` has. */
export const conditionsShown = (): readonly string[] => [...Object.values(FITNESS), ...Object.values(OUT)].map(spoken);

/** The state of a sieve as a word with its sign. */
export const conditionShown = ({ state, registered }: Pick<Condition, "state" | "registered">): string =>
  spoken(state === "out of service" ? OUT[registered] : FITNESS[state]);

/** The state of a sieve: a word, a sign, and colour third. */
export const conditionSpan = (condition: Condition): Span =>
  span(
    conditionShown(condition),
    condition.registered === "retired" || condition.registered === "cleaning" ? "dim" : ROLES[condition.state],
  );

const CALIBRATIONS: Readonly<Record<CalibrationCondition["state"], { readonly text: string; readonly role: Role }>> = {
  fit: { text: FITNESS.fit, role: "pass" },
  due: { text: FITNESS.due, role: "warning" },
  overdue: { text: FITNESS.overdue, role: "fail" },
  "not known": { text: phrase("not known ?"), role: "warning" },
};

export const calibrationsShown = (): readonly string[] => Object.values(CALIBRATIONS).map(({ text }) => spoken(text));

export const calibrationSpan = ({ state }: CalibrationCondition): Span =>
  span(spoken(CALIBRATIONS[state].text), CALIBRATIONS[state].role);
