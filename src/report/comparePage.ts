import type { ApertureCompared, StacksCompared } from "../care/comparison/compareStacks.ts";
import { roundHalfAway } from "../grading/rounding.ts";
import type { Determination } from "../record/determination.ts";
import { apertureText } from "../series/apertureText.ts";
import { drawable } from "../terminal/sanitise.ts";
import { SIGNS } from "../terminal/signs.ts";
import { inColumns, wrapped } from "./columns.ts";
import { NO_FIGURE } from "./figures.ts";
import { indented } from "./paragraphs.ts";

/** One portion on both stacks, by the names of its runs. */
export interface PairNamed {
  readonly working: string;
  readonly master: string;
}

export interface CompareHead {
  readonly pairs: readonly PairNamed[];
  /** The difference asked about, in % passing. */
  readonly differencePct: number;
  /** What else there is to say of the runs. */
  readonly notes: readonly string[];
}

const signed = (pct: number | null): string =>
  pct === null ? NO_FIGURE : `${pct < 0 ? "" : "+"}${roundHalfAway(pct, 2)}`;

const plain = (found: Determination, decimals: number): string =>
  found.determinable ? roundHalfAway(found.value, decimals) : NO_FIGURE;

function judged({ biased, tooFew }: Pick<ApertureCompared, "biased" | "tooFew">): string {
  if (biased) return `BIASED ${SIGNS.fail}`;
  return tooFew ? "too few pairs ?" : `no bias shown ${SIGNS.pass}`;
}

/** The same for all apertures: what could not be seen is not called absent. */
function judgedAll(compared: StacksCompared, differencePct: number): string {
  if (!compared.tooFew) return judged(compared);
  return `too few pairs to tell ?  (${differencePct} % could hide at one aperture or more)`;
}

const cells = (one: ApertureCompared): string[] => [
  `  ${apertureText(one.apertureUm)}`,
  `${one.pairs}`,
  signed(one.meanPct),
  signed(one.fromPct),
  signed(one.toPct),
  plain(one.smallestSeenPct, 2),
  plain(one.pairsToSee, 0),
  judged(one),
];

/** Why no number of pairs is named, once for all apertures that have the reason in common. */
const reasons = ({ apertures }: StacksCompared): string[] => [
  ...new Set(apertures.flatMap(({ pairsToSee }) => (pairsToSee.determinable ? [] : [pairsToSee.reason]))),
];

/** A working stack against a master stack, or two stations on split samples, as a page. */
export function comparePage(compared: StacksCompared, head: CompareHead, width: number): string {
  const { pairs, differencePct, notes } = head;
  const heading = [
    "  aperture",
    "pairs",
    "mean",
    "from",
    "to",
    "visible",
    `n for ${differencePct} %`,
    "  in % passing",
  ];
  const lines = [
    ...wrapped(`working stack against master stack: ${judgedAll(compared, differencePct)}`, width, "  "),
    ...pairs.flatMap(({ working, master }) => indented(`${working} against ${master}`, width)),
    "",
    ...inColumns([heading, ...compared.apertures.map(cells)]),
    "",
    ...[...reasons(compared), ...compared.notes].flatMap((text) => indented(text, width)),
    ...notes.flatMap((text) => indented(`! ${text}`, width)),
    ...indented(
      "the same portion on both stacks, or halves of one split sample: otherwise the samples are compared",
      width,
    ),
  ];
  return `${lines.map((row) => drawable(row).trimEnd()).join("\n")}\n`;
}
