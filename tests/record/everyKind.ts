// One entry of every kind that the log knows, as somebody would have it recorded.
import type { LogEntry, NewEntry } from "../../src/record/logEntry.ts";
import { testEntry } from "../store/records.ts";

const AT = "2026-11-24T08:31:00+01:00";
const SHA = "a".repeat(64);
const of = { testId: "t-1", day: "2026-11-24", number: 1 };
const reason = "mistyped at the balance";
const lot = { product: "TH-0510", lot: "4471-B" };
const head = { number: 1, seal: SHA };
const first = { day: "2026-11-24", number: 1 };

type Told<E> = E extends NewEntry ? Omit<E, "at" | "by"> : never;

const EVERY: readonly Told<NewEntry>[] = [
  { kind: "product loaded", code: "TH-0510", revision: 3, from: "shared/products/TH-0510.json", sha256: SHA },
  {
    kind: "program loaded",
    what: "stack",
    code: "ST-1",
    from: "shared/stacks/ST-1.json",
    sha256: SHA,
    contentSha256: SHA,
  },
  { kind: "note", text: "dryer stood still for ten minutes" },
  { kind: "correction", of, changes: [{ field: "lot", from: "4471-A", to: "4471-B" }], reason, signed: signed() },
  { kind: "voided", of, reason },
  { kind: "reinstated", of, reason },
  { kind: "waived", of, reason },
  {
    kind: "product published",
    code: "TH-0510",
    revision: 4,
    author: "SB",
    effective: "2026-12-01",
    reason,
    sha256: SHA,
  },
  { kind: "sign-on", who: "KO", event: "on" },
  { kind: "operator", who: "ML", name: "M. Lind", event: "added", role: "quality", reason: "" },
  { kind: "station declared", signOn: "required", reason: "" },
  { kind: "finding", found: "the index was missing" },
  { kind: "clock set", from: AT, byS: -3600 },
  { kind: "backup", to: "copies/2026-11-24", files: 12, sha256: SHA },
  { kind: "restored", from: "copies/2026-11-24", sha256: SHA, head, replaced: null },
  { kind: "hold opened", ...lot, line: "Dryer 1", of, owner: "quality", reason },
  { kind: "hold closed", ...lot, hold: first, disposition: "rework", reason },
  { kind: "line adjusted", line: "Dryer 1", what: "speed", detail: "from 40 to 38 Hz" },
  {
    kind: "handover",
    shift: { name: "night", began: "2026-11-23T22:00:00+01:00", ends: "2026-11-24T06:00:00+01:00" },
    head,
    pageSha256: SHA,
    remark: "",
  },
  { kind: "handover taken", handover: first },
  {
    kind: "limits frozen",
    product: "TH-0510",
    line: "Dryer 1",
    on: "percentileUm@50",
    chart: "individuals",
    replicates: 1,
    centre: 742,
    sigma: 12,
    tests: 30,
    first: { testId: "t-1", ...first },
    last: { testId: "t-1", ...first },
    sinceAt: "2026-11-20T08:31:00+01:00",
    leftOut: ["t-7"],
    reason,
  },
  { kind: "care", care: { did: "cleaning", serials: ["S-0710-2"], how: "brush" } },
  { kind: "registered", item: { schema: "sievewright.sieve/1", serial: "S-0500-1", apertureUm: 500 } },
];

function signed() {
  return { program: "0.1.0", test: "valid", product: "pass", lossPct: 0.1 } as const;
}

/** An entry of this kind, which these initials put their name to. */
export function entryOf(kind: LogEntry["kind"], by = "KO", testId = "t-1"): NewEntry {
  if (kind === "test") {
    const entry = testEntry(testId, AT);
    return entry.kind === "test" ? { ...entry, by, test: { ...entry.test, by } } : entry;
  }
  if (kind === "balance check") {
    const readings = [{ weight: "W500", nominalG: 500, toleranceG: 0.03, readG: 500.01 }];
    return { kind, at: AT, by, check: { at: AT, balance: "B1", by, readings } };
  }
  if (kind === "test ended") {
    const { disposition: _d, finishedAt: _f, by: _b, signed: _s, ...test } = draftOf(testId);
    return { kind, at: AT, by, stage: "weigh full", test: { ...test, disposition: null }, reason: "spilled" };
  }
  const told = EVERY.find((entry) => entry.kind === kind);
  if (told === undefined) throw new Error(`tests/record/everyKind.ts has no example of "${kind}": add one`);
  return { ...told, at: AT, by } as NewEntry;
}

function draftOf(testId: string) {
  const entry = testEntry(testId, AT);
  if (entry.kind !== "test") throw new Error("a test entry is of kind test");
  return entry.test;
}
