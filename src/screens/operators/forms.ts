import { pinRefusal } from "../../record/operatorsPin.ts";
import { ROLES, type Role } from "../../record/roles.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import type { App } from "../place.ts";
import type { OperatorFormPlace, PeopleAsk } from "../signOn/people.ts";
import { roleShown } from "./permits.ts";

/** One question of a form. */
export interface Question {
  readonly word: string;
  readonly hint: () => string;
  /** Shown as dots. */
  readonly secret?: true;
  readonly mayBeEmpty?: true;
}

const INITIALS: Question = { word: "initials", hint: () => say`begin with a letter, at most 8 characters` };
const NAME: Question = { word: "name", hint: () => say`as it is known at the plant` };
const ROLE: Question = { word: "role", hint: () => ROLES.map((role, i) => `${i + 1} ${roleShown(role)}`).join("   ") };
const REASON: Question = { word: "why", hint: () => say`for the log; Enter leaves it empty`, mayBeEmpty: true };
const NEW_PIN: Question = {
  word: "new PIN",
  hint: () => say`4 to 12 digits, or a passphrase of 10 characters`,
  secret: true,
};
const AGAIN: Question = { word: "once more", hint: () => say`the same PIN`, secret: true };
const OWN_PIN: Question = { word: "your PIN", hint: () => say`an administrator's`, secret: true };
const MINUTES: Question = { word: "minutes", hint: () => say`1 to 480 without a key, then sign-off` };

export const QUESTIONS: Readonly<Record<OperatorFormPlace["form"], readonly Question[]>> = {
  "set up": [INITIALS, NAME, NEW_PIN, AGAIN],
  add: [INITIALS, NAME, ROLE, NEW_PIN, AGAIN],
  role: [ROLE, REASON],
  PIN: [NEW_PIN, AGAIN],
  standing: [REASON],
  turn: [INITIALS, OWN_PIN, REASON],
  idle: [MINUTES],
};

/** A role by its number or the beginning of its name. */
export function roleTyped(typed: string): Role | null {
  const text = typed.trim().toLowerCase();
  if (text === "") return null;
  const begins = (name: string): boolean => name.toLowerCase().startsWith(text);
  return ROLES[Number(text) - 1] ?? ROLES.find((role) => begins(roleShown(role)) || begins(role)) ?? null;
}

const pinShown = (refusal: string | null): string | null => (refusal === null ? null : spoken(refusal));

/** Why an answer is not taken; null when it is. The store has the last word on all else. */
export function answerRefusal({ form, who, answers }: OperatorFormPlace, typed: string): string | null {
  const question = QUESTIONS[form][answers.length];
  if (question === undefined) return null;
  if (typed.trim() === "" && !question.mayBeEmpty) return say`type: ${spoken(question.word)}`;
  if (question === ROLE && roleTyped(typed) === null)
    return say`a role is ${ROLES.map(roleShown).join(", ")}: type its number`;
  if (question === AGAIN && typed !== answers.at(-1)) return say`the two differ: type the same PIN once more, or Esc`;
  if (question === NEW_PIN) return pinShown(pinRefusal(typed, form === "PIN" ? [who] : answers.slice(0, 2)));
  if (question === MINUTES && !/^\d{1,3}$/.test(typed.trim())) return say`minutes are a whole number`;
  return null;
}

/** What a filled form asks for. */
export function askOf(app: App, { form, who }: OperatorFormPlace, answers: readonly string[]): PeopleAsk {
  const [first = "", second = "", third = "", fourth = ""] = answers;
  const role = (typed: string): Role => roleTyped(typed) ?? "operator";
  switch (form) {
    case "set up":
      return { is: "set up", first: { initials: first.trim(), name: second, pin: third } };
    case "add": {
      const person = { initials: first.trim(), name: second, role: role(third), pin: fourth };
      return { is: "change", change: { event: "added", ...person, reason: "" } };
    }
    case "role":
      return { is: "change", change: { event: "role changed", initials: who, role: role(first), reason: second } };
    case "PIN":
      return { is: "change", change: { event: "PIN set", initials: who, pin: first, reason: "" } };
    case "standing": {
      const retired = app.people.list.find((person) => person.initials === who)?.state === "retired";
      return { is: "change", change: { event: retired ? "brought back" : "retired", initials: who, reason: first } };
    }
    case "turn": {
      const rule = app.people.rule === "required" ? "none" : "required";
      return { is: "declare", rule, who: { initials: first, pin: second }, reason: third };
    }
    case "idle":
      return { is: "idle", minutes: Number(first) };
  }
}
