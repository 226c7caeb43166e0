import { amendmentRefusal } from "../../record/amendmentRefusal.ts";
import { type ActName, actRefusal } from "../../record/permissions.ts";
import { standingOf, type TestHistory } from "../../record/versions.ts";
import { say } from "../../words/say.ts";
import { correcting } from "../correct/correcting.ts";
import { type App, enter, type Reasoned, step } from "../place.ts";
import { reasoning } from "../reason/reasoning.ts";
import { type Binding, here } from "../room.ts";

/** Why whoever is signed on may not do it, before a reason is typed in vain; the store asks again. */
const roleRefusal = ({ session }: App, act: ActName): string | null =>
  session === null ? null : actRefusal(session.role, act);

const historyOf = (app: App): TestHistory => {
  const { entry, later } = here(app, "record");
  return { entry, later };
};

type StandingAct = Exclude<Reasoned["act"], "ended">;

/** Asks why: voids a test that counts, reinstates one that is void. */
const standingAct = (app: App): StandingAct => (standingOf(historyOf(app)).voided ? "reinstated" : "voided");

const asksWhy = (app: App, act: StandingAct) => step(enter(app, reasoning({ act, history: historyOf(app) })));

/** Why something can't be said of the test as it stands, so that nobody types a reason in vain. */
function unfit(app: App, kind: StandingAct): string | null {
  const { testId } = here(app, "record").entry.test;
  const { day, number } = here(app, "record").entry;
  return amendmentRefusal(historyOf(app), { kind, of: { testId, day, number }, reason: say`asked beforehand` });
}

/** What can be said of a recorded test. */
export const AMEND_KEYS: readonly Binding[] = [
  {
    keys: ["e"],
    word: "correct",
    help: "Correct a weighing, lot, line, remark or disposition; the original stays on record.",
    does: (app) => step(enter(app, correcting(historyOf(app)))),
    refusal: (app) => app.readOnly,
  },
  {
    keys: ["y"],
    word: "void / reinstate",
    help: "Say that this test does not count, or counts again, and why; takes somebody of quality.",
    does: (app) => asksWhy(app, standingAct(app)),
    refusal: (app) => app.readOnly ?? roleRefusal(app, "void or reinstate a test"),
  },
  {
    keys: ["i"],
    word: "waive",
    help: "Say why an invalid test counts all the same; takes somebody of quality.",
    does: (app) => asksWhy(app, "waived"),
    refusal: (app) => app.readOnly ?? unfit(app, "waived") ?? roleRefusal(app, "waive an invalid test"),
  },
];
