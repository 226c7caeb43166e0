import { shiftBegan } from "../../shift/schedule.ts";
import { say } from "../../words/say.ts";
import type { App, Step } from "../place.ts";
import { type Binding, here } from "../room.ts";
import { follow } from "./following.ts";

/** Once all is weighed or taken over the page is another one, which has no line for what was taken in. */
function takenOver(app: App, at: string): Step {
  const next = follow(app, { type: "emptiesTakenOver", shiftBegan: shiftBegan(app.now, app.station), at });
  const { place } = next.app;
  const hasTurned = place.name === "run" && place.run.draft.stage !== "weigh empty";
  const note = hasTurned ? place.run.note : undefined;
  return note === undefined ? next : { ...next, app: { ...next.app, message: note } };
}

const isAllowed = (app: App): boolean => here(app, "run").run.draft.product.method?.emptyMasses === "each shift";

const TAKE_OVER: Binding = {
  keys: ["t", "*"],
  word: "take over",
  help: "The empty masses of the latest test on these sieves in this shift, where the product's method allows it. The pan is always weighed.",
  does: takenOver,
  refusal: (app) =>
    isAllowed(app)
      ? null
      : say`the method of ${here(app, "run").run.draft.product.code} weighs the sieves empty for each test`,
};

/** In the footer only where the product's method allows it; pressed elsewhere it says why not. */
export const takeOver = (isOffered: boolean): Binding => (isOffered ? TAKE_OVER : { ...TAKE_OVER, quiet: true });
