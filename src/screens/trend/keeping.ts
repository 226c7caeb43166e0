import { freezeLimits } from "../../control/freezeLimits.ts";
import { accepted, type Outcome, refused } from "../../entry/outcome.ts";
import { wrapped } from "../../report/columns.ts";
import { limitsWords } from "../../report/trendWords.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { type Line, line, span } from "../line.ts";
import { type App, type Size, type Step, stay, step } from "../place.ts";
import { type Binding, here } from "../room.ts";
import { initialsOf, initialsRefusal } from "../sign/initials.ts";
import { type Looked, looked } from "./looked.ts";
import type { Keeping, TrendEffect } from "./places.ts";
import { put } from "./trendPlace.ts";

type Frozen = Extract<TrendEffect, { do: "freezeLimits" }>["entry"];

const keepingOf = (app: App): Keeping => here(app, "trend").keeping ?? { field: "reason", reason: "", typed: "" };

/** What there is to freeze; refused where the newest stretch has no limits, or they are frozen already. */
function freezable(seen: Looked): Outcome<Omit<Frozen, "kind" | "by" | "reason" | "product" | "line">> {
  const newest = seen.chart.segments.at(-1)?.limits;
  if (newest?.determinable && newest.origin.from === "frozen")
    return refused(say`these limits are frozen already; to set others, turn frozen limits off (r) first`);
  const limits = freezeLimits(seen.chart);
  if (!limits.ok) return limits;
  const { firstTestId, lastTestId, leftOut, ...rest } = limits.value;
  const refTo = (id: string) => {
    const row = seen.rows.find(({ testId }) => testId === id);
    return row ? [{ testId: id, day: row.day, number: row.number }] : [];
  };
  const [[first], [last]] = [refTo(firstTestId), refTo(lastTestId)];
  if (!first || !last) return refused(say`the tests behind the limits are not at hand`);
  return accepted({ ...rest, on: seen.figure.on, first, last, leftOut: [...leftOut] });
}

/** Begins to freeze, if there is anything to freeze. */
export function keepLimits(app: App): Step {
  const seen = looked(app);
  if (seen === null) return stay(app);
  const limits = freezable(seen);
  return limits.ok
    ? put(app, { keeping: { field: "reason", reason: "", typed: "" } })
    : stay(app, spoken(limits.reason));
}

const SHORTEST_REASON = 3;

function reasonTaken(app: App): Step {
  const { reason } = keepingOf(app);
  return reason.trim().length < SHORTEST_REASON
    ? stay(app, say`say why these limits are to hold: which tests they rest on, who agreed`)
    : put(app, { keeping: { ...keepingOf(app), field: "initials", reason: reason.trim() } });
}

function signed(app: App): Step {
  const { reason, typed } = keepingOf(app);
  const { product, line: onLine } = here(app, "trend");
  const by = initialsOf(app, typed);
  const refusal = initialsRefusal(app, by);
  if (refusal !== null) return stay(app, refusal);
  const seen = looked(app);
  const limits = seen === null ? refused(say`the tests are not at hand`) : freezable(seen);
  if (!limits.ok) return stay(app, spoken(limits.reason));
  const entry: Frozen = { kind: "limits frozen", by, product, line: onLine ?? "", reason, ...limits.value };
  return step({ ...app, message: say`recording ...` }, { do: "freezeLimits", entry });
}

const taken = (app: App): Step => (keepingOf(app).field === "reason" ? reasonTaken(app) : signed(app));

function back(app: App): Step {
  const keeping = keepingOf(app);
  return put(app, { keeping: keeping.field === "reason" ? null : { ...keeping, field: "reason" } });
}

export const KEEPING_KEYS: readonly Binding[] = [
  { keys: ["enter"], word: "accept", help: "Take the reason, then sign with the initials shown.", does: taken },
  { keys: ["escape"], word: "back", help: "One step back; nothing is recorded.", does: back },
];

const LONGEST = { reason: 400, initials: 8 } as const;

export function retypedKeeping(app: App, change: (typed: string) => string): Step {
  const keeping = keepingOf(app);
  const field = keeping.field === "reason" ? "reason" : "typed";
  const text = change(keeping[field]).slice(0, LONGEST[keeping.field]);
  return put(app, { keeping: { ...keeping, [field]: text } });
}

/** A scan ends like a typed answer. */
export function scannedKeeping(app: App, text: string, ended: boolean): Step {
  const typing = retypedKeeping(app, (old) => old + text);
  return ended ? taken(typing.app) : typing;
}

export function keepingBody(app: App, size: Size): readonly Line[] {
  const { field, reason, typed } = keepingOf(app);
  const seen = looked(app);
  const segment = seen?.chart.segments.at(-1);
  const told = seen && segment ? limitsWords(segment, seen.chart, []) : "";
  const typing = field === "reason";
  const by = initialsOf(app, typed);
  return [
    [],
    ...wrapped(`${spoken(seen?.figure.label ?? "")}: ${told}`, size.columns - 4).map((row) => line(`  ${row}`)),
    [],
    line(say`  why are these limits to hold?`, "strong"),
    ...wrapped(typing ? `${reason}▌` : reason, size.columns - 6).map((row) =>
      line(`  ${row}`, typing ? "field" : "plain"),
    ),
    [],
    line(say`  They hold from their first test on until the line is adjusted.`, "dim"),
    [],
    ...(typing ? [] : [[span(say`  signed by  `, "strong"), span(`${by}▌`, "field")]]),
  ];
}
