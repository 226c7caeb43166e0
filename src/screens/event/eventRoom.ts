import { wrapped } from "../../report/columns.ts";
import { signedPage } from "../../report/handoverPage.ts";
import { phrase, say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { type Line, line, type Span, span } from "../line.ts";
import {
  type App,
  type EventAbout,
  type EventPlace,
  enter,
  leave,
  type Size,
  type Step,
  stay,
  step,
} from "../place.ts";
import { type Binding, here, type Room } from "../room.ts";
import { typingBy } from "../typing.ts";
import { answerText, type Question } from "./answerWords.ts";
import { againstIn, answerTaken, entryOf, questionsOf } from "./forms.ts";

const TITLES: Readonly<Record<EventPlace["form"], string>> = {
  note: phrase("note for the shift"),
  line: phrase("what happened on a line"),
  hold: phrase("hold on lot"),
  close: phrase("close the hold on lot"),
  handover: phrase("hand the shift over"),
  taken: phrase("take the shift over"),
};

const LONGEST_ANSWER = 400;

/** An empty form. */
export const eventForm = (form: EventPlace["form"], about: EventAbout = { is: "nothing" }): EventPlace => ({
  name: "event",
  form,
  about,
  answers: [],
  typed: "",
});

/** Opens a form, unless nothing can be recorded here. */
export const openForm = (app: App, form: EventPlace["form"], about?: EventAbout): Step =>
  app.readOnly ? stay(app, app.readOnly) : step(enter(app, eventForm(form, about)));

const placeOf = (app: App): EventPlace => here(app, "event");

function titleOf({ form, about }: EventPlace): string {
  const title = spoken(TITLES[form]);
  if (about.is === "lot") return `${title} ${about.lot} · ${about.product}`;
  return about.is === "hold" ? `${title} ${about.hold.lot} · ${about.hold.product}` : title;
}

const wordCell = ({ word }: Question, role: "dim" | "strong"): Span => span(`  ${spoken(word).padEnd(14)}`, role);

function answeredLines(app: App, place: EventPlace): Line[] {
  const questions = questionsOf(app, place);
  return place.answers.flatMap((answer, i): Line[] => {
    const question = questions[i];
    return question === undefined ? [] : [[wordCell(question, "dim"), span(answerText(question, answer))]];
  });
}

function askedLines(app: App, place: EventPlace, columns: number): Line[] {
  const question = questionsOf(app, place)[place.answers.length];
  if (question === undefined) return [];
  const usual =
    place.typed === "" && question.usual !== undefined
      ? span(say`  Enter: ${answerText(question, question.usual)}`, "dim")
      : span("");
  const [first = "", ...more] = wrapped(`${place.typed}▌`, Math.max(20, columns - 18));
  const options = (question.options ?? []).map((option, i) =>
    line(`    ${`${i + 1}`.padStart(2)}  ${answerText(question, option)}`, "dim"),
  );
  return [
    [wordCell(question, "strong"), span(first, "field"), usual],
    ...more.map((row) => line(`${" ".repeat(16)}${row}`, "field")),
    ...wrapped(spoken(question.asks), columns - 4, "  ").map((row) => line(`  ${row}`, "dim")),
    ...options,
  ];
}

function body(app: App, size: Size): readonly Line[] {
  const place = placeOf(app);
  const against = againstIn(place);
  const warned = against === null ? [] : wrapped(`! ${spoken(against)}`, size.columns - 4, "  ");
  return [
    [],
    ...answeredLines(app, place),
    ...warned.map((row) => line(`  ${row}`, "warning")),
    [],
    ...askedLines(app, place, size.columns),
  ];
}

const put = (app: App, change: Partial<EventPlace>): Step =>
  step({ ...app, message: null, place: { ...placeOf(app), ...change } });

function recorded(app: App, answers: readonly string[]): Step {
  const place = placeOf(app);
  const entry = entryOf(app, place, answers);
  if (entry === null) return stay(app, say`this form is about nothing that can be recorded`);
  const signed = { by: entry.by, at: app.now };
  const page = place.about.is === "handover" ? { page: signedPage(place.about.page, signed) } : {};
  return step({ ...app, message: say`recording ...` }, { do: "recordEvent", entry, ...page });
}

function taken(app: App): Step {
  const place = placeOf(app);
  const question = questionsOf(app, place)[place.answers.length];
  if (question === undefined) return recorded(app, place.answers);
  const took = answerTaken(app, question, place.typed);
  if ("refusal" in took) return stay(app, took.refusal);
  const answers = [...place.answers, took.answer];
  const more = questionsOf(app, { ...place, answers }).length > answers.length;
  return more ? put(app, { answers, typed: "" }) : recorded(app, answers);
}

function back(app: App): Step {
  const { answers } = placeOf(app);
  const last = answers.at(-1);
  return last === undefined ? step(leave(app)) : put(app, { answers: answers.slice(0, -1), typed: last });
}

const KEYS: readonly Binding[] = [
  { keys: ["enter"], word: "accept", help: "Take the answer; after the last one the entry is recorded.", does: taken },
  {
    keys: ["escape"],
    word: "back",
    help: "To the question before; from the first one back, recording nothing.",
    does: back,
  },
];

const retyped = (app: App, change: (typed: string) => string): Step =>
  put(app, { typed: change(placeOf(app).typed).slice(0, LONGEST_ANSWER) });

/** Questions one after the other; what they lead to is an entry of the log. */
export const eventRoom: Room = {
  title: (app) => ({ left: titleOf(placeOf(app)), right: [] }),
  body,
  keys: () => KEYS,
  field: () => "text",
  ...typingBy(retyped, taken),
  about: [
    "What the shift should know and the record should keep: a note, a change of a line, a hold. Answers are taken one by",
    "one; options by their number or first letters. Nothing is recorded before the last answer, and nothing is ever",
    "changed afterwards.",
  ],
};
