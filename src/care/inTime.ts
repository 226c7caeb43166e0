/**
 * Things with a moment in the order of time; moments are compared as instants, whatever their offsets. What is in
 * order already is given back as it is.
 *
 * @example inTime([{ at: "2026-11-24T09:30:00Z" }, { at: "2026-11-24T10:00:00+01:00" }])[0].at // => "2026-11-24T10:00:00+01:00"
 */
export function inTime<T extends { readonly at: string }>(things: readonly T[]): readonly T[] {
  const timed = things.map((thing) => ({ thing, ms: Date.parse(thing.at) }));
  const sorted = timed.every((one, i) => i === 0 || (timed[i - 1]?.ms ?? 0) <= one.ms);
  return sorted ? things : timed.toSorted((a, b) => a.ms - b.ms).map(({ thing }) => thing);
}
