import { chargeOutside } from "../../assess/productPlan.ts";
import { wrapped } from "../../report/columns.ts";
import { boundsCell, limitLabel, typicalText, uncertaintyText, verdictCell } from "../../report/planFigures.ts";
import { cautions, chargeWords, fromWords, guardWords, limitWords, planWords } from "../../report/planWords.ts";
import type { Role } from "../../terminal/theme.ts";
import type { PlanLine, PlanVerdict } from "../../uncertainty/planning/planLine.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { apart, cells, type Line, line, span, unsaid, windowAround } from "../line.ts";
import type { App, Size } from "../place.ts";
import { here } from "../room.ts";
import { tabled } from "../sentences.ts";
import { type Planned, plannedHere } from "./planned.ts";

const told = (text: string, columns: number, role: Role = "plain"): Line[] =>
  wrapped(text, columns - 4, "  ").map((row) => line(`  ${row}`, text.startsWith("!") ? "warning" : role));

const ROLES: Readonly<Record<PlanVerdict, Role>> = {
  decidable: "pass",
  "larger charge": "borderline",
  "no charge is enough": "fail",
  "too narrow": "fail",
  "typical lies outside": "fail",
};
function roleOf(limit: PlanLine, told: Planned["told"]): Role {
  if (!limit.planned) return "warning";
  return limit.verdict === "decidable" && chargeOutside(told) !== null ? "warning" : ROLES[limit.verdict];
}

/** What stands in each column, and which limits are in view where not all are. */
const heading = (which: string): Line =>
  cells([
    { text: `${say`  limit`}${which}`, columns: 24, role: "dim" },
    { text: "", columns: 13 },
    { text: say`typical`, columns: 9, align: "right", role: "dim" },
    { text: "+/-", columns: 9, align: "right", role: "dim" },
    { text: say`  with how much`, columns: 25, role: "dim" },
  ]);

const limitLine = ({ told: plan }: Planned, limit: PlanLine, chosen: boolean): Line =>
  cells([
    { text: chosen ? "▸" : "", columns: 2, role: "strong" },
    apart(limitLabel(plan, limit.name), 22),
    apart(boundsCell(limit), 13, "dim"),
    { text: typicalText(limit), columns: 9, align: "right" },
    { text: uncertaintyText(limit), columns: 9, align: "right" },
    { text: `  ${verdictCell(limit, plan)}`, columns: 25, role: roleOf(limit, plan) },
  ]);

function typedLine(app: App): Line[] {
  const { typed } = here(app, "plan");
  return typed === ""
    ? []
    : [[span(say`  what if the charge were `, "strong"), span(`${typed}▌`, "field"), span(" g")]];
}

function basisLines({ from, told: plan }: Planned, columns: number): Line[] {
  const words = [fromWords(from), guardWords(plan.plan), chargeWords(plan)];
  return words.flatMap((text) => told(text, columns, "dim"));
}

/** So many limits are in view at once, whatever stands below them. */
const LEAST_LIMITS = 3;

function plannedBody(app: App, planned: Planned, { columns, rows }: Size): Line[] {
  const { at } = here(app, "plan");
  const { plan } = planned.told;
  const head = [
    ...planWords(planned.told).flatMap((text) => told(text, columns, "strong")),
    ...cautions(plan).flatMap((text) => told(text, columns, "dim")),
    ...typedLine(app),
  ];
  const basis = basisLines(planned, columns);
  const limit = plan.lines[at];
  if (limit === undefined) return [...head, [], ...basis];
  const [first = "", ...more] = limitWords(limit, planned.told);
  const words = [...told(first, columns), ...more.flatMap((text) => told(text, columns, "dim"))];
  const room = Math.max(LEAST_LIMITS, rows - head.length - words.length - basis.length - 4);
  const { from, shown } = windowAround(plan.lines, at, Math.min(room, plan.lines.length));
  const table = shown.map((one, i) => tabled(heading(""), limitLine(planned, one, from + i === at)));
  const count = plan.lines.length;
  const which = shown.length < count ? ` ${say`${from + 1} to ${from + shown.length} of ${count}`}` : "";
  return [...head, [], unsaid(heading(which)), ...table, [], ...words, [], ...basis];
}

/** What it takes to judge each limit, and the limit in hand in words. */
export function planBody(app: App, size: Size): readonly Line[] {
  const planned = plannedHere(here(app, "plan"));
  if (planned === null) return [line(say`  reading the newest tests ...`, "dim")];
  if (planned.ok) return plannedBody(app, planned.value, size);
  return [...told(say`nothing can be planned: ${spoken(planned.reason)}`, size.columns, "warning"), ...typedLine(app)];
}
