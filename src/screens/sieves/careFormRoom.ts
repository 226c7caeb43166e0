import { registerRefusal } from "../../care/register/refusals.ts";
import { ITEM_WORDS, nameOfItem } from "../../record/register.ts";
import { wrapped } from "../../report/columns.ts";
import { columnsOf } from "../../terminal/sanitise.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { type Line, line, span } from "../line.ts";
import { type App, leave, type Size, type Step, stay, step } from "../place.ts";
import { type Binding, here, type Room } from "../room.ts";
import { initialsOf } from "../sign/initials.ts";
import { typingBy } from "../typing.ts";
import { careAnswered, careQuestions } from "./careForms.ts";
import { nameShown } from "./names.ts";
import { CARE_FORMS, type CareFormPlace, REGISTER_FORMS } from "./places.ts";
import { answerShown, answersOf, type CareQuestion, SIGNED, taken } from "./questions.ts";
import { isRecording, recording } from "./recording.ts";
import { itemAnswered, type RegisterFormName, registerQuestions } from "./registerForms.ts";

const LONGEST_ANSWER = 400;
const LABEL_COLUMNS = 18;

const whatQuestion = (): CareQuestion => ({
  word: "what",
  asks: say`what is registered; file: whatever a JSON file holds, a reference material among them`,
  options: REGISTER_FORMS,
});

const TITLES: Readonly<Record<CareFormPlace["form"], (serial: string) => string>> = {
  cleaning: (serial) => say`cleaning of ${serial}`,
  repair: (serial) => say`repair of ${serial}`,
  quarantine: (serial) => say`quarantine for ${serial}`,
  "return to service": (serial) => say`return to service of ${serial}`,
  retirement: (serial) => say`retirement of ${serial}`,
  sieve: () => say`register a sieve`,
  set: () => say`register a set of sieves`,
  balance: () => say`register a balance`,
  "check weight": () => say`register a check weight`,
  file: () => say`register from a file`,
  what: () => say`register`,
};

const placeOf = (app: App): CareFormPlace => here(app, "careForm");

type CareDid = (typeof CARE_FORMS)[number];
const careForm = ({ form }: CareFormPlace): CareDid | null => CARE_FORMS.find((one) => one === form) ?? null;
const registerForm = ({ form }: CareFormPlace): RegisterFormName | null =>
  REGISTER_FORMS.find((one) => one === form) ?? null;

/** What the form asks, in order, as far as the answers so far tell. */
function questionsOf(app: App, place: CareFormPlace): readonly CareQuestion[] {
  const [care, register] = [careForm(place), registerForm(place)];
  if (care !== null) return careQuestions(app, place, care);
  return register === null ? [whatQuestion()] : registerQuestions(app, place, register);
}

/** As wide as the longest word of the questions needs it. */
const labelColumns = (questions: readonly CareQuestion[]): number =>
  Math.max(LABEL_COLUMNS, ...questions.map(({ word }) => columnsOf(spoken(word)) + 3));

function answeredLines(place: CareFormPlace, questions: readonly CareQuestion[], columns: number): Line[] {
  const label = labelColumns(questions);
  return place.answers.flatMap((answer, i) => {
    const question = questions[i];
    const shown = question === undefined ? answer : answerShown(question, answer);
    return wrapped(shown === "" ? "–" : shown, columns - label - 2).map((row, r) => [
      span(`  ${spoken(r === 0 ? (question?.word ?? "") : "").padEnd(label - 2)}`, "dim"),
      span(row),
    ]);
  });
}

/** What Enter takes while nothing is typed. */
function usualWords(question: CareQuestion): string {
  const { usual = "", mayBeEmpty } = question;
  if (usual === "") return "";
  const shown = answerShown(question, usual);
  return mayBeEmpty ? say`  Enter: ${shown}; - for none` : say`  Enter: ${shown}`;
}

function askedLines({ typed, answers }: CareFormPlace, questions: readonly CareQuestion[], columns: number): Line[] {
  const question = questions[answers.length];
  if (question === undefined) return [];
  const label = labelColumns(questions);
  const { word, asks, options = [] } = question;
  const hint = span(typed === "" ? usualWords(question) : "", "dim");
  const [first = "", ...more] = wrapped(`${typed}▌`, columns - label - 2);
  return [
    [span(`  ${spoken(word).padEnd(label - 2)}`, "strong"), span(first, "field"), hint],
    ...more.map((row) => line(`${" ".repeat(label)}${row}`, "field")),
    ...wrapped(asks, columns - 4).map((row) => line(`  ${row}`, "dim")),
    ...options.map((option, i) => line(`    ${`${i + 1}`.padStart(2)}  ${spoken(option)}`, "dim")),
  ];
}

