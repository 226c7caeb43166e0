import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { readingOf } from "../entry/reading.ts";
import type { Draft } from "../record/draft.ts";
import type { Product } from "../record/product.ts";
import { standing } from "../record/test.ts";
import { beyondMeansWords } from "./beyondMeans.ts";
import { chargeDoubt } from "./chargeDoubt.ts";
import { pick } from "./pick.ts";
import { fieldInHand, fieldsOf, handsFree, type Run, refuse, type SetOutField } from "./run.ts";
import { setAccepted, setPassed, sievesTold } from "./setChoice.ts";
import { meansLackingWords } from "./sieves.ts";
import { withProduct } from "./start.ts";
import { withItem } from "./trail.ts";

const NO_LOT = "a test needs its lot";

function lotOf(typed: string): Outcome<string> {
  const lot = typed.trim();
  if (lot.length > 40) return refused("a lot has at most 40 characters");
  return accepted(lot);
}

/** What stood in a field before; null where it was not accepted there itself and is taken as it stands. */
function before({ trail }: Draft, field: SetOutField, stands: string, taken: string): string | null {
  const accepted = standing(trail).findLast((item) => item.field === field);
  return accepted?.to === stands || stands !== taken ? stands : null;
}

/** What is repeated was a test of this lot of this product: another one is another test. */
const bound = ({ of }: NonNullable<Draft["retest"]>, what: "product" | "lot"): string =>
  `this test repeats no. ${of.number}: for another ${what} leave it with Esc and set out a new test`;

const WORD_FIELDS: ReadonlySet<string> = new Set(["lot", "line", "samplingPoint"]);

const productName = ({ code, revision }: Product) => `${code} rev ${revision}`;

function chosenProduct(run: Run, typed: string): Outcome<Product> {
  if (typed === "") return accepted(run.draft.product);
  const code = pick(
    typed,
    run.setting.products.map((p) => p.code),
    "product",
  );
  if (!code.ok) return code;
  const product = run.setting.products.find((p) => p.code === code.value);
  return product ? accepted(product) : refused(`product ${code.value} is not in the library`);
}

/** What was scanned before any product was accepted belongs to the sample at hand, whatever product it turns out to be. */
function withScannedWords(draft: Draft): Draft {
  const entries = standing(draft.trail);
  if (entries.some(({ field }) => field === "product")) return draft;
  const words = entries.filter(({ field }) => WORD_FIELDS.has(field));
  return { ...draft, ...Object.fromEntries(words.map(({ field, to }) => [field, to])) };
}

function productAccepted(run: Run, at: string): Outcome<Draft> {
  const chosen = chosenProduct(run, run.typed);
  if (!chosen.ok) return chosen;
  const { draft } = run;
  const same = chosen.value.code === draft.product.code;
  if (!same && draft.retest !== undefined) return refused(bound(draft.retest, "product"));
  const weighed = draft.weighings.some((w) => w.emptyG !== null || w.fullG !== null);
  if (!same && weighed) return refused("weighings are there already: start a new test for another product");
  const next = same ? draft : withScannedWords(withProduct(draft, chosen.value, run.setting));
  const to = productName(next.product);
  const from = before(draft, "product", productName(draft.product), to);
  return accepted(withItem(next, { at, field: "product", from, to }));
}

type MassField = "moistG" | "dryG" | "chargeG" | "washedG";

const MASS_NAME: Record<MassField, string> = {
  moistG: "moist mass",
  dryG: "dry mass",
  chargeG: "charge",
  washedG: "dry mass after washing",
};

/** A dry mass can't be larger than the moist one, nor a washed one than what was washed. */
function tooLarge({ moistG, chargeG }: Draft, field: MassField, grams: number): string | null {
  const most = field === "dryG" ? moistG : field === "washedG" ? chargeG : null;
  return most !== null && most !== undefined && grams > most ? `${grams} g is more than the ${most} g before` : null;
}

function massAccepted(run: Run, field: MassField, at: string): Outcome<Draft> {
  const { draft, typed } = run;
  if (typed === "") return accepted(draft);
  const grams = readingOf(typed, run.setting.marks).massG;
  if (!grams.ok) return grams;
  if (grams.value <= 0) return refused(`a ${MASS_NAME[field]} is more than 0 g`);
  const over = grams.value > run.setting.balance.capacityG;
  if (over) return refused(`the balance carries ${run.setting.balance.capacityG} g only`);
  const wrong = tooLarge(draft, field, grams.value);
  if (wrong) return refused(wrong);
  const warned = run.doubt ? { warned: run.doubt.text } : {};
  const item = { at, field, from: draft[field] ?? null, to: grams.value, ...warned };
  return accepted(withItem({ ...draft, [field]: grams.value }, item));
}

function wordAccepted(run: Run, field: "lot" | "line" | "samplingPoint", at: string): Outcome<Draft> {
  const { draft, typed, setting } = run;
  const names = { lot: [], line: setting.lines, samplingPoint: setting.samplingPoints }[field];
  const word =
    typed === ""
      ? accepted(draft[field])
      : field === "lot"
        ? lotOf(typed)
        : pick(typed, names, field === "line" ? "line" : "sampling point");
  if (!word.ok) return word;
  if (field === "lot" && word.value === "") return refused(NO_LOT);
  if (field === "lot" && draft.retest !== undefined && word.value !== draft.lot)
    return refused(bound(draft.retest, "lot"));
  const item = { at, field, from: before(draft, field, draft[field], word.value), to: word.value };
  return accepted(withItem({ ...draft, [field]: word.value }, item));
}

/** What is typed in the field in hand, taken into the draft; or why not. */
export function fieldAccepted(run: Run, at: string): Outcome<Draft> {
  const field = fieldInHand(run);
  if (field === "product") return productAccepted(run, at);
  if (field === "set") return setAccepted(run, at);
  if (field === "lot" || field === "line" || field === "samplingPoint") return wordAccepted(run, field, at);
  return massAccepted(run, field, at);
}

/** A charge outside what the product's rules allow is doubted once, with what to do; a second Enter accepts it. */
function chargeDoubted(run: Run): Run | null {
  const grams = readingOf(run.typed, run.setting.marks).massG;
  if (fieldInHand(run) !== "chargeG" || !grams.ok || grams.value <= 0 || run.doubt?.grams === grams.value) return null;
  const text = chargeDoubt(run.draft, grams.value, run.setting.usual);
  return text === null ? null : { ...run, message: null, doubt: { grams: grams.value, text } };
}

/**
 * Enter on a field of the set-out page: what was typed, or what stands there, is taken and the next field is in hand;
 * after the last field the empty sieves are weighed. A charge left empty means that it was not weighed.
 */
export function setOutAccepted(run: Run, at: string): Run {
  const doubted = chargeDoubted(run);
  if (doubted) return doubted;
  const draft = fieldAccepted(run, at);
  if (!draft.ok) return refuse(run, draft.reason);
  const told = fieldInHand(run) === "set" ? sievesTold(draft.value) : null;
  const next = { ...handsFree({ ...run, draft: draft.value, at: run.at + 1 }), message: told };
  const fields = fieldsOf(next);
  if (fields[next.at] === "set") return setPassed(next, at) ?? next;
  if (next.at < fields.length) return next;
  if (next.draft.lot === "") return refuse({ ...next, at: fields.indexOf("lot") }, NO_LOT);
  const message = told ?? meansLackingWords(next.draft) ?? beyondMeansWords(next.draft);
  return { ...next, message, draft: { ...next.draft, stage: "weigh empty" }, at: 0 };
}
