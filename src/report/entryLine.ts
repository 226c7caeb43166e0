import { hasPassed } from "../procedure/balance/balanceState.ts";
import type { LogEntry, TestEntry } from "../record/logEntry.ts";
import { SAME_HANDS, sameHands } from "../record/productDraft.ts";
import { drawable } from "../terminal/sanitise.ts";
import { say } from "../words/say.ts";
import { spoken } from "../words/spoken.ts";
import { careWords, registeredWords } from "./careWords.ts";
import { retestWords } from "./retestWords.ts";
import { PRODUCT_WORDS, TEST_WORDS } from "./verdictWords.ts";
import { fieldText } from "./versionTable.ts";

/** One entry of the log on one line: its number, when, what, whose, by whom. */
export function entryLine(entry: LogEntry): string {
  const when = entry.at.slice(0, 16).replace("T", " ");
  return drawable(`#${entry.number}  ${when}  ${entryWords(entry)}  by ${entry.by}`);
}

/** What an entry says, without its number, time and author. */
export function entryWords(entry: LogEntry): string {
  switch (entry.kind) {
    case "test":
      return testWords(entry);
    case "note":
      return `note: ${entry.text}`;
    case "product loaded":
      return `product loaded: ${entry.code} revision ${entry.revision}`;
    case "program loaded":
      return `${entry.what} loaded: ${entry.code}`;
    case "product published":
      return publishedWords(entry);
    case "balance check":
      return `balance ${entry.check.balance} checked: ${hasPassed(entry.check) ? "passed" : "FAILED"}`;
    case "correction":
      return say`no. ${entry.of.number} corrected: ${entry.changes.map(fieldText).join(", ")} (${entry.reason})`;
    case "voided":
    case "reinstated":
    case "waived":
      return say`no. ${entry.of.number} ${spoken(entry.kind)} (${entry.reason})`;
    case "test ended":
      return `test of ${entry.test.product.code} lot ${entry.test.lot} ended without a result (${entry.reason})`;
    case "hold opened":
    case "hold closed":
    case "line adjusted":
    case "handover":
    case "handover taken":
    case "limits frozen":
      return shiftWords(entry);
    case "care":
      return careWords(entry);
    case "registered":
      return registeredWords(entry);
    default:
      return stationWords(entry);
  }
}

function shiftWords(entry: ShiftEntry): string {
  switch (entry.kind) {
    case "hold opened":
      return `hold on ${entry.product} lot ${entry.lot} for ${entry.owner} (${entry.reason})`;
    case "hold closed":
      return `hold no. ${entry.hold.number} on ${entry.product} lot ${entry.lot} closed: ${closedWords(entry)}`;
    case "line adjusted":
      return [`${entry.line}: ${entry.what}`, entry.product, entry.lot, entry.detail].filter(Boolean).join(" ");
    case "handover":
      return `${entry.shift.name} shift of ${entry.shift.began.slice(0, 16).replace("T", " ")} handed over`;
    case "handover taken":
      return `handover no. ${entry.handover.number} taken`;
    case "limits frozen":
      return `control limits of ${entry.product} ${entry.on} on ${entry.line} set from ${entry.tests} tests (${entry.reason})`;
  }
}

/** What became of a lot whose hold was closed, what stood against it, and why. */
export const closedWords = ({ disposition, despite, reason }: ShiftEntryOf<"hold closed">): string =>
  [spoken(disposition), ...(despite === undefined ? [] : [say`although ${spoken(despite)}`]), `(${reason})`].join(" ");

type ShiftEntryOf<Kind extends ShiftEntry["kind"]> = Extract<ShiftEntry, { kind: Kind }>;

/** What happens on a shift besides tests. */
type ShiftEntry = Extract<
  LogEntry,
  { kind: "hold opened" | "hold closed" | "line adjusted" | "handover" | "handover taken" | "limits frozen" }
>;

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
      return `clock set ${entry.byS < 0 ? "back" : "forward"} by ${spanText(Math.abs(entry.byS))}, from ${entry.from.slice(0, 16).replace("T", " ")}`;
    case "backup":
      return `backup of ${entry.files} files to ${entry.to}`;
    case "restored":
      return `restored from ${entry.from}`;
  }
}

const SPANS = [
  ["d", 86_400],
  ["h", 3_600],
  ["min", 60],
  ["s", 1],
] as const;

/** A span of time by its two largest units: "30 d 1 h". */
function spanText(seconds: number): string {
  const whole = Math.round(seconds);
  const from = Math.max(
    0,
    SPANS.findIndex(([, unitS]) => whole >= unitS),
  );
  let left = whole;
  const parts = SPANS.slice(from, from + 2).map(([unit, unitS]) => {
    const count = Math.floor(left / unitS);
    left -= count * unitS;
    return count === 0 && from < 3 ? "" : `${count} ${unit}`;
  });
  return parts.filter((part) => part !== "").join(" ");
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

function publishedWords(entry: Extract<LogEntry, { kind: "product published" }>): string {
  const { code, revision, effective, author, by, reason } = entry;
  const since = effective === null ? "" : `, in force from ${effective}`;
  const hands = sameHands({ author, approvedBy: by }) ? SAME_HANDS : `written by ${author}`;
  return `product published: ${code} revision ${revision}${since}, ${hands} (${reason})`;
}

function testWords({ test }: TestEntry): string {
  const { product, lot, line, signed, disposition, retest: repeated } = test;
  const whose = [`${product.code} rev ${product.revision}`, lot === "" ? "" : `lot ${lot}`, line].filter(
    (w) => w !== "",
  );
  const verdict = signed.test === "invalid" ? TEST_WORDS.invalid : PRODUCT_WORDS[signed.product];
  const retest = retestWords({ retest: repeated });
  return [...whose, verdict, disposition ?? "", retest].filter((word) => word !== "").join("  ");
}
