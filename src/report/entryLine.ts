import { hasPassed } from "../procedure/balance/balanceState.ts";
import type { LogEntry, TestEntry } from "../record/logEntry.ts";
import { drawable } from "../terminal/sanitise.ts";
import { PRODUCT_WORDS, TEST_WORDS } from "./verdictWords.ts";

/** One entry of the log on one line: its number, when, what, whose, by whom. */
export function entryLine(entry: LogEntry): string {
  const when = entry.at.slice(0, 16).replace("T", " ");
  return drawable(`#${entry.number}  ${when}  ${what(entry)}  by ${entry.by}`);
}

function what(entry: LogEntry): string {
  switch (entry.kind) {
    case "test":
      return testWords(entry);
    case "note":
      return `note: ${entry.text}`;
    case "product loaded":
      return `product loaded: ${entry.code} revision ${entry.revision}`;
    case "product published":
      return `product published: ${entry.code} revision ${entry.revision}, written by ${entry.author} (${entry.reason})`;
    case "balance check":
      return `balance ${entry.check.balance} checked: ${hasPassed(entry.check) ? "passed" : "FAILED"}`;
    case "correction":
      return `no. ${entry.of.number} corrected: ${entry.changes.map(({ field }) => field).join(", ")} (${entry.reason})`;
    case "voided":
    case "reinstated":
    case "waived":
      return `no. ${entry.of.number} ${entry.kind} (${entry.reason})`;
    case "test ended":
      return `test of ${entry.test.product.code} lot ${entry.test.lot} ended without a result (${entry.reason})`;
    default:
      return stationWords(entry);
  }
}

function stationWords(entry: StationEntry): string {
  switch (entry.kind) {
    case "sign-on":
      return `${entry.who} ${SIGN_ON_WORDS[entry.event]}`;
    case "operator":
      return `operator ${entry.who}, ${entry.role}: ${entry.event}`;
    case "station declared":
      return entry.signOn === "required" ? "sign-on is required" : "sign-on is not required";
    case "finding":
      return `found: ${entry.found}`;
    case "clock set":
      return `clock set by ${entry.byS} s, from ${entry.from}`;
    case "backup":
      return `backup of ${entry.files} files to ${entry.to}`;
    case "restored":
      return `restored from ${entry.from}`;
  }
}

/** What concerns the station itself. */
type StationEntry = Extract<
  LogEntry,
  { kind: "sign-on" | "operator" | "station declared" | "finding" | "clock set" | "backup" | "restored" }
>;

const SIGN_ON_WORDS = {
  on: "signed on",
  off: "signed off",
  idle: "signed off by the clock",
  "kept out": "kept out after wrong PINs",
} as const;

function testWords({ test }: TestEntry): string {
  const { product, lot, line, signed, disposition } = test;
  const whose = [`${product.code} rev ${product.revision}`, lot === "" ? "" : `lot ${lot}`, line].filter(
    (w) => w !== "",
  );
  const verdict = signed.test === "invalid" ? TEST_WORDS.invalid : PRODUCT_WORDS[signed.product];
  return [...whose, verdict, ...(disposition === null ? [] : [disposition])].join("  ");
}
