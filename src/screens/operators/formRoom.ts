import { wrapped } from "../../report/columns.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { type Line, line, span } from "../line.ts";
import { type App, leave, type Size, type Step, stay, step } from "../place.ts";
import { type Binding, here, type Room } from "../room.ts";
import type { OperatorFormPlace } from "../signOn/people.ts";
import { dots } from "../signOn/signOnRoom.ts";
import { typingBy } from "../typing.ts";
import { answerRefusal, askOf, QUESTIONS } from "./forms.ts";

const LONGEST_ANSWER = 200;

const TITLES: Readonly<Record<OperatorFormPlace["form"], (who: string) => string>> = {
  "set up": () => say`set sign-on up: the first administrator`,
  add: () => say`add somebody`,
  role: (who) => say`role of ${who}`,
  PIN: (who) => say`new PIN of ${who}`,
  standing: (who) => say`retire or bring back ${who}`,
  turn: () => say`turn sign-on on or off`,
  idle: () => say`sign-off without a key`,
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

function codeLines(code: string, columns: number): Line[] {
  const lockAway = say`Write it down and lock it away. It is shown this once, and it lets an administrator in whose PIN is lost: sievewright operator recover --help`;
  return [
    [],
    line(say`  sign-on is required at this station from now on`),
    [],
    [span(say`  recovery code   `), span(code, "strong")],
    [],
    ...wrapped(lockAway, columns - 4).map((text) => line(`  ${text}`)),
  ];
}

const LABEL_COLUMNS = 12;

function questionLines(place: OperatorFormPlace): Line[] {
  return QUESTIONS[place.form].flatMap(({ word, hint, secret }, i): Line[] => {
    if (i > place.answers.length) return [];
    const current = i === place.answers.length;
    const text = current ? place.typed : (place.answers[i] ?? "");
    const shown = secret ? dots(text) : text;
    const head = span(`  ${spoken(word).padEnd(LABEL_COLUMNS)}`, current ? "strong" : "dim");
    return current ? [[head, span(`${shown}▌`, "field"), span(`  ${hint()}`, "dim")]] : [[head, span(shown)]];
  });
}

function body(app: App, size: Size): readonly Line[] {
  const place = here(app, "operatorForm");
  const lines = place.code === null ? [[], ...questionLines(place)] : codeLines(place.code, size.columns);
  return lines;
}

const put = (app: App, change: Partial<OperatorFormPlace>): Step =>
  step({ ...app, message: null, place: { ...here(app, "operatorForm"), ...change } });

function retyped(app: App, change: (typed: string) => string): Step {
  const place = here(app, "operatorForm");
  if (place.busy || place.code !== null) return stay(app, app.message);
  return put(app, { typed: change(place.typed).slice(0, LONGEST_ANSWER) });
}

/** What shows as dots can't be mended by looking at it: it is typed anew. */
function refusedAnswer(app: App, place: OperatorFormPlace, refusal: string): Step {
  const secret = QUESTIONS[place.form][place.answers.length]?.secret === true;
  return stay(secret ? { ...app, place: { ...place, typed: "" } } : app, refusal);
}

function taken(app: App): Step {
  const place = here(app, "operatorForm");
  if (place.code !== null) return step(leave(app));
  if (place.busy) return stay(app, app.message);
  const refusal = answerRefusal(place, place.typed);
  if (refusal !== null) return refusedAnswer(app, place, refusal);
  const answers = [...place.answers, place.typed];
  if (answers.length < QUESTIONS[place.form].length) return put(app, { answers, typed: "" });
  const asking: App = { ...app, message: say`one moment ...`, place: { ...place, busy: true } };
  return step(asking, { do: "people", ask: askOf(app, place, answers) });
}

function back(app: App): Step {
  const place = here(app, "operatorForm");
  if (place.code !== null) return stay(app, say`write the recovery code down, then Enter`);
  const last = place.answers.at(-1);
  if (last === undefined) return step(leave(app));
  const secret = QUESTIONS[place.form][place.answers.length - 1]?.secret === true;
  return put(app, { answers: place.answers.slice(0, -1), typed: secret ? "" : last });
}

export const FORM_KEYS: readonly Binding[] = [
  { keys: ["enter"], word: "take", help: "Take what is typed and go on to the next question.", does: taken },
  { keys: ["escape"], word: "back", help: "To the question before; from the first one back to the list.", does: back },
];

/** While the recovery code is shown there is nothing else to do. */
export const CODE_KEYS: readonly Binding[] = [
  { keys: ["enter"], word: "written down", help: "Go on, once the code is written down.", does: taken },
  { keys: ["escape"], word: "back", help: "Says that the code is to be written down.", does: back, quiet: true },
];

/** Questions about the people of the station, one after the other. */
export const formRoom: Room = {
  title: (app) => {
    const { form, who } = here(app, "operatorForm");
    return { left: TITLES[form](who), right: [] };
  },
  body,
  keys: (app) => (here(app, "operatorForm").code === null ? FORM_KEYS : CODE_KEYS),
  field: () => "text",
  ...typingBy(retyped, taken),
  about: [
    "Answers are taken one by one with Enter. PINs show as dots; they are kept as a hash that nobody can read them from.",
    "What was changed, by whom and why goes to the log; the PIN never does.",
  ],
};
