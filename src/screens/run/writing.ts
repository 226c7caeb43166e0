import { parseRunOtherwise } from "../../entry/programRun.ts";
import { say } from "../../words/say.ts";
import { type App, type Step, stay, step, type Writing } from "../place.ts";
import { type Binding, here } from "../room.ts";
import { follow } from "./following.ts";

/** Asks for words: a reason, a remark, what ran otherwise. */
export const writing = (app: App, what: Writing): Step => {
  const place = here(app, "run");
  const text = what === "remark" ? place.run.draft.remark : "";
  return step({ ...app, message: null, place: { ...place, writing: { what, text } } });
};

/** Enter on words that were asked for: they are taken if they say something. */
export function written(app: App, at: string): Step {
  const place = here(app, "run");
  if (!place.writing) return stay(app);
  const { what, text } = place.writing;
  const closed: App = { ...app, place: { ...place, writing: null } };
  if (what === "remark") return follow(closed, { type: "remarked", text, at });
  if (what === "ran") {
    const ran = parseRunOtherwise(text);
    return ran.ok ? follow(closed, { type: "ranOtherwise", ran: ran.value, at }) : stay(app, ran.reason);
  }
  if (text.trim() === "") return stay(app, say`say why the shaking is cut short, or Esc`);
  return follow(closed, { type: "shakingSkipped", reason: text, at });
}

/** While words are written only Enter and Esc act. */
export const writingKeys: readonly Binding[] = [
  { keys: ["enter"], word: "take", help: "Take the text as it stands.", does: written },
  {
    keys: ["escape"],
    word: "leave it",
    help: "Back without it.",
    does: (app) => step({ ...app, message: null, place: { ...here(app, "run"), writing: null } }),
  },
];
