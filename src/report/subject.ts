import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { quoted } from "../entry/quoted.ts";
import type { CharacteristicValue } from "../grading/values/characteristicValue.ts";
import { CHARACTERISTIC_VALUES } from "../grading/values/table.ts";
import { TERM_IDS, type TermId, termOf } from "./glossary/terms.ts";
import { nearNames } from "./nearNames.ts";
import { TOPICS, type Topic } from "./topics.ts";

/** What somebody asks about: a characteristic value, a percentile, a topic, a term, or all of these. */
export type Subject =
  | { readonly kind: "value"; readonly row: CharacteristicValue }
  | { readonly kind: "percentile"; readonly passingPct: number }
  | { readonly kind: "topic"; readonly topic: Topic }
  | { readonly kind: "term"; readonly term: TermId }
  | { readonly kind: "terms" }
  | { readonly kind: "standards" };

const PERCENTILE = /^(?:d|percentileum@)\s*(\d{1,3}(?:[.,]\d+)?)$/;
const MOST_NAMED = 5;

const squeezed = (text: string): string => text.toLowerCase().replace(/[^a-z0-9]/g, "");
const wordsOf = (text: string): readonly string[] => text.toLowerCase().split(/[^a-z0-9,[\].]+/);
/** `finenessModulus` is FM to its people. */
const initials = (id: string): string => `${id.charAt(0)}${id.replace(/[^A-Z]/g, "")}`.toLowerCase();

const ofValue = (row: CharacteristicValue): Subject => ({ kind: "value", row });

const wordsFor = (id: TermId): readonly string[] => [termOf(id).name, ...(termOf(id).also ?? [])].map(squeezed);

function exactly(text: string): Subject | null {
  const wanted = squeezed(text);
  const row = CHARACTERISTIC_VALUES.find(({ id, label }) => [squeezed(id), squeezed(label)].includes(wanted));
  if (row) return ofValue(row);
  const topic = TOPICS.find(({ name }) => squeezed(name) === wanted);
  if (topic) return { kind: "topic", topic };
  if (wanted === "terms" || wanted === "standards") return { kind: wanted };
  return termIn(wanted);
}

function termIn(wanted: string): Subject | null {
  const term = TERM_IDS.find((id) => wordsFor(id).includes(wanted));
  return term ? { kind: "term", term } : null;
}

/** `term log`: a term that has the name of a command, a value or a topic. */
function termNamed(name: string): Outcome<Subject> {
  const term = termIn(squeezed(name));
  return term === null ? refused(unknownWords(name)) : accepted(term);
}

/** Every name that somebody may have meant. */
const NAMES = [
  ...CHARACTERISTIC_VALUES.flatMap(({ id, label }) => [id, label]),
  ...TOPICS.map(({ name }) => name),
  ...TERM_IDS.flatMap((id) => [termOf(id).name, ...(termOf(id).also ?? [])]),
  "keys",
  "terms",
  "standards",
];

function unknownWords(name: string): string {
  const near = nearNames(name, NAMES);
  const told = near.length > 0 ? `; near to it: ${near.join(", ")}` : "";
  return `${quoted(name)} is no value, no topic and no term${told}`;
}

function percentile(text: string): Outcome<Subject> | null {
  const number = PERCENTILE.exec(text.toLowerCase())?.[1];
  if (number === undefined) return null;
  const passingPct = Number(number.replace(",", "."));
  if (passingPct > 0 && passingPct <= 100) return accepted({ kind: "percentile", passingPct });
  return refused(`${quoted(text)}: a percentile lies above 0 and up to 100 % passing`);
}

/** The values that are meant, by ever looser rules; the first rule that finds any decides. */
function loosely(text: string): readonly CharacteristicValue[] {
  const wanted = squeezed(text);
  const words = wordsOf(text);
  const rules = [
    ({ id }: CharacteristicValue) => initials(id) === wanted,
    ({ label }: CharacteristicValue) => words.every((word) => wordsOf(label).includes(word)),
    ({ id, label }: CharacteristicValue) => squeezed(id).includes(wanted) || squeezed(label).includes(wanted),
  ];
  return rules.map((rule) => CHARACTERISTIC_VALUES.filter(rule)).find((rows) => rows.length > 0) ?? [];
}

/**
 * What a name stands for: the id or label of a value in any spelling, the initials of its id (FM), a word or part of
 * it if no other value has it, a percentile (d50), a topic, or a term of the glossary.
 *
 * @returns the subject, or why the name stands for none or for several
 */
export function subjectNamed(text: string): Outcome<Subject> {
  const asTerm = /^term\s+(.+)$/i.exec(text.trim())?.[1];
  if (asTerm !== undefined) return termNamed(asTerm);
  const name = text.trim();
  if (squeezed(name) === "") return refused(`${quoted(name)} names no value`);
  const exact = exactly(name);
  if (exact) return accepted(exact);
  const asPercentile = percentile(name);
  if (asPercentile) return asPercentile;
  const [row, ...others] = loosely(name);
  if (!row) return refused(unknownWords(name));
  if (others.length === 0) return accepted(ofValue(row));
  const ids = [row, ...others].map(({ id }) => id);
  const more = ids.length > MOST_NAMED ? ", ..." : "";
  return refused(`${quoted(name)} can be ${ids.slice(0, MOST_NAMED).join(", ")}${more}: write which`);
}
