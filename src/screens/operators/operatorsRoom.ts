import type { PersonShown } from "../../record/operatorsList.ts";
import { wrapped } from "../../report/columns.ts";
import { signOnWords } from "../../report/signOnWords.ts";
import type { Role } from "../../terminal/theme.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { cells, type Line, line, windowAround } from "../line.ts";
import { type App, enter, leave, type Size, type Step, stay, step } from "../place.ts";
import { type Binding, here, type Room } from "../room.ts";
import { formFor } from "./formRoom.ts";
import { actRefused, permitLines, roleShown } from "./permits.ts";

function personLine({ initials, name, role, state }: PersonShown, chosen: boolean): Line {
  return cells([
    { text: chosen ? "▸" : "", columns: 3, role: "strong" },
    { text: initials, columns: 10, role: chosen ? "strong" : "plain" },
    { text: name, columns: 30 },
    { text: roleShown(role), columns: 16 },
    { text: state === "retired" ? say`retired ` : "", columns: 14, role: "dim" },
  ]);
}

const prose = (text: string, columns: number, role: Role = "plain"): Line[] =>
  wrapped(text, columns - 4).map((row) => line(`  ${row}`, role));

const setUpWords = (): string =>
  say`n sets sign-on up: you become its first administrator and then add the others. From then on everybody signs on with initials and PIN, and the log keeps that they did.`;

/** A station that has no list: what is so now, and what setting one up would change. */
function unlisted({ station, people }: App, columns: number): Line[] {
  const known = station.operators.map(({ initials, name }) => `${initials} ${name}`).join(", ");
  return [
    line(`  ${spoken(signOnWords(people.rule))}`, "strong"),
    ...(known === "" ? [] : prose(say`known initials: ${known}`, columns, "dim")),
    [],
    ...prose(setUpWords(), columns),
  ];
}

function listed(app: App, rows: number): Line[] {
  const { at } = here(app, "operators");
  const { rule, idleMinutes, list } = app.people;
  const idle = rule === "required" ? [line(say`  signed off after ${idleMinutes} min without a key`, "dim")] : [];
  const { from, shown } = windowAround(list, at, Math.max(1, rows - 3));
  return [
    line(`  ${spoken(signOnWords(rule))}`, "dim"),
    ...idle,
    [],
    ...shown.map((person, i) => personLine(person, from + i === at)),
  ];
}

const body = (app: App, size: Size): readonly Line[] =>
  app.people.known ? listed(app, size.rows) : [[], ...unlisted(app, size.columns)];

const chosen = (app: App): PersonShown | undefined => app.people.list[here(app, "operators").at];

function move(app: App, by: number): Step {
  const place = here(app, "operators");
  const last = Math.max(0, app.people.list.length - 1);
  return step({ ...app, message: null, place: { ...place, at: Math.max(0, Math.min(last, place.at + by)) } });
}

/** Spares typing what the store would refuse. */
function refusal(app: App): string | null {
  const { people, session, readOnly } = app;
  if (readOnly !== null || people.trouble !== null) return readOnly ?? people.trouble;
  if (!people.known) return say`sign-on has not been set up: n does that`;
  if (session === null) return say`turn sign-on on first (t)`;
  return actRefused(session.role, "manage operators");
}

const ownPinRefusal = (app: App): string | null =>
  app.session !== null && chosen(app)?.initials === app.session.initials ? app.readOnly : refusal(app);

const about = (form: "role" | "PIN" | "standing") => (app: App) => {
  const person = chosen(app);
  return person === undefined ? stay(app, say`nobody is listed`) : step(enter(app, formFor(form, person.initials)));
};

const newOne = (app: App): Step => step(enter(app, formFor(app.people.known ? "add" : "set up")));
const newRefusal = (app: App): string | null =>
  app.people.known ? refusal(app) : (app.readOnly ?? app.people.trouble);

export const OPERATORS_KEYS: readonly Binding[] = [
  {
    keys: ["n"],
    word: "new",
    help: "Add somebody; where there is no list yet, set sign-on up.",
    does: newOne,
    refusal: newRefusal,
  },
  { keys: ["r"], word: "role", help: "Change the role of whom the mark points at.", does: about("role"), refusal },
  {
    keys: ["p"],
    word: "PIN",
    help: "Set a new PIN: one's own, or as administrator anybody's.",
    does: about("PIN"),
    refusal: ownPinRefusal,
  },
  {
    keys: ["x"],
    word: "retire",
    help: "Retire somebody, or bring them back; records keep their initials.",
    does: about("standing"),
    refusal,
  },
  {
    keys: ["t"],
    word: "turn on/off",
    help: "Declare whether people sign on here; takes an administrator's PIN.",
    does: (app) => step(enter(app, formFor("turn", "", app.session?.initials ?? ""))),
    refusal: (app) => app.readOnly ?? (app.people.known ? null : say`sign-on has not been set up: n does that`),
  },
  {
    keys: ["i"],
    word: "idle",
    help: "After how many minutes without a key people are signed off.",
    does: (app) => step(enter(app, formFor("idle", "", ""))),
    refusal,
  },
  { keys: ["up", "-"], word: "row", help: "The mark one row up.", does: (app) => move(app, -1), quiet: true },
  { keys: ["down", "+"], word: "row", help: "The mark one row down.", does: (app) => move(app, 1), quiet: true },
  { keys: ["escape"], word: "back", help: "Back to the bench.", does: (app) => step(leave(app)) },
];

/** Who may work at this station, in which role. */
export const operatorsRoom: Room = {
  title: (app) => ({ left: say`people of this station`, right: line(app.session?.initials ?? "", "dim") }),
  body,
  keys: () => OPERATORS_KEYS,
  field: () => "none",
  typed: (app) => stay(app),
  erased: (app) => stay(app),
  scanned: (app) => stay(app),
  get about() {
    return [
      say`Who may work here and what each role may do. Records are never edited, by nobody.`,
      "",
      ...permitLines(),
    ];
  },
};
