import type { Assessment, JudgedLimit } from "../../assess.ts";
import type { GradedFraction } from "../../grading/grading.ts";
import { atNominal } from "../../report/apertureWords.ts";
import { apertureText, massText, pctText } from "../../report/figures.ts";
import { sureAt, sureText } from "../../report/sureFigures.ts";
import { phrase, say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { cells, type Line, span, unsaid } from "../line.ts";
import { tabled } from "../sentences.ts";
import { limitText, signOf } from "../words.ts";

const COLUMNS = { marker: 2, aperture: 9, net: 9, pct: 11, sure: 16 } as const;
const NARROW = { marker: 2, aperture: 8, net: 8, pct: 10, sure: 15 } as const;
const LIMIT_WORD = { passingPct: "", retainedPct: phrase("ret. "), coarserPct: phrase("coarser ") } as const;
/** Room for what each sieve retains; and for what is coarser, which is 100 % less what passes. */
const [USUAL_COLUMNS, WIDE_COLUMNS] = [76, 96];

type Share = "retainedPct" | "coarserPct" | "passingPct" | "atNominal";

interface Layout {
  readonly at: typeof COLUMNS | typeof NARROW;
  readonly shares: readonly Share[];
}

/** Where the curve is drawn over other apertures, what passes at the nominal one stands beside its limit. */
function layoutOver(columns: number): Layout {
  if (columns < USUAL_COLUMNS) return { at: NARROW, shares: ["atNominal"] };
  const wide = columns >= WIDE_COLUMNS;
  return { at: COLUMNS, shares: [...(wide ? (["retainedPct"] as const) : []), "passingPct", "atNominal"] };
}

function layoutFor(columns: number): Layout {
  if (columns < USUAL_COLUMNS) return { at: NARROW, shares: ["passingPct"] };
  return {
    at: COLUMNS,
    shares: ["retainedPct", ...(columns < WIDE_COLUMNS ? [] : (["coarserPct"] as const)), "passingPct"],
  };
}

const SHARES = {
  retainedPct: phrase("retained %"),
  coarserPct: phrase("coarser %"),
  passingPct: phrase("passing %"),
  atNominal: phrase("at nominal"),
} as const;

const right = (text: string, columns: number, role?: "dim") => ({
  text,
  columns,
  align: "right" as const,
  ...(role ? { role } : {}),
});

const heading = ({ at, shares }: Layout): Line =>
  cells([
    { text: "", columns: at.marker },
    { text: say`aperture`, columns: at.aperture, role: "dim" },
    right(say`net g`, at.net, "dim"),
    ...shares.map((share) => right(spoken(SHARES[share]), at.pct, "dim")),
    right("± (k = 2)", at.sure, "dim"),
    { text: say`  envelope`, columns: 12, role: "dim" },
  ]);

const limitsAt = (limits: readonly JudgedLimit[], apertureUm: number) =>
  limits.filter((l) => l.on.endsWith(`@${apertureUm}`) && !l.on.startsWith("percentileUm"));

function limitCells(limits: readonly JudgedLimit[], apertureUm: number): Line {
  return limitsAt(limits, apertureUm).flatMap((limit) => {
    const word = LIMIT_WORD[limit.on.split("@")[0] as keyof typeof LIMIT_WORD] ?? "";
    return [span(`  ${spoken(word)}${limitText(limit)}`.padEnd(12), "dim"), signOf(limit.result)];
  });
}

const NAMES: Readonly<Record<string, string>> = {
  passingPct: phrase("passing"),
  retainedPct: phrase("retained"),
  coarserPct: phrase("coarser"),
};

/** Limits on apertures that the stack lacks: they stand below the table with the reason. */
function besides(assessment: Assessment): Line[] {
  const stack = new Set(assessment.fractions.map((f) => f.apertureUm));
  return assessment.verdict.limits
    .filter((l) => /^(passing|retained|coarser)Pct@/.test(l.on) && !stack.has(Number(l.on.split("@")[1])))
    .map((l) => {
      const [share = "", at = ""] = l.on.split("@");
      const found = l.value === null ? "" : ` ${pctText(l.value)} %`;
      const name = `${apertureText(Number(at))} ${spoken(NAMES[share] ?? share)}`;
      const head = say`  ${name}${found}  envelope ${limitText(l)}`;
      return [span(head), signOf(l.result), span(l.reason ? `  ${spoken(l.reason)}` : "", "dim")];
    });
}

function shareOf(f: GradedFraction, share: Share, assessment: Assessment): number | null {
  if (share !== "atNominal") return f[share];
  return f.apertureUm === 0 ? 0 : atNominal(assessment, f.apertureUm);
}

function fractionRow(f: GradedFraction, assessment: Assessment, decimals: number, { at, shares }: Layout): Line {
  const sure = f.apertureUm === 0 ? "" : sureText(sureAt(assessment.howSure, f.apertureUm));
  return [
    ...cells([
      { text: "", columns: at.marker },
      { text: apertureText(f.apertureUm), columns: at.aperture },
      right(massText(f.netG, decimals), at.net),
      ...shares.map((share) => right(pctText(shareOf(f, share, assessment), 2), at.pct)),
      right(sure, at.sure),
    ]),
    ...limitCells(assessment.verdict.limits, f.apertureUm),
  ];
}

/** The table of fractions with how sure they are and the envelope beside it, coarsest first, the pan last. */
export function fractionTable(assessment: Assessment, decimals: number, columns: number): Line[] {
  const layout = assessment.apertures === undefined ? layoutFor(columns) : layoutOver(columns);
  const rows = assessment.fractions.map((f) => fractionRow(f, assessment, decimals, layout));
  const head = heading(layout);
  return [unsaid(head), ...rows.map((row) => tabled(head, row)), ...besides(assessment)];
}
