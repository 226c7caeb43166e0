import { apertureText } from "../../series/apertureText.ts";
import { type Change, type Compare, change } from "./change.ts";

/** The items of a list by their names; a second one of a name gets a name of its own. */
export function keyed<T>(items: readonly T[], nameOf: (item: T) => string): Map<string, T> {
  const byName = new Map<string, T>();
  for (const item of items) {
    const name = nameOf(item);
    let free = name;
    for (let again = 2; byName.has(free); again++) free = `${name} (${again})`;
    byName.set(free, item);
  }
  return byName;
}

/** Where nothing but the order of what stayed is another. */
export function inOtherOrder(
  field: string,
  label: string,
  old: ReadonlyMap<string, unknown>,
  now: ReadonlyMap<string, unknown>,
): Change[] {
  const stayed = [...old.keys()].filter((key) => now.has(key));
  const order = [...now.keys()].filter((key) => old.has(key));
  return stayed.every((key, i) => key === order[i]) ? [] : [change(field, `${label}: in another order`)];
}

/** Sieves that came to the stack or left it, coarsest first. */
export const stackChanges: Compare = (before, after) => {
  const [old, now] = [keyed(before.stackUm, apertureText), keyed(after.stackUm, apertureText)];
  const missing = (from: ReadonlyMap<string, number>, other: ReadonlyMap<string, number>): readonly string[] =>
    [...from]
      .filter(([name]) => !other.has(name))
      .sort(([, a], [, b]) => b - a)
      .map(([name]) => name);
  return [
    ...missing(now, old).map((name) => change("stackUm", `stack: ${name} added`)),
    ...missing(old, now).map((name) => change("stackUm", `stack: ${name} removed`)),
    ...inOtherOrder("stackUm", "stack", old, now),
  ];
};
