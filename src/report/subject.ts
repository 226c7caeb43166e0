import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { quoted } from "../entry/quoted.ts";
import type { CharacteristicValue } from "../grading/values/characteristicValue.ts";
import { CHARACTERISTIC_VALUES } from "../grading/values/table.ts";
import { TOPICS, type Topic } from "./topics.ts";

/** What somebody asks about: a characteristic value, a percentile, or a topic. */
export type Subject =
  | { readonly kind: "value"; readonly row: CharacteristicValue }
  | { readonly kind: "percentile"; readonly passingPct: number }
  | { readonly kind: "topic"; readonly topic: Topic };

const PERCENTILE = /^(?:d|percentileum@)\s*(\d{1,3}(?:[.,]\d+)?)$/;
const MOST_NAMED = 5;

const squeezed = (text: string): string => text.toLowerCase().replace(/[^a-z0-9]/g, "");
const wordsOf = (text: string): readonly string[] => text.toLowerCase().split(/[^a-z0-9,[\].]+/);
/** `finenessModulus` is FM to its people. */
const initials = (id: string): string => `${id.charAt(0)}${id.replace(/[^A-Z]/g, "")}`.toLowerCase();

const ofValue = (row: CharacteristicValue): Subject => ({ kind: "value", row });

function exactly(text: string): Subject | null {
  const wanted = squeezed(text);
  const row = CHARACTERISTIC_VALUES.find(({ id, label }) => [squeezed(id), squeezed(label)].includes(wanted));
  if (row) return ofValue(row);
  const topic = TOPICS.find(({ name }) => squeezed(name) === wanted);
  return topic ? { kind: "topic", topic } : null;
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
 * it if no other value has it, a percentile (d50), or a topic.
 *
 * @returns the subject, or why the name stands for none or for several
 */
export function subjectNamed(text: string): Outcome<Subject> {
  const name = text.trim();
  if (squeezed(name) === "") return refused(`${quoted(name)} names no value`);
  const exact = exactly(name);
  if (exact) return accepted(exact);
  const asPercentile = percentile(name);
  if (asPercentile) return asPercentile;
  const [row, ...others] = loosely(name);
  if (!row) return refused(`${quoted(name)} is no value and no topic`);
  if (others.length === 0) return accepted(ofValue(row));
  const ids = [row, ...others].map(({ id }) => id);
  const more = ids.length > MOST_NAMED ? ", ..." : "";
  return refused(`${quoted(name)} can be ${ids.slice(0, MOST_NAMED).join(", ")}${more}: write which`);
}
