import { type Matter, MatterSchema, type MattersSeen } from "../record/indexRow.ts";

/** The matters of a station that are still of use, by their number, and how much of each month's is in them. */
export interface Matters {
  readonly matters: Map<number, Matter>;
  readonly seen: Map<string, MattersSeen>;
}

const MATTER_KINDS: ReadonlySet<string> = new Set(MatterSchema.options.map(({ shape }) => shape.kind.value));
export const isMatter = (entry: { readonly kind: string }): entry is Matter => MATTER_KINDS.has(entry.kind);

export const mattersInOrder = (matters: ReadonlyMap<number, Matter>): Matter[] =>
  [...matters.values()].sort((a, b) => a.number - b.number);

const NONE_SEEN: MattersSeen = { count: 0, last: 0 };

/**
 * Takes in what a month has gained. A hold and its closing both go when they meet, in whichever order; control limits stay.
 * Answers "otherwise" where the month no longer holds what was taken from it before: then all months must be taken again.
 */
export function takeMatters(
  { matters, seen }: Matters,
  month: string,
  its: readonly Matter[],
): "as before" | "taken" | "otherwise" {
  const before = seen.get(month) ?? NONE_SEEN;
  if ((its[before.count - 1]?.number ?? 0) !== before.last) return "otherwise";
  if (its.length === before.count) return "as before";
  for (const matter of its.slice(before.count)) takeMatter(matters, matter);
  seen.set(month, { count: its.length, last: its.at(-1)?.number ?? 0 });
  return "taken";
}

function takeMatter(matters: Map<number, Matter>, matter: Matter): void {
  const other = matter.kind === "limits frozen" ? undefined : otherHalf(matters, matter);
  if (other === undefined) matters.set(matter.number, matter);
  else matters.delete(other.number);
}

function otherHalf(
  matters: ReadonlyMap<number, Matter>,
  matter: Exclude<Matter, { kind: "limits frozen" }>,
): Matter | undefined {
  if (matter.kind === "hold closed") {
    const opened = matters.get(matter.hold.number);
    return opened?.kind === "hold opened" ? opened : undefined;
  }
  return [...matters.values()].find((one) => one.kind === "hold closed" && one.hold.number === matter.number);
}
