import { cleanedInTest } from "../../record/care.ts";
import { say } from "../../words/say.ts";
import { type App, type Step, stay } from "../place.ts";
import { type Binding, here } from "../room.ts";

const serialInHand = (app: App): string | undefined => {
  const { draft, at } = here(app, "run").run;
  return draft.weighings[at]?.serial;
};

const signer = ({ session, operator }: App): string => session?.initials ?? operator;

function refusal(app: App): string | null {
  if (app.readOnly !== null) return app.readOnly;
  if (serialInHand(app) === undefined) return say`no serial stands in this row: scan the sieve or choose its set first`;
  return signer(app) === "" ? say`nobody has signed here yet: note the cleaning with the sieves` : null;
}

/** The sieve in hand was brushed: noted in the care log, and weighed again. */
function cleaned(app: App): Step {
  const serial = serialInHand(app);
  if (serial === undefined) return stay(app);
  const place = here(app, "run");
  const { testId } = place.run.draft;
  const care = {
    did: "cleaning",
    serials: [serial],
    how: "brush",
    note: cleanedInTest(testId),
  } as const;
  const run = { ...place.run, typed: "", doubt: null, message: null };
  return {
    app: { ...app, message: null, place: { ...place, run } },
    effects: [
      { do: "recordEvent", entry: { kind: "care", by: signer(app), care: { ...care, serials: [...care.serials] } } },
    ],
  };
}

export const CLEANED: Binding = {
  keys: ["b"],
  word: "brushed",
  help: "The sieve in hand was brushed clean: noted in its care log by whoever is signed on or signed last; weigh it again.",
  does: cleaned,
  refusal,
};
