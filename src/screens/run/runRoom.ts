import { assessTest } from "../../assess/assessTest.ts";
import type { Draft } from "../../record/draft.ts";
import { signOnWords } from "../../report/signOnWords.ts";
import { massInHand } from "../../run/run.ts";
import { phrase, say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { bigBody, isBig } from "../big/bigView.ts";
import { type Line, line, span } from "../line.ts";
import { type App, type RunPlace, type Size, type Step, stay, step } from "../place.ts";
import { resultBody } from "../result/body.ts";
import { type Field, here, type Room } from "../room.ts";
import { markSpan } from "../stackMarks.ts";
import { verdictSpans } from "../words.ts";
import { follow } from "./following.ts";
import { runKeys } from "./keys.ts";
import { setOutBody } from "./setOutView.ts";
import { shakeBody } from "./shakeView.ts";
import { stageWord } from "./stageWords.ts";
import { weighBody } from "./weighView.ts";
import { written } from "./writing.ts";

/** What a test is called at the top of every screen of it. */
export function draftTitle({ product, lot, line: plantLine }: Pick<Draft, "product" | "lot" | "line">): string {
  const words = [say`${product.code} rev ${product.revision}`, lot && say`lot ${lot}`, plantLine, product.name];
  return words.filter((word) => word !== "").join(" · ");
}

function progress(draft: Draft): Line {
  const column = draft.stage === "weigh empty" ? "emptyG" : "fullG";
  const weighed = draft.weighings.filter((w) => w[column] !== null).length;
  if (draft.stage === "weigh empty" || draft.stage === "weigh full") {
    return [span(`${stageWord(draft.stage)} `), span(`${weighed}/${draft.weighings.length}`, "strong")];
  }
  return line(stageWord(draft.stage), "strong");
}

function resultTitle(place: RunPlace): Line {
  const assessed = assessTest(place.run.draft);
  return assessed.ok ? verdictSpans(assessed.value.verdict) : line(say`NOT ASSESSED`, "warning");
}

function title(app: App) {
  const place = here(app, "run");
  const { draft } = place.run;
  const right = draft.stage === "result" ? resultTitle(place) : progress(draft);
  return { mark: markSpan(app, draft), left: draft.trail.length === 0 ? say`new test` : draftTitle(draft), right };
}

const WRITING = {
  skip: phrase("why is the shaking cut short?"),
  remark: phrase("remark"),
  ran: phrase("what ran otherwise? (1.0 mm; 45 Hz; 8 min)"),
};

function withWriting(place: RunPlace, body: readonly Line[], size: Size): readonly Line[] {
  if (!place.writing) return body;
  const { what, text } = place.writing;
  const field: Line = [span(`  ${spoken(WRITING[what])} `, "strong"), span(`${text}▌`, "field")];
  const kept = body;
  return [...kept, ...Array.from({ length: size.rows - 2 - kept.length }, () => []), [], field];
}

const signOnLine = (app: App): Line => line(`  ${spoken(signOnWords(app.people.rule))}`, "dim");

function stageBody(app: App, place: RunPlace, size: Size): readonly Line[] {
  const { run } = place;
  switch (run.draft.stage) {
    case "set out":
      return setOutBody(app, run, size);
    case "shake":
      return shakeBody(app, run, size);
    case "result":
      return resultBody(run.draft, place.view, { ...size, rows: size.rows - 1 }).concat([signOnLine(app)]);
    default:
      return isBig(app, run) ? bigBody(app, run, size) : weighBody(app, run, size);
  }
}

function body(app: App, size: Size): readonly Line[] {
  const place = here(app, "run");
  return withWriting(place, stageBody(app, place, size), size);
}

function field(app: App): Field {
  const { writing, run } = here(app, "run");
  if (writing) return "text";
  if (run.draft.stage === "set out") return massInHand(run) ? "number" : "text";
  return run.draft.stage === "weigh empty" || run.draft.stage === "weigh full" ? "number" : "none";
}

const LONGEST_TEXT = 200;

function rewritten(app: App, place: RunPlace, change: (text: string) => string): Step {
  if (!place.writing) return stay(app);
  const text = change(place.writing.text).slice(0, LONGEST_TEXT);
  return step({ ...app, message: null, place: { ...place, writing: { ...place.writing, text } } });
}

/** A test in progress: set out, weigh empty, shake, weigh full, result. */
export const runRoom: Room = {
  title,
  body,
  keys: (app) => runKeys(here(app, "run")),
  bare: (app) => isBig(app, here(app, "run").run),
  field,
  typed: (app, text) => {
    const place = here(app, "run");
    return place.writing ? rewritten(app, place, (old) => old + text) : follow(app, { type: "typed", text });
  },
  erased: (app) => {
    const place = here(app, "run");
    return place.writing ? rewritten(app, place, (old) => old.slice(0, -1)) : follow(app, { type: "erased" });
  },
  scanned: (app, text, ended, at) => {
    const place = here(app, "run");
    if (place.writing) {
      const typing = rewritten(app, place, (old) => old + text);
      return ended ? written(typing.app, at) : typing;
    }
    return field(app) === "none"
      ? stay(app, say`"${text}" was scanned where nothing is asked`)
      : follow(app, { type: "scanned", text, ended, at });
  },
  about: [
    "One test from the first empty sieve to the signature. Weigh each empty sieve and the pan, shake, weigh each full",
    "sieve and the pan, look at both verdicts, sign. Each accepted mass is on disk before the next one is asked for.",
    "Digits type into the row in hand; a balance or scanner that types lands there too. A mass that can't be right is",
    "doubted at once; a second Enter accepts it all the same, and the record says that it was doubted.",
    "Set out several stacks at once: Esc to the bench while one shakes; each waits there.",
  ],
};
