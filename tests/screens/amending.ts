// Later entries about the invented tests of the stage, chained to nothing: the screens never look at seals.
import { correctionOf, refTo } from "../../src/assess/correctionOf.ts";
import type { Change } from "../../src/record/amendment.ts";
import type { Amendment, TestEntry } from "../../src/record/logEntry.ts";
import { currentTest, standsAt, type TestHistory } from "../../src/record/versions.ts";
import { testOpened } from "../../src/screens/answers.ts";
import type { App, Effect } from "../../src/screens/place.ts";
import { must } from "../store/opened.ts";
import { anApp, recordedEntry, Stage } from "./stage.ts";

const sealed = (number: number) => ({
  number,
  at: `2026-11-25T08:${`${number}`.padStart(2, "0")}:00+01:00`,
  day: "2026-11-25",
  station: "TH-DRY1",
  by: "ML",
  previous: "0".repeat(64),
});

export type Changed = { field: Change["field"]; apertureUm?: number; to: string | number | null };

/** The history with one more correction, for a reason, as entry 20 and on. */
export function corrected(history: TestHistory, changes: readonly Changed[], reason = "misread"): TestHistory {
  const test = currentTest(history);
  const fitting = changes.map((change) => {
    const sought = { ...change, from: null } as Change;
    return { ...sought, from: standsAt(test, sought) ?? null } as Change;
  });
  const said = must(correctionOf(history, fitting, reason, "0.2.0"));
  return { ...history, later: [...history.later, { ...said, ...sealed(20 + history.later.length) }] };
}

export function said(history: TestHistory, kind: "voided" | "reinstated" | "waived", reason: string): TestHistory {
  const later: Amendment = { kind, of: refTo(history.entry), reason, ...sealed(20 + history.later.length) };
  return { ...history, later: [...history.later, later] };
}

export const plain = (entry: TestEntry = recordedEntry(7, "4471-B")): TestHistory => ({ entry, later: [] });

export const openedOn = (history: TestHistory = plain(), app: Partial<App> = {}): Stage =>
  new Stage(testOpened(anApp(app), history));

export const amendings = (stage: Stage): Extract<Effect, { do: "amend" }>[] =>
  stage.effects.flatMap((effect) => (effect.do === "amend" ? [effect] : []));
