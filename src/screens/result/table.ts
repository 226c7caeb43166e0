import type { Assessment, JudgedLimit } from "../../assess.ts";
import { apertureText, massText, pctText } from "../../report/figures.ts";
import { cells, type Line, span } from "../line.ts";
import { tabled } from "../sentences.ts";
import { limitText, signOf } from "../words.ts";

const COLUMNS = { marker: 2, aperture: 9, net: 10, pct: 11 } as const;
const LIMIT_WORD = { passingPct: "", retainedPct: "ret. ", coarserPct: "coarser " } as const;

const HEADING: Line = cells([
  { text: "", columns: COLUMNS.marker },
  { text: "aperture", columns: COLUMNS.aperture, role: "dim" },
  { text: "net g", columns: COLUMNS.net, align: "right", role: "dim" },
  { text: "retained %", columns: COLUMNS.pct, align: "right", role: "dim" },
  { text: "coarser %", columns: COLUMNS.pct, align: "right", role: "dim" },
  { text: "passing %", columns: COLUMNS.pct, align: "right", role: "dim" },
  { text: "  envelope", columns: 12, role: "dim" },
]);

const limitsAt = (limits: readonly JudgedLimit[], apertureUm: number) =>
  limits.filter((l) => l.on.endsWith(`@${apertureUm}`) && !l.on.startsWith("percentileUm"));

function limitCells(limits: readonly JudgedLimit[], apertureUm: number): Line {
  return limitsAt(limits, apertureUm).flatMap((limit) => {
    const word = LIMIT_WORD[limit.on.split("@")[0] as keyof typeof LIMIT_WORD] ?? "";
    return [span(`  ${word}${limitText(limit)}`.padEnd(12), "dim"), signOf(limit.result)];
  });
}

/** Limits on apertures that the stack lacks: they stand below the table with the reason. */
function besides(assessment: Assessment): Line[] {
  const stack = new Set(assessment.fractions.map((f) => f.apertureUm));
  return assessment.verdict.limits
    .filter((l) => /^(passing|retained|coarser)Pct@/.test(l.on) && !stack.has(Number(l.on.split("@")[1])))
    .map((l) => {
      const [share = "", at = ""] = l.on.split("@");
      const found = l.value === null ? "" : ` ${pctText(l.value)} %`;
      const head = `  ${apertureText(Number(at))} ${share.replace("Pct", "")}${found}  envelope ${limitText(l)}`;
      return [span(head), signOf(l.result), span(l.reason ? `  ${l.reason}` : "", "dim")];
    });
}

/** The table of fractions with the envelope beside it, coarsest first, the pan last. */
export function fractionTable(assessment: Assessment, decimals: number): Line[] {
  const rows = assessment.fractions.map(
    (f): Line => [
      ...cells([
        { text: "", columns: COLUMNS.marker },
        { text: apertureText(f.apertureUm), columns: COLUMNS.aperture },
        { text: massText(f.netG, decimals), columns: COLUMNS.net, align: "right" },
        { text: pctText(f.retainedPct, 2), columns: COLUMNS.pct, align: "right" },
        { text: pctText(f.coarserPct, 2), columns: COLUMNS.pct, align: "right" },
        { text: pctText(f.passingPct, 2), columns: COLUMNS.pct, align: "right" },
      ]),
      ...limitCells(assessment.verdict.limits, f.apertureUm),
    ],
  );
  return [HEADING, ...rows.map((row) => tabled(HEADING, row)), ...besides(assessment)];
}
