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
  if (entry.kind === "test") return testWords(entry);
  if (entry.kind === "note") return `note: ${entry.text}`;
  if (entry.kind === "product loaded") return `product loaded: ${entry.code} revision ${entry.revision}`;
  return `balance ${entry.check.balance} checked: ${hasPassed(entry.check) ? "passed" : "FAILED"}`;
}

function testWords({ test }: TestEntry): string {
  const { product, lot, line, signed, disposition } = test;
  const whose = [`${product.code} rev ${product.revision}`, lot === "" ? "" : `lot ${lot}`, line].filter(
    (w) => w !== "",
  );
  const verdict = signed.test === "invalid" ? TEST_WORDS.invalid : PRODUCT_WORDS[signed.product];
  return [...whose, verdict, ...(disposition === null ? [] : [disposition])].join("  ");
}
