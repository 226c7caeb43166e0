import type { Reasoned, ReasonPlace } from "../place.ts";

/** Into the place that asks why. */
export const reasoning = (what: Reasoned): ReasonPlace => ({
  name: "reason",
  what,
  field: "reason",
  reason: "",
  typed: "",
});
