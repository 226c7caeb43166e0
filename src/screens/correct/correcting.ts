import { corrected, correctionOf } from "../../assess/correctionOf.ts";
import { accepted, type Outcome, refused } from "../../entry/outcome.ts";
import { parseMassG } from "../../entry/quantity.ts";
import { reason as reasonSchema } from "../../record/amendment.ts";
import type { DISPOSITIONS, TestRecord } from "../../record/test.ts";
import { currentTest, type TestHistory, withChanges } from "../../record/versions.ts";
import { correctionDoubt } from "../../run/correctionDoubt.ts";
import { phrase, say } from "../../words/say.ts";
import { type App, type CorrectPlace, type Step, stay, step } from "../place.ts";
import { here } from "../room.ts";
import { initialsOf, initialsRefusal } from "../sign/initials.ts";
import { type Content, type Correctable, changeOf, contentAt, correctables, isMass, isOf } from "./fields.ts";

export const correcting = (history: TestHistory): CorrectPlace => ({
  name: "correct",
  history,
  step: "choose",
  at: 0,
  changes: [],
  typed: null,
  doubt: null,
  reason: "",
  from: 0,
});

export const placeOf = (app: App): CorrectPlace => here(app, "correct");

/** The app with its correction as it now is. */
export const corrects = (app: App, change: Partial<CorrectPlace>, message: string | null = null): Step =>
  step({ ...app, message, place: { ...placeOf(app), ...change } });

export const testOf = ({ history }: CorrectPlace): TestRecord => currentTest(history);

/** The test with what is corrected so far; an unfit change can't come about, since each starts from what stands there. */
export function testSoFar(place: CorrectPlace): TestRecord {
  const test = testOf(place);
  const changed = withChanges(test, place.changes);
  return changed.ok ? changed.value : test;
}

export function inHand(place: CorrectPlace): Correctable {
  const all = correctables(testOf(place));
  return all[Math.min(place.at, all.length - 1)] ?? { field: "remark" };
}

/** A field set to something else; set back to what stands on record it is corrected no more. */
function withContent(place: CorrectPlace, of: Correctable, to: Content): CorrectPlace {
  const from = contentAt(testOf(place), of);
  const others = place.changes.filter((change) => !isOf(of)(change));
  const changes = to === from ? others : [...others, changeOf(of, from, to)];
  return { ...place, changes, typed: null, doubt: null };
}

const LAST_ROW_MESSAGE = phrase("r goes on to the reason, when all is corrected");

function taken(app: App, to: Content): Step {
  const place = placeOf(app);
  const next = withContent(place, inHand(place), to);
  const last = correctables(testOf(place)).length - 1;
  const at = Math.min(last, place.at + 1);
  return step({ ...app, message: next.changes.length > 0 ? LAST_ROW_MESSAGE : null, place: { ...next, at } });
}

/** A mass as typed: read, doubted like one on the balance, and taken by a second Enter all the same. */
function massTaken(app: App, place: CorrectPlace, typed: string): Step {
  const grams = parseMassG(typed);
  if (!grams.ok) return stay(app, grams.reason);
  if (grams.value <= 0) return stay(app, say`a mass on record is more than 0 g`);
  const of = inHand(place);
  const next = testSoFar(withContent(place, of, grams.value));
  const text = correctionDoubt(next, changeOf(of, contentAt(testOf(place), of), grams.value));
  if (text !== null && place.doubt?.grams !== grams.value)
    return corrects(app, { doubt: { grams: grams.value, text } });
  return taken(app, grams.value);
}

/** Enter on a figure: what was typed is taken; a word is opened for typing with what stands there. */
export function fieldAccepted(app: App): Step {
  const place = placeOf(app);
  const of = inHand(place);
  if (of.field === "disposition") return stay(app, say`choose by number what became of the product`);
  if (isMass(of)) {
    const typed = place.typed?.trim() ?? "";
    return typed === "" ? stay(app, say`type the mass as it should read, then Enter`) : massTaken(app, place, typed);
  }
  if (place.typed !== null) return taken(app, place.typed.trim());
  return corrects(app, { typed: `${contentAt(testSoFar(place), of) ?? ""}` });
}

export const disposed = (app: App, disposition: (typeof DISPOSITIONS)[number]): Step => taken(app, disposition);

/** The correction of the figure in hand is taken back. */
export function takenBack(app: App): Step {
  const place = placeOf(app);
  const of = inHand(place);
  const changes = place.changes.filter((change) => !isOf(of)(change));
  if (changes.length === place.changes.length)
    return stay(app, say`this one is not corrected: choose one with an arrow`);
  return corrects(app, { changes, typed: null, doubt: null });
}

/** The corrected test, judged anew by this version of the program. */
export const correctedTest = (app: App): Outcome<TestRecord> =>
  corrected(placeOf(app).history, placeOf(app).changes, app.programVersion);

/** A figure that is typed but not taken would be lost unseen by going on. */
export function toReason(app: App): Step {
  const typed = placeOf(app).typed?.trim() ?? "";
  if (typed !== "")
    return step({ ...app, message: say`${typed} is typed but not taken: Enter takes it, Esc leaves it` });
  const test = correctedTest(app);
  return test.ok ? corrects(app, { step: "reason", typed: placeOf(app).reason, doubt: null }) : stay(app, test.reason);
}

/** Words that say why; refused when they say nothing. */
export function reasonIn(text: string): Outcome<string> {
  const words = text.trim();
  return reasonSchema.safeParse(words).success
    ? accepted(words)
    : refused(say`say why, in words that an auditor understands`);
}

export function reasonTaken(app: App): Step {
  const reason = reasonIn(placeOf(app).typed ?? "");
  return reason.ok
    ? corrects(app, { step: "confirm", reason: reason.value, typed: null, from: 0 })
    : stay(app, reason.reason);
}

export function signed(app: App): Step {
  const place = placeOf(app);
  const by = initialsOf(app, place.typed ?? "");
  const refusal = initialsRefusal(app, by);
  if (refusal !== null) return stay(app, refusal);
  const amending = correctionOf(place.history, place.changes, place.reason, app.programVersion);
  if (!amending.ok) return stay(app, amending.reason);
  return step({ ...app, message: say`recording ...` }, { do: "amend", amending: amending.value, by });
}
