import type { Stack } from "../../record/sieve.ts";
import { wrapped } from "../../report/columns.ts";
import { massText } from "../../report/figures.ts";
import { retestWords } from "../../report/retestWords.ts";
import { fieldInHand, fieldsOf, type Run, type SetOutField } from "../../run/run.ts";
import { NO_SET, setInHand, setsOf } from "../../run/sieves.ts";
import { say } from "../../words/say.ts";
import { balanceFailedWords } from "../balance/balanceWords.ts";
import { cells, type Line, line, span } from "../line.ts";
import type { App, Size } from "../place.ts";
import { markerOf } from "./following.ts";

const LABEL: Record<SetOutField, string> = {
  product: "product",
  lot: "lot",
  line: "line",
  samplingPoint: "sampling point",
  set: "set of sieves",
  moistG: "moist mass",
  dryG: "dry mass",
  chargeG: "charge",
  washedG: "washed, dry",
};

const HINT: Record<SetOutField, string> = {
  product: "type the beginning of its code or its number, or scan it",
  lot: "type or scan the lot; Enter takes the one shown",
  line: "type its number or the beginning of its name",
  samplingPoint: "type its number or the beginning of its name",
  set: "scan the set or one of its sieves; Enter takes the one shown",
  moistG: "weigh the portion for moisture as received, in g; Enter alone: not measured",
  dryG: "the same portion dried to constant mass, in g",
  chargeG: "weigh the test portion, in g; Enter alone: the charge was not weighed",
  washedG: "the charge washed and dried again, in g",
};

const setText = (set: Stack | null): string => (set === null ? NO_SET : `${set.code}  ${set.name}`);

function standingText(run: Run, field: SetOutField): string {
  const { draft } = run;
  if (field === "product") return `${draft.product.code}  ${draft.product.name}  rev ${draft.product.revision}`;
  if (field === "lot" || field === "line" || field === "samplingPoint") return draft[field];
  if (field === "set") return setText(setInHand(run));
  const grams = draft[field] ?? null;
  return grams === null ? "" : `${massText(grams)} g`;
}

function choices(run: Run): readonly string[] {
  const { products, lines, samplingPoints } = run.setting;
  const field = fieldInHand(run);
  if (field === "product") return products.map((p) => `${p.code}  ${p.name}`);
  if (field === "set") return [...setsOf(run).map(setText), setText(null)];
  return field === "line" ? lines : field === "samplingPoint" ? samplingPoints : [];
}

function fieldLine(app: App, run: Run, field: SetOutField, row: number): Line {
  const current = row === run.at;
  const marker = current ? markerOf(app, run.draft) : " ";
  const label = cells([
    { text: marker, columns: 3, align: "right", role: "strong" },
    { text: " ", columns: 1 },
    { text: LABEL[field], columns: 16, role: current ? "strong" : "dim" },
  ]);
  if (current && run.typed !== "") return [...label, span(`${run.typed}▌`, "field")];
  const standing = standingText(run, field);
  return current ? [...label, span(`${standing}▌`, "field")] : [...label, span(standing)];
}

function noteLines(run: Run, columns: number): Line[] {
  const { doubt, message } = run;
  if (!doubt && !message) return [line(`    ${HINT[fieldInHand(run)]}`, "dim")];
  if (!doubt) return wrapped(`! ${message}`, columns - 3, "  ").map((row) => line(`  ${row}`, "warning"));
  const told = wrapped(`! ${doubt.text}`, columns - 3, "  ").map((row) => line(`  ${row}`, "warning"));
  return [...told, line(say`    Enter again accepts it; type another mass to replace it`, "warning")];
}

const balanceLines = (app: App, columns: number): Line[] => {
  const failed = balanceFailedWords(app);
  return failed === null ? [] : wrapped(`! ${failed}`, columns - 3, "  ").map((row) => line(`  ${row}`, "fail"));
};

/** The set-out page: what is tested, where it comes from, how much is put on. */
export function setOutBody(app: App, run: Run, size: Size): Line[] {
  const fields = fieldsOf(run).map((field, row) => fieldLine(app, run, field, row));
  const listed = choices(run).map((name, i) => line(`      ${String(i + 1).padStart(2)}  ${name}`, "dim"));
  const note = noteLines(run, size.columns);
  const { chargeG } = run.draft.product.method ?? {};
  const wanted = chargeG?.target ?? chargeG?.min;
  const charge = wanted === undefined ? [] : [line(say`    this product wants a charge of about ${wanted} g`, "dim")];
  const program = run.draft.program ? [line(say`    shaker program: ${run.draft.program.name}`, "dim")] : [];
  const retest = run.draft.retest ? [line(`    ${retestWords(run.draft)}`, "strong")] : [];
  return [
    [],
    ...fields,
    [],
    ...note,
    ...balanceLines(app, size.columns),
    ...retest,
    ...charge,
    ...program,
    [],
    ...listed,
  ];
}
