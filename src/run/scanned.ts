import { readingOf } from "../entry/reading.ts";
import type { Draft } from "../record/draft.ts";
import type { Scanned } from "../record/scanner.ts";
import { fieldsOf, handsFree, type Run, refuse, type SetOutField } from "./run.ts";
import { fieldAccepted } from "./setOut.ts";
import { sieveByScan } from "./sieveScan.ts";

const WORDS = { lot: "lot", product: "product", line: "line", samplingPoint: "sampling point" } as const;
type Word = keyof typeof WORDS;

const isWord = (of: Scanned): of is Word => of in WORDS;

/** What was taken; and the lot, where another product brought another one with it. */
function takenNote(before: Draft, now: Draft, field: Word): string {
  const taken = `${WORDS[field]} ${{ ...now, product: now.product.code }[field]} is taken`;
  return field === "product" && now.lot !== before.lot ? `${taken}; the lot is now ${now.lot || "open"}` : taken;
}

/** The field that a scan is for takes it, whichever is in hand; hands and what they have typed stay where they are. */
function intoField(run: Run, field: SetOutField & Word, text: string, at: string): Run {
  const fields = fieldsOf(run);
  const inHand = fields[run.at];
  const taken = fieldAccepted({ ...run, at: fields.indexOf(field), typed: text, doubt: null }, at);
  if (!taken.ok) return refuse(run, taken.reason);
  const next = { ...run, draft: taken.value, message: null, note: takenNote(run.draft, taken.value, field) };
  const row = Math.max(0, inHand === undefined ? 0 : fieldsOf(next).indexOf(inHand));
  if (inHand !== field) return { ...next, at: row };
  return handsFree({ ...next, at: Math.min(row + 1, fieldsOf(next).length - 1) });
}

const same = (a: string, b: string): boolean => a.toLowerCase() === b.trim().toLowerCase();

/** Once set out, a label only says whether the sample at hand is the one of this test. Nothing is changed by it. */
function compared(run: Run, of: Word, text: string): Run {
  const { draft } = run;
  const own = { ...draft, product: draft.product.code }[of];
  if (same(own, text)) return { ...run, message: null, note: `${WORDS[of]} ${own}: it is this test's own` };
  const why = `${WORDS[of]} ${text} was scanned, this test is of ${WORDS[of]} ${own}: nothing is changed`;
  return refuse(run, `${why}; o leads to the set-out page`);
}

const isAsked = ({ stage }: Run["draft"]): boolean => stage !== "shake" && stage !== "result";

function sieveOrSet(run: Run, of: "sieve" | "set", text: string, at: string): Run {
  if (!isAsked(run.draft)) return refuse(run, `${text} was scanned where no ${of} is asked`);
  const known = run.setting.care === undefined ? "this station" : "the register";
  return sieveByScan(run, text, at, "by its prefix") ?? refuse(run, `no ${of} of ${known} is called ${text}`);
}

/**
 * A scan that says what it is. On the set-out page it goes to its field though another one is in hand; later a label is
 * compared with the test, and a sieve or a set is taken as `sieveByScan` does.
 */
export function scannedAs(run: Run, of: Scanned, text: string, at: string): Run {
  if (of === "operator") return refuse(run, `${text} is scanned as an operator: that is asked when the test is signed`);
  if (isWord(of)) return run.draft.stage === "set out" ? intoField(run, of, text, at) : compared(run, of, text);
  return sieveOrSet(run, of, text, at);
}

/** A line of the balance that comes while a word is asked for is no word. */
export function massForWord(run: Run, text: string): Run | null {
  const field = fieldsOf(run)[run.at];
  const isMass = run.draft.stage !== "set out" || field === undefined || field.endsWith("G");
  if (isMass || !readingOf(text, run.setting.marks).marked) return null;
  return refuse({ ...run, typed: "" }, `${text.trim()} is a mass: Down leads to the charge, then send it again`);
}
