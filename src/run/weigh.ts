import { readingOf } from "../entry/reading.ts";
import type { Draft, Stage } from "../record/draft.ts";
import { doubtOf } from "./doubt.ts";
import { columnOf, handsFree, type Run, refuse } from "./run.ts";
import { nextRow } from "./start.ts";
import { weighingSet, withItem } from "./trail.ts";

export const shaken = (draft: Draft) => draft.shaking.endedAt !== null || draft.shaking.skipped !== null;

/** Where the work goes on once every row of a column is weighed. */
export function stageAfter(draft: Draft): Stage {
  if (draft.weighings.some((w) => w.emptyG === null)) return "weigh empty";
  if (!shaken(draft)) return "shake";
  return draft.weighings.some((w) => w.fullG === null) ? "weigh full" : "result";
}

/** The run in another stage, hands on the first row that is not weighed there. */
export function inStage(run: Run, stage: Stage): Run {
  const weighing = stage === "weigh empty" || stage === "weigh full";
  const at = weighing ? (nextRow(run.draft.weighings, columnOf(stage), -1) ?? 0) : 0;
  return handsFree({ ...run, draft: { ...run.draft, stage }, at });
}

/** After a check minute the sieves are weighed again one after the other, whatever stands in their rows. */
const rowAgain = (run: Run): number | null =>
  isWeighedAgain(run) && run.at + 1 < run.draft.weighings.length ? run.at + 1 : null;

const isWeighedAgain = ({ draft }: Run): boolean => draft.stage === "weigh full" && Boolean(draft.checkMinute);

function onward(run: Run): Run {
  const column = columnOf(run.draft.stage);
  const row = nextRow(run.draft.weighings, column, run.at) ?? rowAgain(run);
  return row === null ? inStage(run, stageAfter(run.draft)) : handsFree({ ...run, at: row });
}

const isFull = ({ draft }: Run): boolean => draft.weighings.every((w) => w[columnOf(draft.stage)] !== null);

/** Hands go on to the next row in order after a correction, and no page turns by itself. */
function corrected(run: Run): Run {
  const free = handsFree({ ...run, at: Math.min(run.at + 1, run.draft.weighings.length - 1) });
  return isFull(run) ? { ...free, note: "corrected; every row is weighed: Enter goes on" } : free;
}

/** As the trail keeps it. */
const LONGEST_WARNING = 400;

function massAccepted(run: Run, grams: number, at: string): Run {
  const row = run.draft.weighings[run.at];
  if (!row) return run;
  const field = columnOf(run.draft.stage);
  const warned = run.doubt ? { warned: run.doubt.text.slice(0, LONGEST_WARNING) } : {};
  const draft = withItem(weighingSet(run.draft, row.apertureUm, field, grams), {
    at,
    field,
    apertureUm: row.apertureUm,
    from: row[field],
    to: grams,
    ...warned,
  });
  const weighed = { ...run, draft };
  return row[field] === null || isWeighedAgain(weighed) ? onward(weighed) : corrected(weighed);
}

function emptyHanded(run: Run): Run {
  const row = run.draft.weighings[run.at];
  const weighed = row && row[columnOf(run.draft.stage)] !== null;
  return weighed ? stepped(run) : refuse(run, "type the mass that the balance shows, then Enter");
}

/** Enter on a row that is weighed already: the next row; the next stage where nothing is left to weigh. */
function stepped(run: Run): Run {
  const last = run.at === run.draft.weighings.length - 1;
  const done = isFull(run) && !isWeighedAgain(run);
  return last || done ? onward(run) : handsFree({ ...run, at: run.at + 1 });
}

/**
 * Enter on a weighing row. A mass that can't be right is doubted first and accepted on a second Enter;
 * what can't be read is refused with the reason and stays in the field, but for a line of the balance: the next one or
 * the next digit must not join it.
 */
export function massEntered(run: Run, at: string): Run {
  if (run.typed.trim() === "") return emptyHanded(run);
  const { massG: grams, marked } = readingOf(run.typed, run.setting.marks);
  if (!grams.ok) return refuse(marked ? { ...run, typed: "" } : run, grams.reason);
  if (grams.value < 0) return refuse(run, "a sieve on the balance weighs more than 0 g: tare the balance");
  const text = doubtOf(run, grams.value, at);
  if (text !== null && run.doubt?.grams !== grams.value) {
    return { ...run, message: null, doubt: { grams: grams.value, text } };
  }
  return massAccepted(run, grams.value, at);
}