/** The answers given, then the question in hand. */
function body(app: App, { columns }: Size): readonly Line[] {
  const place = placeOf(app);
  const questions = questionsOf(app, place);
  const asked = askedLines(place, questions, columns);
  return [[], ...answeredLines(place, questions, columns), [], ...asked];
}

const put = (app: App, change: Partial<CareFormPlace>): Step =>
  step({ ...app, message: null, place: { ...placeOf(app), ...change } });

/** What a filled form comes to. */
function filledOut(app: App, place: CareFormPlace, answers: readonly string[]): Step {
  const answerOf = answersOf(questionsOf(app, { ...place, answers }), answers);
  const by = initialsOf(app, answerOf(SIGNED));
  const care = careForm(place);
  if (care !== null)
    return recording(app, {
      do: "recordCare",
      entry: { kind: "care", by, care: careAnswered(app, place, care, answers) },
    });
  const form = registerForm(place);
  const reason = answerOf("why");
  if (form === null)
    return put(app, { form: REGISTER_FORMS.find((one) => one === answers[0]) ?? "sieve", answers: [], typed: "" });
  if (form === "file") return recording(app, { do: "registerFile", path: answerOf("file"), by, reason });
  const item = itemAnswered(app, place, form, answers);
  if (!item.ok) return stay(app, item.reason);
  const why = place.before === null ? undefined : reason;
  const refusal = registerRefusal(place.known.register, item.value, why);
  if (refusal !== null) return stay(app, spoken(refusal));
  const changedBy = why === undefined ? {} : { reason: why };
  return recording(app, { do: "recordCare", entry: { kind: "registered", by, item: item.value, ...changedBy } });
}

function enter(app: App): Step {
  if (isRecording(app)) return stay(app, app.message);
  const place = placeOf(app);
  const question = questionsOf(app, place)[place.answers.length];
  if (question === undefined) return filledOut(app, place, place.answers);
  const took = taken(app, question, place.typed);
  if ("refusal" in took) return stay(app, took.refusal);
  const answers = [...place.answers, took.answer];
  const next = questionsOf(app, { ...place, answers })[answers.length];
  if (next === undefined) return filledOut(app, place, answers);
  return put(app, { answers, typed: "", signing: next.word === SIGNED });
}

function back(app: App): Step {
  const { answers } = placeOf(app);
  const last = answers.at(-1);
  return last === undefined
    ? step(leave(app))
    : put(app, { answers: answers.slice(0, -1), typed: last, signing: false });
}

export const CARE_FORM_KEYS: readonly Binding[] = [
  { keys: ["enter"], word: "accept", help: "Take the answer; after the last one the entry is recorded.", does: enter },
  {
    keys: ["escape"],
    word: "back",
    help: "To the question before; from the first one back, recording nothing.",
    does: back,
  },
];

const retyped = (app: App, change: (typed: string) => string): Step =>
  put(app, { typed: change(placeOf(app).typed).slice(0, LONGEST_ANSWER) });

function titleOf({ form, serial, before }: CareFormPlace): string {
  if (before === null || CARE_FORMS.some((one) => one === form)) return TITLES[form](serial);
  return say`change ${nameShown(ITEM_WORDS[before.schema])} ${nameOfItem(before)}`;
}

/** Questions one after the other; what they lead to is an entry of the care log or of the register. */
export const careFormRoom: Room = {
  title: (app) => ({ left: titleOf(placeOf(app)), right: [] }),
  body,
  keys: () => CARE_FORM_KEYS,
  field: () => "text",
  ...typingBy(retyped, enter),
  about: [
    "Answers are taken one by one with Enter; options by their number or first letters; where a value stands there already Enter keeps it and - takes it away.",
    "Nothing is recorded before the last answer, and nothing is changed afterwards: the log keeps what the register said before.",
    "A cleaned sieve is weighed empty, dry and cool; a mass off its clean level is doubted once.",
  ],
};
