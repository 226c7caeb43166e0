import type { ApertureLimit } from "../../record/product.ts";
import { apertureText } from "../../series/apertureText.ts";
import { type Bounds, boundsChange, boundsWords } from "./bounds.ts";
import { type Change, type Compare, change } from "./change.ts";
import { decisionChange } from "./decisionText.ts";
import { inOtherOrder, keyed } from "./lists.ts";

const pct = (bound: number): string => `${bound} %`;

const boundsOf = (limit: ApertureLimit): Bounds =>
  "passingPct" in limit ? limit.passingPct : "retainedPct" in limit ? limit.retainedPct : limit.coarserPct;

function nameOf(limit: ApertureLimit): string {
  const size = apertureText(limit.apertureUm);
  if ("passingPct" in limit) return `passing at ${size}`;
  return "retainedPct" in limit ? `retained on ${size}` : `coarser than ${size}`;
}

function words(before: ApertureLimit | undefined, after: ApertureLimit | undefined): string | null {
  if (before === undefined)
    return after === undefined ? null : `${nameOf(after)}: limit added, ${boundsWords(boundsOf(after), pct)}`;
  if (after === undefined) return `${nameOf(before)}: limit removed (${boundsWords(boundsOf(before), pct)})`;
  const bounds = boundsChange(boundsOf(before), boundsOf(after), pct);
  const changed = [...(bounds === "" ? [] : [bounds]), ...decisionChange(before.decision, after.decision)];
  return changed.length === 0 ? null : `${nameOf(after)}: ${changed.join("; ")}`;
}

/** Limits on apertures, coarsest first; each is known by what it limits and where, not by its place in the file. */
export const apertureChanges: Compare = (before, after) => {
  const [old, now] = [keyed(before.envelope ?? [], nameOf), keyed(after.envelope ?? [], nameOf)];
  const sizeOf = (key: string): number => (now.get(key) ?? old.get(key))?.apertureUm ?? 0;
  const keys = [...new Set([...old.keys(), ...now.keys()])].sort((a, b) => sizeOf(b) - sizeOf(a));
  const changes = keys.flatMap((key): Change[] => {
    const told = words(old.get(key), now.get(key));
    return told === null ? [] : [change("envelope", told)];
  });
  return [...changes, ...inOtherOrder("envelope", "envelope", old, now)];
};
