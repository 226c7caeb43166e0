import type { Outcome } from "../../entry/outcome.ts";
import type { OperatorEvent } from "../../record/roles.ts";
import type { Recovery } from "../../store/operatorsDesk.ts";
import { SET_UP_ON_SCREEN } from "../../store/operatorsStart.ts";
import { phrase, say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { type App, leave } from "../place.ts";
import { uncovered } from "../signOn/gate.ts";
import { type PeopleAsk, peopleOf, SIGN_ON } from "../signOn/people.ts";
import type { Desk } from "./desk.ts";
import { keepBackWhatWasCut } from "./keepBack.ts";

/** The screens with what the store knows of people by now; whoever is signed on signs. */
function refreshed({ app, store }: Desk): App {
  const session = store.session;
  return { ...app(), session, people: peopleOf(store), operator: session?.initials ?? app().operator };
}

async function signOn(desk: Desk, who: Extract<PeopleAsk, { is: "sign on" }>["who"]): Promise<void> {
  const signedOn = await desk.store.signOn(who);
  const app = refreshed(desk);
  if (signedOn.ok) {
    desk.show({ ...uncovered(app), message: say`${signedOn.value.initials} is signed on` });
    return keepBackWhatWasCut(desk);
  }
  const again = { ...SIGN_ON, initials: who.initials, field: "pin" } as const;
  desk.show({ ...app, message: signedOn.reason, place: app.place.name === "signOn" ? again : app.place });
}

async function signOff(desk: Desk, event: "off" | "idle"): Promise<void> {
  const told = await desk.store.signOff(event);
  const app = refreshed(desk);
  desk.show(told.ok ? app : { ...app, message: say`signed off, but not recorded: ${spoken(told.reason)}` });
}

/** A form that was refused keeps what was typed, but for its last answer. */
function refused(app: App, reason: string): App {
  const { place } = app;
  return place.name === "operatorForm"
    ? { ...app, message: reason, place: { ...place, busy: false, typed: "" } }
    : { ...app, message: reason };
}

const told = (desk: Desk, made: Outcome<void>, words: string): void =>
  desk.show(made.ok ? { ...leave(refreshed(desk)), message: words } : refused(refreshed(desk), made.reason));

async function setUp(desk: Desk, first: Extract<PeopleAsk, { is: "set up" }>["first"]): Promise<void> {
  const made: Outcome<Recovery> = await desk.store.operators.setUp(first, SET_UP_ON_SCREEN);
  if (!made.ok) return desk.show(refused(refreshed(desk), made.reason));
  await desk.store.signOn(first);
  const app = refreshed(desk);
  const { place } = app;
  const { code } = made.value;
  desk.show(place.name === "operatorForm" ? { ...app, message: null, place: { ...place, busy: false, code } } : app);
}

async function declare(desk: Desk, { rule, who, reason }: Extract<PeopleAsk, { is: "declare" }>): Promise<void> {
  const made = await desk.store.operators.declare(rule, who, reason);
  const words =
    rule === "required" ? say`sign-on is required from now on` : say`this station runs without sign-on from now on`;
  told(desk, made, words);
}

const CHANGED: Readonly<Record<OperatorEvent, string>> = {
  added: phrase("added"),
  "role changed": phrase("role changed"),
  "PIN set": phrase("PIN set"),
  retired: phrase("retired"),
  "brought back": phrase("brought back"),
  recovered: phrase("recovered"),
};

/** What the screens ask of the people's desk, and what came of it. */
export async function people(desk: Desk, ask: PeopleAsk): Promise<void> {
  const { operators } = desk.store;
  switch (ask.is) {
    case "sign on":
      return signOn(desk, ask.who);
    case "sign off":
      return signOff(desk, ask.event);
    case "set up":
      return setUp(desk, ask.first);
    case "declare":
      return declare(desk, ask);
    case "change":
      return told(
        desk,
        await operators.change(ask.change),
        `${ask.change.initials}: ${spoken(CHANGED[ask.change.event])}`,
      );
    case "idle":
      return told(
        desk,
        await operators.setIdleMinutes(ask.minutes),
        say`signed off after ${ask.minutes} min without a key`,
      );
  }
}
