import { signOnWords } from "../../report/signOnWords.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { type Line, line, span } from "../line.ts";
import { type App, type Step, stay, step } from "../place.ts";
import { type Binding, here, type Room } from "../room.ts";
import { mustSignOn, uncovered } from "./gate.ts";
import type { SignOnPlace } from "./people.ts";

const LONGEST_INITIALS = 8;
const LONGEST_PIN = 64;

/** Dots for a PIN: how many, and nothing else. */
export const dots = (secret: string): string => "•".repeat([...secret].length);

const LABEL_COLUMNS = 10;

function field(word: string, shown: string, current: boolean): Line {
  return [
    span(`  ${word.padEnd(LABEL_COLUMNS)}`, current ? "strong" : "dim"),
    span(current ? `${shown}▌` : shown, current ? "field" : "plain"),
  ];
}

function waiting({ drafts }: App): Line[] {
  if (drafts.length === 0) return [];
  const told = drafts.map(({ product, lot, stage }) => say`${product.code} lot ${lot}, ${spoken(stage)}`);
  return [[], line(say`  tests in work stay as they are`, "dim"), ...told.map((text) => line(`    ${text}`, "dim"))];
}

function body(app: App): readonly Line[] {
  const place = here(app, "signOn");
  const onPin = place.field === "pin";
  const working =
    app.session === null ? [] : [line(say`  ${app.session.initials} ${app.session.name} is signed on`), []];
  return [
    [],
    ...working,
    field(say`initials`, place.initials, !onPin),
    ...(onPin ? [field("PIN", dots(place.pin), true)] : []),
    ...waiting(app),
    [],
    line(say`  PIN forgotten: an administrator sets a new one (a on the bench)`, "dim"),
  ];
}

const put = (app: App, change: Partial<SignOnPlace>): Step =>
  step({ ...app, message: null, place: { ...here(app, "signOn"), ...change } });

function retyped(app: App, change: (typed: string) => string): Step {
  const place = here(app, "signOn");
  if (place.busy) return stay(app, app.message);
  return place.field === "initials"
    ? put(app, { initials: change(place.initials).slice(0, LONGEST_INITIALS) })
    : put(app, { pin: change(place.pin).slice(0, LONGEST_PIN) });
}

function taken(app: App): Step {
  const place = here(app, "signOn");
  if (place.busy) return stay(app, app.message);
  if (place.initials.trim() === "") return stay(app, say`type your initials`);
  if (place.field === "initials") return put(app, { field: "pin", pin: "" });
  if (place.pin === "") return stay(app, say`type your PIN`);
  const who = { initials: place.initials, pin: place.pin };
  const looking: App = { ...app, message: say`one moment ...`, place: { ...place, pin: "", busy: true } };
  return step(looking, { do: "people", ask: { is: "sign on", who } });
}

function back(app: App): Step {
  const place = here(app, "signOn");
  if (place.field === "pin") return put(app, { field: "initials", pin: "" });
  return mustSignOn(app)
    ? stay(app, say`sign on to go on; Ctrl+C leaves the program, and tests in work stay as they are`)
    : step({ ...uncovered(app), message: null });
}

const signOff = (app: App): Step =>
  step({ ...app, session: null, message: null }, { do: "people", ask: { is: "sign off", event: "off" } });

export const SIGN_ON_KEYS: readonly Binding[] = [
  { keys: ["enter"], word: "take", help: "Take the initials, then the PIN.", does: taken },
  {
    keys: ["f2", "ctrl+o"],
    word: "sign off",
    help: "Sign off whoever is signed on, and leave the station to the next.",
    does: signOff,
    refusal: (app) => (app.session === null ? say`nobody is signed on` : null),
  },
  {
    keys: ["escape"],
    word: "back",
    help: "From the PIN to the initials; then to where you were, if somebody is signed on.",
    does: back,
  },
];

/** The footer offers only what does something: nobody to sign off, and nowhere to go back to, are left out. */
function offered(app: App): readonly Binding[] {
  const idle = (word: string): boolean =>
    word === "sign off"
      ? app.session === null
      : word === "back" && mustSignOn(app) && here(app, "signOn").field !== "pin";
  return SIGN_ON_KEYS.map((binding) => (idle(binding.word) ? { ...binding, quiet: true as const } : binding));
}

/** Who works at this station from now on. */
export const signOnRoom: Room = {
  title: (app) => ({
    left: say`sign on · ${app.station.station}`,
    right: line(app.people.rule === "none" ? spoken(signOnWords("none")) : "", "dim"),
  }),
  body,
  keys: offered,
  field: () => "text",
  typed: (app, text) => retyped(app, (old) => old + text),
  erased: (app) => retyped(app, (old) => old.slice(0, -1)),
  scanned: (app, text, ended) => {
    const typing = retyped(app, (old) => old + text.trim());
    return ended ? taken(typing.app) : typing;
  },
  about: [
    "Who works at this station from now on: initials, Enter, PIN, Enter. At shift change the next signs on over the one before. What was being done stays as it was.",
    "After three wrong PINs in a row the next try counts only after a wait, which doubles each time, up to an hour.",
    "A lost PIN is set anew by an administrator; if no administrator has theirs, see sievewright operator recover --help.",
  ],
};
