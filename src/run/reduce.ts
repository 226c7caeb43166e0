import type { CareKnown } from "../care/known.ts";
import type { Draft } from "../record/draft.ts";
import type { TrailItem } from "../record/test.ts";
import { changesNoted } from "./changesNoted.ts";
import { productBack } from "./productBack.ts";
import { checkMinuteStarted, portionAdded, ranOtherwise } from "./proving.ts";
import { fieldsOf, handsFree, type Run, type RunEvent, refuse } from "./run.ts";
import { massForWord, scannedAs } from "./scanned.ts";
import { sieveBack } from "./setChoice.ts";
import { setOutAccepted } from "./setOut.ts";
import { shakingEnded, shakingSkipped, shakingStarted } from "./shake.ts";
import { sieveByScan } from "./sieveScan.ts";
import { sievesNoted } from "./sieves.ts";
import { takenBackWords } from "./takenBackWords.ts";
import { emptiesTakenOver } from "./takeOver.ts";
import { takenBack, withItem } from "./trail.ts";
import type { Usual } from "./usual.ts";
import { inStage, massEntered, stageAfter } from "./weigh.ts";

const LONGEST_ENTRY = 60;

const isWeighing = (draft: Draft) => draft.stage === "weigh empty" || draft.stage === "weigh full";

const rowsIn = (run: Run) => (run.draft.stage === "set out" ? fieldsOf(run).length : run.draft.weighings.length);

function movedTo(run: Run, at: number): Run {
  if (run.draft.stage !== "set out" && !isWeighing(run.draft)) return run;
  return at < 0 || at >= rowsIn(run) ? { ...run, message: null } : handsFree({ ...run, at });
}

/** What is typed joins what stands in the field; after a doubt it begins a new number. */
const typed = (run: Run, text: string): Run => ({
  ...run,
  typed: ((run.doubt ? "" : run.typed) + text).slice(0, LONGEST_ENTRY),
  doubt: null,
  message: null,
});

/** Enter: what is typed, or what stands there, is taken. On the result nothing is typed. */
function accepted(run: Run, at: string): Run {
  if (run.draft.stage === "set out") return setOutAccepted(run, at);
  return isWeighing(run.draft) ? massEntered(run, at) : run;
}

function scanned(run: Run, text: string, ended: boolean, at: string): Run {
  const ofSieve = ended ? sieveByScan(run, text, at) : null;
  const told = ofSieve ?? massForWord(run, text);
  if (told !== null) return told;
  const whole = typed(run.message === null ? run : { ...run, typed: "" }, text);
  return ended ? accepted(whole, at) : whole;
}

const ofSieves = ({ field }: TrailItem): boolean => field === "set" || field === "serial";

/** What is known of the sieves has been read; hands stay in their field though another may appear before it. */
function careLearnt(run: Run, care: CareKnown): Run {
  const next = { ...run, setting: { ...run.setting, care } };
  const early = run.draft.stage === "set out" || run.draft.stage === "weigh empty";
  const draft = early && run.draft.sieves !== undefined ? sievesNoted(run.draft, care) : run.draft;
  if (run.draft.stage !== "set out") return { ...next, draft: changesNoted(draft, care) };
  const field = fieldsOf(run)[run.at];
  const at = field === undefined ? run.at : fieldsOf(next).indexOf(field);
  return { ...next, draft, at: Math.max(0, at) };
}

/** What is typed or doubted is dropped first; only then is an accepted entry taken back. */
function undone(run: Run, at: string): Run {
  const dropped = run.typed === "" ? null : `${run.typed} is dropped; undo once more takes the last entry back`;
  return dropped === null ? entryTakenBack(run, at) : { ...handsFree(run), message: dropped };
}

/** The latest accepted entry is taken back and its row is in hand again. */
function entryTakenBack(run: Run, at: string): Run {
  const back = takenBack(run.draft, at);
  if (!back) return { ...handsFree(run), message: "nothing to take back" };
  const { item } = back;
  const former = item.field === "product" ? productBack(back.draft, item.from, run.setting) : null;
  if (former?.ok === false) return refuse(run, former.reason);
  const draft = former?.value ?? (ofSieves(item) ? sieveBack(back.draft, item, run) : back.draft);
  return { ...whereItStood(run, draft, item), message: takenBackWords(item) };
}

