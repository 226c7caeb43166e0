import type { Draft } from "../record/draft.ts";
import { isPractice } from "../record/practice.ts";
import { type Span, span } from "./line.ts";
import type { App } from "./place.ts";

const LETTERS = [..."ABCDEFGHIJKLMNOPQRSTUVWXYZ"];
const ROLES = ["stack1", "stack2", "stack3", "stack4"] as const;

type Marks = ReadonlyMap<string, string>;

/** Letters for tests in work: each keeps the one it has, a new one takes the first that is free. */
export function marksFor(drafts: readonly Pick<Draft, "testId">[], before: Marks = new Map()): Marks {
  const kept = new Map(
    drafts.flatMap(({ testId }) => (before.has(testId) ? [[testId, before.get(testId) ?? ""]] : [])) as [
      string,
      string,
    ][],
  );
  for (const { testId } of drafts) {
    if (kept.has(testId)) continue;
    const taken = new Set(kept.values());
    kept.set(testId, LETTERS.find((letter) => !taken.has(letter)) ?? "*");
  }
  return kept;
}

/** The screens with a letter for each test in work; the same object where nothing changes. */
export function withMarks(app: App): App {
  const before = app.marks ?? new Map();
  const same = before.size === app.drafts.length && app.drafts.every(({ testId }) => before.has(testId));
  return same ? app : { ...app, marks: marksFor(app.drafts, before) };
}

/** The letter of a test on a ground of its own, where more than one is in work; else nothing. A practice test is told otherwise. */
export function markSpan(app: Pick<App, "drafts" | "marks">, { testId }: Pick<Draft, "testId">): Span | null {
  if (isPractice({ testId })) return null;
  const known = app.drafts.some((draft) => draft.testId === testId);
  const all = known ? app.drafts : [...app.drafts, { testId }];
  if (all.length < 2) return null;
  const letter = marksFor(all, app.marks).get(testId) ?? "*";
  return span(` ${letter} `, ROLES[Math.max(0, LETTERS.indexOf(letter)) % ROLES.length] ?? "stack1");
}
