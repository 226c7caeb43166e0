import { otherApertures } from "../../assess/drawnOver.ts";
import type { Stack } from "../../record/sieve.ts";
import { wrapped } from "../../report/columns.ts";
import { massText } from "../../report/figures.ts";
import { retestWords } from "../../report/retestWords.ts";
import { beyondMeansWords } from "../../run/beyondMeans.ts";
import { fieldInHand, fieldsOf, type Run, type SetOutField } from "../../run/run.ts";
import { meansLackingWords, NO_SET, setInHand, setsOf } from "../../run/sieves.ts";
import { columnsOf } from "../../terminal/sanitise.ts";
import { phrase, say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { balanceFailedWords } from "../balance/balanceWords.ts";
import { cells, type Line, line, span } from "../line.ts";
import type { App, Size } from "../place.ts";
import { markerOf } from "./following.ts";

const LABEL: Record<SetOutField, string> = {
  product: phrase("product"),
  lot: phrase("lot"),
  line: phrase("line"),
  samplingPoint: phrase("sampling point"),
  set: phrase("set of sieves"),
  moistG: phrase("moist mass"),
  dryG: phrase("dry mass"),
  chargeG: phrase("charge"),
  washedG: phrase("washed, dry"),
};

const HINT: Record<SetOutField, string> = {
  product: phrase("type the beginning of its code or its number, or scan it"),
  lot: phrase("type or scan the lot; Enter takes the one shown"),
  line: phrase("type its number or the beginning of its name"),
  samplingPoint: phrase("type its number or the beginning of its name"),
  set: phrase("scan the set or one of its sieves; Enter takes the one shown"),
  moistG: phrase("weigh the portion for moisture as received, in g; Enter alone: not measured"),
  dryG: phrase("the same portion dried to constant mass, in g"),
  chargeG: phrase("weigh the test portion, in g; Enter alone: the charge was not weighed"),
  washedG: phrase("the charge washed and dried again, in g"),
};

/** One blank at least between a label and what stands in its field. */
const labelColumns = (): number => Math.max(16, ...Object.values(LABEL).map((label) => columnsOf(spoken(label)) + 1));

const setText = (set: Stack | null): string => (set === null ? spoken(NO_SET) : `${set.code}  ${set.name}`);

function standingText(run: Run, field: SetOutField): string {
  const { draft } = run;
  if (field === "product") return say`${draft.product.code}  ${draft.product.name}  rev ${draft.product.revision}`;
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
    { text: spoken(LABEL[field]), columns: labelColumns(), role: current ? "strong" : "dim" },
  ]);
  if (current && run.typed !== "") return [...label, span(`${run.typed}▌`, "field")];
  const standing = standingText(run, field);
  return current ? [...label, span(`${standing}▌`, "field")] : [...label, span(standing)];
}

function noteLines(run: Run, columns: number): Line[] {
  const { doubt, message } = run;
  const noted =
    run.note === undefined ? [] : wrapped(spoken(run.note), columns - 4).map((row) => line(`    ${row}`, "pass"));
  if (!doubt && !message) return [...noted, line(`    ${spoken(HINT[fieldInHand(run)])}`, "dim")];
  if (!doubt) return wrapped(`! ${spoken(message ?? "")}`, columns - 3, "  ").map((row) => line(`  ${row}`, "warning"));
  const told = wrapped(`! ${spoken(doubt.text)}`, columns - 3, "  ").map((row) => line(`  ${row}`, "warning"));
  return [...told, line(say`    Enter again accepts it; type another mass to replace it`, "warning")];
}

const balanceLines = (app: App, columns: number): Line[] => {
  const failed = balanceFailedWords(app);
  return failed === null ? [] : wrapped(`! ${failed}`, columns - 3, "  ").map((row) => line(`  ${row}`, "fail"));
};

const OVER = {
  certified: phrase("this product's curve is drawn over certified mean apertures: tell the set, or scan each sieve"),
  effective: phrase("this product's curve is drawn over effective apertures: tell the set, or scan each sieve"),
} as const;

const OVER_KNOWN = {
  certified: phrase("this product's curve is drawn over certified mean apertures: those of these sieves are known"),
  effective: phrase("this product's curve is drawn over effective apertures: those of these sieves are known"),
} as const;

/** Before anything is weighed: what the product's curve needs to know of the sieves. */
function overLines({ draft, message }: Run, columns: number): Line[] {
  const choice = otherApertures(draft.product);
  if (choice === null) return [];
  const lacking = draft.set === undefined ? null : meansLackingWords(draft);
  const told = draft.set === undefined ? OVER[choice] : OVER_KNOWN[choice];
  const doubt = lacking ?? beyondMeansWords(draft);
  if (doubt !== null && message?.includes(doubt)) return [];
  if (doubt === null) return wrapped(spoken(told), columns - 6).map((row) => line(`    ${row}`, "dim"));
  return wrapped(`! ${spoken(doubt)}`, columns - 3, "  ").map((row) => line(`  ${row}`, "warning"));
}

/** The set-out page: what is tested, where it comes from, how much is put on. */
export function setOutBody(app: App, run: Run, size: Size): Line[] {
  const fields = fieldsOf(run).map((field, row) => fieldLine(app, run, field, row));
  const listed = choices(run).map((name, i) => line(`      ${String(i + 1).padStart(2)}  ${name}`, "dim"));
  const note = noteLines(run, size.columns);
  const { chargeG } = run.draft.product.method ?? {};
  const wanted = chargeG?.target ?? chargeG?.min;
  const charge = wanted === undefined ? [] : [line(say`    this product wants a charge of about ${wanted} g`, "dim")];
  const program = run.draft.program ? [line(say`    shaker program: ${run.draft.program.name}`, "dim")] : [];
  const over = overLines(run, size.columns);
  const retest = run.draft.retest ? [line(`    ${spoken(retestWords(run.draft))}`, "strong")] : [];
  return [
    [],
    ...fields,
    [],
    ...note,
    ...balanceLines(app, size.columns),
    ...retest,
    ...charge,
    ...program,
    ...over,
    [],
    ...listed,
  ];
}
