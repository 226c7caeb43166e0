import type { Head, LogEntry } from "../record/logEntry.ts";
import { sealOf, shortSeal } from "../record/seal.ts";
import type { Weighing } from "../record/test.ts";
import { drawable } from "../terminal/sanitise.ts";
import { SIGNS } from "../terminal/signs.ts";
import { momentText } from "../words/figures.ts";
import { inColumns, wrapped } from "./columns.ts";
import { apertureText, decimalsOf, massText, NO_FIGURE } from "./figures.ts";
import { signedWords } from "./signOnWords.ts";
import { trailLine } from "./trailWords.ts";

export interface EndedLook {
  readonly width: number;
  readonly printed: string;
  readonly head: Pick<Head, "number" | "seal">;
}

type EndedEntry = Extract<LogEntry, { kind: "test ended" }>;

/** A test that was ended without a result, for an auditor: why and by whom, all that had been entered, the seal. */
export function endedPage(entry: EndedEntry, { width, printed, head }: EndedLook): string {
  const parts = [
    heading(entry).flatMap((text) => wrapped(text, width, "  ")),
    [SIGNS.rule.repeat(width), ...entered(entry).flatMap((text) => wrapped(text, width, "  "))],
    ["weighings so far (g)", ...weighings(entry)],
    ["every accepted entry", ...trail(entry).flatMap((text) => wrapped(text, width, "    "))],
    seals(entry, head, printed).flatMap((text) => wrapped(text, width, "  ")),
  ];
  return `${parts.map((part) => part.map(drawable).join("\n")).join("\n\n")}\n`;
}

const heading = (entry: EndedEntry): string[] => [
  `TEST ENDED WITHOUT A RESULT no. ${entry.number}   station ${entry.station}`,
  `set out ${momentText(entry.test.startedAt)}, ended ${momentText(entry.at)} at "${entry.stage}", production day ${entry.day}, ${signedWords(entry)}`,
  `reason: ${entry.reason}`,
];

const orNone = (words: string): string => (words === "" ? NO_FIGURE : words);

function entered({ test }: EndedEntry): string[] {
  const decimals = decimalsOf(test.balance.readabilityG);
  return [
    `test ${test.testId}   product ${test.product.code} revision ${test.product.revision}`,
    `lot ${orNone(test.lot)}   line ${orNone(test.line)}   sampling point ${orNone(test.samplingPoint)}`,
    `charge ${massText(test.chargeG, decimals)} g   balance ${test.balance.id}, ${test.balance.readabilityG} g   shaker program ${test.program?.code ?? NO_FIGURE}`,
    ...(test.remark === "" ? [] : [`remark: ${test.remark}`]),
  ];
}

function weighings({ test }: EndedEntry): string[] {
  const decimals = decimalsOf(test.balance.readabilityG);
  const earlier = ({ earlierFullG = [] }: Weighing) => earlierFullG.map((g) => massText(g, decimals)).join(" ");
  const rows = test.weighings.map((one) => [
    one.apertureUm === 0 ? "  pan" : `  ${apertureText(one.apertureUm)}`,
    massText(one.emptyG, decimals),
    massText(one.fullG, decimals),
    earlier(one) === "" ? "" : `portions before: ${earlier(one)}`,
  ]);
  return inColumns([["  sieve", "empty", "full", ""], ...rows]);
}

const trail = ({ test }: EndedEntry): string[] =>
  test.trail.length === 0 ? ["  none"] : test.trail.map((item) => `  ${trailLine(item)}`);

const seals = (entry: EndedEntry, head: EndedLook["head"], printed: string): string[] => [
  `seal  no. ${entry.number}: ${shortSeal(sealOf(entry))}`,
  `end of the log: entry ${head.number}, ${shortSeal(head.seal)}`,
  printed,
  ...(entry.signedOn === true ? [] : ["initials without a PIN are what somebody typed; nothing proves whose they are"]),
];
