import { type Due, planDue } from "../../shift/sampling.ts";
import { shiftBegan } from "../../shift/schedule.ts";
import { clockText, shortMoment } from "../../words/figures.ts";
import { phrase, say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { cells, type Line, line } from "../line.ts";
import type { App } from "../place.ts";

/** How the sampling plan stands, worked out once for each state of the log and each minute. */
const PLANNED = new WeakMap<
  object,
  { readonly minute: string; readonly events: unknown; readonly due: readonly Due[] }
>();

/** The plan as it stands now, the most urgent first; empty while the log is not read, or without a plan. */
export function dueNow({ station, recent, earlier, lineEvents, now }: App): readonly Due[] {
  if (recent === null || station.samplingPlan === undefined) return [];
  const minute = now.slice(0, 16);
  const known = PLANNED.get(recent);
  if (known !== undefined && known.minute === minute && known.events === lineEvents) return known.due;
  const due = planDue(
    station.samplingPlan,
    { tests: [...earlier, ...recent], events: lineEvents },
    now,
    shiftBegan(now, station),
  );
  PLANNED.set(recent, { minute, events: lineEvents, due });
  return due;
}

/** The clock, and the day where it is another one. */
const whenText = (at: string, now: string): string =>
  at.slice(0, 10) === now.slice(0, 10) ? clockText(at) : shortMoment(at);

const WORDS = { late: phrase("LATE !"), due: phrase("due"), done: phrase("next"), idle: "" } as const;
const ROLES = { late: "fail", due: "warning", done: "dim", idle: "dim" } as const;

function dueLine({ rule, state, at, why }: Due, now: string): Line {
  const role = ROLES[state];
  return cells([
    { text: "", columns: 2 },
    { text: spoken(WORDS[state]), columns: 8, role },
    { text: at === null ? "" : whenText(at, now), columns: 12, role },
    { text: rule.product, columns: 9 },
    { text: rule.line, columns: 15 },
    { text: spoken(why), columns: 31, role: "dim" },
  ]);
}

/** What is to be sampled: everything late or due, then what comes next, in so many rows. */
export function dueLines(app: App, rows: number): readonly Line[] {
  const due = dueNow(app).filter(({ state, at }) => state !== "idle" && at !== null);
  const more = due.slice(rows).filter(({ state }) => state !== "done").length;
  const told = more === 0 ? [] : [line(say`          and ${more} more due or late`, "warning")];
  return [...due.slice(0, rows).map((one) => dueLine(one, app.now)), ...told];
}
