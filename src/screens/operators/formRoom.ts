import { type Line, line, span } from "../line.ts";
import { type App, leave, type Size, type Step, stay, step } from "../place.ts";
import { type Binding, here, type Room } from "../room.ts";
import type { OperatorFormPlace } from "../signOn/people.ts";
import { dots } from "../signOn/signOnRoom.ts";
import { answerRefusal, askOf, QUESTIONS } from "./forms.ts";

const LONGEST_ANSWER = 200;

const TITLES: Readonly<Record<OperatorFormPlace["form"], string>> = {
  "set up": "set sign-on up: the first administrator",
  add: "add somebody",
  role: "role of",
  PIN: "new PIN of",
  standing: "retire or bring back",
  turn: "turn sign-on on or off",
  idle: "sign-off without a key",
};

/** An empty form; what is known already is in it. */
export const formFor = (form: OperatorFormPlace["form"], who = "", typed = ""): OperatorFormPlace => ({
  name: "operatorForm",
  form,
  who,
  answers: [],
  typed,
  busy: false,
  code: null,
});

function codeLines(code: string): Line[] {
  return [
    [],
    line("  sign-on is required at this station from now on"),
    [],
    [span("  recovery code   "), span(code, "strong")],
    [],
    line("  Write it down and lock it away. It is shown this once, and it lets an administrator in"),
    line("  whose PIN is lost: sievewright operator recover --help"),
  ];
}

function questionLines(place: OperatorFormPlace): Line[] {
  return QUESTIONS[place.form].flatMap(({ word, hint, secret }, i): Line[] => {
    if (i > place.answers.length) return [];
    const current = i === place.answers.length;
    const text = current ? place.typed : (place.answers[i] ?? "");
    const shown = secret ? dots(text) : text;
    const head = span(`  ${word.padEnd(12)}`, current ? "strong" : "dim");
    return current ? [[head, span(`${shown}▌`, "field"), span(`  ${hint}`, "dim")]] : [[head, span(shown)]];
  });
}

function body(app: App, size: Size): readonly Line[] {
  const place = here(app, "operatorForm");
  const lines = place.code === null ? [[], ...questionLines(place)] : codeLines(place.code);
  return lines.slice(0, size.rows);
}

const put = (app: App, change: Partial<OperatorFormPlace>): Step =>
  step({ ...app, message: null, place: { ...here(app, "operatorForm"), ...change } });

function retyped(app: App, change: (typed: string) => string): Step {
  const place = here(app, "operatorForm");
  if (place.busy || place.code !== null) return stay(app, app.message);
  return put(app, { typed: change(place.typed).slice(0, LONGEST_ANSWER) });
}

function taken(app: App): Step {
  const place = here(app, "operatorForm");
  if (place.code !== null) return step(leave(app));
  if (place.busy) return stay(app, app.message);
  const refusal = answerRefusal(place, place.typed);
  if (refusal !== null) return stay(app, refusal);
  const answers = [...place.answers, place.typed];
  if (answers.length < QUESTIONS[place.form].length) return put(app, { answers, typed: "" });
  const asking: App = { ...app, message: "one moment ...", place: { ...place, busy: true } };
  return step(asking, { do: "people", ask: askOf(app, place, answers) });
}

function back(app: App): Step {
  const place = here(app, "operatorForm");
  if (place.code !== null) return stay(app, "write the recovery code down, then Enter");
  const last = place.answers.at(-1);
  if (last === undefined) return step(leave(app));
  const secret = QUESTIONS[place.form][place.answers.length - 1]?.secret === true;
  return put(app, { answers: place.answers.slice(0, -1), typed: secret ? "" : last });
}

export const FORM_KEYS: readonly Binding[] = [
  { keys: ["enter"], word: "take", help: "Take what is typed and go on to the next question.", does: taken },
  { keys: ["escape"], word: "back", help: "To the question before; from the first one back to the list.", does: back },
];

/** Questions about the people of the station, one after the other. */
export const formRoom: Room = {
  title: (app) => {
    const { form, who } = here(app, "operatorForm");
    return { left: who === "" ? TITLES[form] : `${TITLES[form]} ${who}`, right: [] };
  },
  body,
  keys: () => FORM_KEYS,
  field: () => "text",
  typed: (app, text) => retyped(app, (old) => old + text),
  erased: (app) => retyped(app, (old) => old.slice(0, -1)),
  scanned: (app, text, ended) => {
    const typing = retyped(app, (old) => old + text);
    return ended ? taken(typing.app) : typing;
  },
  about: [
    "Answers are taken one by one with Enter. PINs show as dots; they are kept",
    "as a hash that nobody can read them from. What was changed, by whom and",
    "why goes to the log; the PIN never does.",
  ],
};
