import { type Burst, burstOf } from "../../entry/burst.ts";
import type { Scanned } from "../../record/scanner.ts";
import { say } from "../../words/say.ts";
import { type App, type Step, stay } from "../place.ts";
import { roomOf } from "../rooms.ts";
import { follow } from "../run/following.ts";
import { scannedOnBench } from "./onBench.ts";
import { onlyReads } from "./onlyReads.ts";

type Scan = Extract<Burst<Scanned>, { kind: "scan" }>;

interface Sent {
  readonly text: string;
  /** An Enter or a Tab ended it. */
  readonly ended: boolean;
  readonly at: string;
}

const nothingAsked = (app: App, text: string): Step => stay(app, say`"${text}" was scanned where nothing is asked`);

/** As the place takes it. Its end is an Enter as long as nothing goes on record by it; that takes a hand. */
function entered(app: App, { text, ended, at }: Sent): Step {
  const room = roomOf(app.place);
  const took = room.scanned(app, text, ended, at);
  if (!onlyReads(took.effects)) {
    const typing = room.scanned(app, text, false, at);
    const told = say`this was only typed in: what goes on record takes an Enter by hand`;
    return { app: { ...typing.app, message: told }, effects: typing.effects.filter((one) => onlyReads([one])) };
  }
  const heard = took.app.place !== app.place || took.effects.length > 0 || took.app.message !== null;
  return heard ? took : nothingAsked(app, text);
}

/** While weighing is over nothing of a test's own page tells of it: it is told as what the program says. */
function intoTest(app: App, { of, text }: Scan, at: string): Step {
  const next = follow(app, { type: "scannedAs", of, text, at });
  const { place } = next.app;
  if (place.name !== "run") return next;
  const { draft, note, message } = place.run;
  const isTold = draft.stage !== "shake" && draft.stage !== "result";
  return isTold ? next : { ...next, app: { ...next.app, message: message ?? note ?? null } };
}

/** In a list a whole scan is looked for, whatever was typed before it. */
const cleared = (app: App): App =>
  "filter" in app.place ? ({ ...app, place: { ...app.place, filter: "" } } as App) : app;

/** A secret may begin like anything. */
const isSecret = ({ place }: App): boolean =>
  place.name === "operatorForm" || (place.name === "signOn" && place.field === "pin");

/** Sentences are kept as they came, whatever they begin with. */
const isProse = ({ place }: App): boolean =>
  ["reason", "publish"].includes(place.name) ||
  (place.name === "event" && place.form === "note") ||
  (place.name === "run" && place.writing !== null);

function scanned(app: App, scan: Scan, sent: Sent): Step {
  const { place } = app;
  if (isSecret(app) || isProse(app)) return entered(app, sent);
  if (place.name === "bench") return scannedOnBench(app, scan, sent.at);
  if (place.name === "run") return intoTest(app, scan, sent.at);
  const isOther = (place.name === "sign" || place.name === "signOn") && scan.of !== "operator";
  return isOther ? nothingAsked(app, scan.text) : entered(cleared(app), { ...sent, text: scan.text });
}

/** What came in one go from a scanner, a balance or a paste, in the place where the operator is: an entry, never an action. */
export function sent(app: App, text: string, ended: boolean, at: string): Step {
  const burst = burstOf<Scanned>(text, app.station.scanner ?? {});
  if (burst.kind === "scan") return scanned(app, burst, { text, ended, at });
  if (burst.kind === "mass" && app.place.name === "bench")
    return stay(app, say`${burst.text} was sent, and no test is in hand: Enter takes one up, n sets one out`);
  return entered(app, { text, ended, at });
}
