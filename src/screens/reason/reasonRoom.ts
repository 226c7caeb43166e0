import { refTo } from "../../assess/correctionOf.ts";
import { mayBeTakenOver } from "../../record/takenOver.ts";
import { currentTest } from "../../record/versions.ts";
import { wrapped } from "../../report/columns.ts";
import { phrase, say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { reasonIn } from "../correct/correcting.ts";
import { type Line, line, span } from "../line.ts";
import { type App, leave, type Reasoned, type ReasonPlace, type Size, type Step, stay, step } from "../place.ts";
import { type Binding, here, type Room } from "../room.ts";
import { draftTitle } from "../run/runRoom.ts";
import { initialsOf, initialsRefusal } from "../sign/initials.ts";
import { typingBy } from "../typing.ts";

const placeOf = (app: App): ReasonPlace => here(app, "reason");

interface Words {
  readonly title: string;
  readonly asks: string;
  readonly follows: readonly string[];
}

/** What each act is called, asks, and leads to. */
const WORDS: Readonly<Record<Reasoned["act"], Words>> = {
  voided: {
    title: phrase("void"),
    asks: phrase("why does this test not count?"),
    follows: [
      phrase("The test counts no more: not in lists, trends, usual masses, nor for its lot."),
      phrase("It stays on record with this reason, and can be reinstated."),
    ],
  },
  reinstated: {
    title: phrase("reinstate"),
    asks: phrase("why does this test count again?"),
    follows: [phrase("The test counts again, as it read before. That it was void stays on record.")],
  },
  waived: {
    title: phrase("waive"),
    asks: phrase("why does this invalid test count all the same?"),
    follows: [
      phrase("The test stays invalid and says so; it counts in trends and for its lot by your word."),
      phrase("What made it invalid stays on record with it."),
    ],
  },
  ended: {
    title: phrase("end without a result"),
    asks: phrase("what happened? (spilled, dropped, wrong sample ...)"),
    follows: [
      phrase("The test comes to its end without a result. All that was entered in it goes on record with this reason;"),
      phrase("it is off the bench and can't be taken up again."),
    ],
  },
};

const testIn = (what: Reasoned) => (what.act === "ended" ? what.draft : currentTest(what.history));

function signLine(app: App, { typed }: ReasonPlace): Line {
  const by = initialsOf(app, typed);
  const known = app.session ?? app.station.operators.find(({ initials }) => initials === by);
  return [span(say`  signed by  `, "strong"), span(`${by}▌`, "field"), span(known ? `  ${known.name}` : "", "dim")];
}

/** What was taken over is a copy: that the test is void does not reach it. */
const copiesLeft = (what: Reasoned): Line[] =>
  what.act === "voided" && mayBeTakenOver(testIn(what))
    ? [line(say`  ! tests after it that took its empty masses over keep them: look at each`, "warning")]
    : [];

function body(app: App, size: Size): readonly Line[] {
  const place = placeOf(app);
  const { asks, follows } = WORDS[place.what.act];
  const typing = place.field === "reason";
  const words = wrapped(typing ? `${place.reason}▌` : place.reason, size.columns - 6);
  return [
    [],
    line(`  ${spoken(asks)}`, "strong"),
    ...words.map((row) => line(`  ${row}`, typing ? "field" : "plain")),
    [],
    ...follows.flatMap((text) => wrapped(spoken(text), size.columns - 4)).map((row) => line(`  ${row}`, "dim")),
    ...copiesLeft(place.what),
    [],
    ...(typing ? [] : [signLine(app, place)]),
  ];
}

function reasonTaken(app: App): Step {
  const reason = reasonIn(placeOf(app).reason);
  if (!reason.ok) return stay(app, reason.reason);
  return step({ ...app, message: null, place: { ...placeOf(app), field: "initials", reason: reason.value } });
}

function signed(app: App): Step {
  const { what, reason, typed } = placeOf(app);
  const by = initialsOf(app, typed);
  const refusal = initialsRefusal(app, by);
  if (refusal !== null) return stay(app, refusal);
  const recording = { ...app, message: say`recording ...` };
  if (what.act === "ended") return step(recording, { do: "endTest", draft: what.draft, reason, by });
  return step(recording, { do: "amend", amending: { kind: what.act, of: refTo(what.history.entry), reason }, by });
}

const taken = (app: App): Step => (placeOf(app).field === "reason" ? reasonTaken(app) : signed(app));

function back(app: App): Step {
  const place = placeOf(app);
  return place.field === "reason"
    ? step(leave(app))
    : step({ ...app, message: null, place: { ...place, field: "reason" } });
}

const KEYS: readonly Binding[] = [
  { keys: ["enter"], word: "accept", help: "Take the reason, then sign with the initials shown.", does: taken },
  { keys: ["escape"], word: "back", help: "One step back; nothing is recorded.", does: back },
];

const LONGEST = { reason: 400, initials: 8 } as const;

function retyped(app: App, change: (typed: string) => string): Step {
  const place = placeOf(app);
  const field = place.field === "reason" ? "reason" : "typed";
  const text = change(place[field]).slice(0, LONGEST[place.field]);
  return step({ ...app, message: null, place: { ...place, [field]: text } });
}

/** A reason and a signature: for a test that is not to count, that is to count again, or that came to nothing. */
export const reasonRoom: Room = {
  title: (app) => {
    const { what } = placeOf(app);
    const title = draftTitle(testIn(what));
    const left = what.act === "ended" ? title : say`no. ${what.history.entry.number} · ${title}`;
    return { left, right: line(spoken(WORDS[what.act].title), "strong") };
  },
  body,
  keys: () => KEYS,
  field: () => "text",
  ...typingBy(retyped, taken),
  about: [
    "Some things about a test take no more than a reason and a signature. Nothing is taken off the record by them: each",
    "is an entry of its own, with who, when and why, and can be read beside the test for good.",
  ],
};