/** The draft without an entry, hands where it was made. */
function whereItStood(run: Run, draft: Draft, item: TrailItem): Run {
  if (item.field === "serial") return handsFree({ ...run, draft });
  if (item.field === "emptyG" || item.field === "fullG") {
    const row = draft.weighings.findIndex((w) => w.apertureUm === (item.apertureUm ?? 0));
    const stage = item.field === "emptyG" ? "weigh empty" : "weigh full";
    return handsFree({ ...run, draft: { ...draft, stage }, at: Math.max(0, row) });
  }
  if (item.field === "portion" || item.field === "checkMinute") return inStage({ ...run, draft }, "weigh full");
  if (item.field === "ran") return handsFree({ ...run, draft });
  if (item.field === "shaking") return inStage({ ...run, draft }, stageAfter(draft));
  const field = (fieldsOf({ ...run, draft }) as readonly string[]).indexOf(item.field);
  if (field < 0) return handsFree({ ...run, draft });
  return handsFree({ ...run, draft: { ...draft, stage: "set out" }, at: field });
}

function remarked(run: Run, text: string, at: string): Run {
  const remark = text.trim();
  if (remark === run.draft.remark) return run;
  const item = { at, field: "remark", from: run.draft.remark, to: remark } as const;
  return { ...run, draft: withItem({ ...run.draft, remark }, item) };
}

function disposed(run: Run, disposition: NonNullable<Draft["disposition"]>, at: string): Run {
  if (disposition === run.draft.disposition) return run;
  const item = { at, field: "disposition", from: run.draft.disposition, to: disposition } as const;
  return { ...run, draft: withItem({ ...run.draft, disposition }, item) };
}

/** What is usual is compared with while weighing; the usual empty masses go on record, for a loss is traced by them. */
function usualLearnt(run: Run, usual: Usual, emptied: Run["setting"]["emptied"] = []): Run {
  const usualEmpty = [...usual].map(([apertureUm, { emptyG }]) => ({ apertureUm, emptyG }));
  const draft = usualEmpty.length > 0 ? { ...run.draft, usualEmpty } : run.draft;
  return { ...run, draft, setting: { ...run.setting, usual, emptied } };
}

/** What is learnt behind the scenes takes nothing away that is being read. */
function heard(run: Run, event: RunEvent): Run {
  const { note, ...rest } = run;
  return note === undefined || event.type === "usualLearnt" || event.type === "careLearnt" ? run : rest;
}

/** A test in progress: what it is after an event. Pure; every accepted entry leaves an item on the draft's trail. */
export const reduceRun = (run: Run, event: RunEvent): Run => after(heard(run, event), event);

function after(run: Run, event: RunEvent): Run {
  switch (event.type) {
    case "typed":
      return typed(run, event.text);
    case "erased":
      return { ...run, typed: run.typed.slice(0, -1), doubt: null, message: null };
    case "scanned":
      return scanned(run, event.text, event.ended, event.at);
    case "scannedAs":
      return scannedAs(run, event.of, event.text, event.at);
    case "accepted":
      return accepted(run, event.at);
    case "rowUp":
      return movedTo(run, run.at - 1);
    case "rowDown":
      return movedTo(run, run.at + 1);
    case "undone":
      return undone(run, event.at);
    case "stageChosen":
      return inStage(run, event.stage);
    case "shakingStarted":
      return shakingStarted(run, event.at);
    case "shakingEnded":
      return shakingEnded(run, event.at);
    case "shakingSkipped":
      return shakingSkipped(run, event.reason, event.at);
    case "ranOtherwise":
      return ranOtherwise(run, event.ran, event.at);
    case "portionAdded":
      return portionAdded(run, event.at);
    case "checkMinuteStarted":
      return checkMinuteStarted(run, event.at);
    case "remarked":
      return remarked(run, event.text, event.at);
    case "disposed":
      return disposed(run, event.disposition, event.at);
    case "usualLearnt":
      return usualLearnt(run, event.usual, event.emptied);
    case "emptiesTakenOver":
      return emptiesTakenOver(run, event.shiftBegan, event.at);
    case "careLearnt":
      return careLearnt(run, event.care);
  }
}
