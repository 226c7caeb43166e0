import { assessTest } from "../../assess/assessTest.ts";
import type { Assessment } from "../../assess.ts";
import { isPractice } from "../../record/practice.ts";
import { DISPOSITIONS, type Disposition } from "../../record/test.ts";
import { reduceRun } from "../../run/reduce.ts";
import type { Run } from "../../run/run.ts";
import { releaseRefusal } from "../../shift/holdReason.ts";
import { type HoldOpened, holdOn } from "../../shift/holds.ts";
import { say } from "../../words/say.ts";
import { type App, leave, type SignPlace, type Step, stay, step } from "../place.ts";
import { practiceEnded } from "../practice/practice.ts";
import { type Binding, here } from "../room.ts";
import { initialsOf, initialsRefusal } from "./initials.ts";

/**
 * What is proposed: release what passes a valid test, hold what doesn't or is on hold already, sample again where the test
 * proves nothing.
 */
export function proposed({ verdict }: Assessment, held: HoldOpened | null = null): Disposition {
  if (verdict.test === "invalid") return "resample";
  if (held !== null) return "hold";
  return verdict.product === "pass" && verdict.test === "valid" ? "release" : "hold";
}

const proposedFor = ({ draft: { product, lot } }: Run, assessment: Assessment, holds: App["holds"]): Disposition =>
  proposed(assessment, holdOn(holds, product.code, lot));

export const signing = (run: Run, assessment: Assessment, holds: App["holds"]): SignPlace => ({
  name: "sign",
  run: { ...run, draft: { ...run.draft, disposition: run.draft.disposition ?? proposedFor(run, assessment, holds) } },
  field: "disposition",
  typed: "",
});

/** Who signs: what is typed, else whoever signed last. */
export const signerOf = (app: App, place: SignPlace): string => initialsOf(app, place.typed);

const chosenAt = (place: SignPlace) => (DISPOSITIONS as readonly unknown[]).indexOf(place.run.draft.disposition);

function choose(app: App, index: number): Step {
  const place = here(app, "sign");
  const disposition = DISPOSITIONS[index];
  if (!disposition || place.field !== "disposition") return stay(app);
  return step({
    ...app,
    message: null,
    place: { ...place, run: { ...place.run, draft: { ...place.run.draft, disposition } } },
  });
}

function dispositionTaken(app: App): Step {
  const place = here(app, "sign");
  const assessed = assessTest(place.run.draft);
  if (!assessed.ok) return stay(app, assessed.reason);
  const { disposition } = place.run.draft;
  const { product, lot } = place.run.draft;
  const held = holdOn(app.holds, product.code, lot);
  const refusal = releaseRefusal({ ...assessed.value.verdict, disposition }, false, held);
  return refusal ? stay(app, refusal) : step({ ...app, message: null, place: { ...place, field: "initials" } });
}

function signed(app: App, at: string): Step {
  const place = here(app, "sign");
  const by = signerOf(app, place);
  const refusal = initialsRefusal(app, by);
  if (refusal !== null) return stay(app, refusal);
  if (isPractice(place.run.draft)) return practiceEnded(app);
  const { disposition } = place.run.draft;
  const assessed = assessTest(place.run.draft);
  if (!disposition || !assessed.ok) return stay(app, say`the test can't be assessed`);
  const undecided = { ...place.run, draft: { ...place.run.draft, disposition: null } };
  const { draft } = reduceRun(undecided, { type: "disposed", disposition, at });
  return step({ ...app, message: say`recording ...` }, { do: "record", draft, by, assessment: assessed.value });
}

/** Enter while signing: the disposition shown, then the initials. */
export const signAccepted = (app: App, at: string): Step =>
  here(app, "sign").field === "disposition" ? dispositionTaken(app) : signed(app, at);

const accept: Binding = {
  keys: ["enter"],
  word: "accept",
  help: "Take the disposition shown, then sign with the initials shown.",
  does: signAccepted,
};

const back: Binding = {
  keys: ["escape"],
  word: "back",
  help: "Back to the result; nothing is recorded.",
  does: (app) => {
    const place = here(app, "sign");
    return place.field === "initials"
      ? step({ ...app, message: null, place: { ...place, field: "disposition" } })
      : step(leave(app));
  },
};

const numbers: Binding = {
  keys: DISPOSITIONS.map((_, i) => String(i + 1)),
  word: "to 6 choose",
  help: "Choose by number what becomes of the product.",
  does: (app) => stay(app),
};

const arrows: readonly Binding[] = [
  {
    keys: ["up"],
    word: "choose",
    help: "The disposition above.",
    quiet: true,
    does: (app) => choose(app, chosenAt(here(app, "sign")) - 1),
  },
  {
    keys: ["down"],
    word: "choose",
    help: "The disposition below.",
    quiet: true,
    does: (app) => choose(app, chosenAt(here(app, "sign")) + 1),
  },
];

const digitKeys: readonly Binding[] = numbers.keys.map((key, index) => ({
  ...numbers,
  keys: [key],
  does: (app) => choose(app, index),
  ...(index === 0 ? {} : { quiet: true as const }),
}));

/** While a disposition is chosen digits choose; while signing they type. */
export const signKeys = (place: Pick<SignPlace, "field">): readonly Binding[] =>
  place.field === "disposition" ? [accept, ...digitKeys, ...arrows, back] : [accept, back];
