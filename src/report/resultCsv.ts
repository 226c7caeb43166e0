import { stringify } from "csv-stringify/sync";
import type { Assessment } from "../assess.ts";
import { atNominal } from "./apertureWords.ts";
import { bandOf } from "./sureFigures.ts";

/** Whose result it is; repeated on every row, so that many results can be stacked in one table. */
export interface ResultOf {
  readonly product: string;
  readonly lot: string;
  readonly line: string;
}

const COLUMNS = [
  "aperture_um",
  "empty_g",
  "full_g",
  "net_g",
  "retained_pct",
  "coarser_pct",
  "passing_pct",
  "product",
  "lot",
  "line",
  "passing_low_pct",
  "passing_high_pct",
] as const;

/** Only where the curve is drawn over other apertures than nominal ones. */
const OVER_COLUMNS = ["mean_um", "at_nominal_pct"] as const;

/**
 * The fractions as CSV (RFC 4180, CRLF): one row a sieve, coarsest first, the pan last by its word. Masses in g, numbers
 * unrounded with a point, what was not weighed is an empty cell. A text that a spreadsheet would take for a formula gets
 * an apostrophe before it. The last two columns are the ends of the interval (k = 2) of what passes, empty where unknown.
 * Where the curve is drawn over certified or effective apertures, that interval is of what passes at the nominal one, and two
 * columns more have each sieve's mean aperture and what passes at its nominal one.
 */
export function resultCsv(assessment: Assessment, { product, lot, line }: ResultOf): string {
  const { fractions, howSure, apertures } = assessment;
  const texts = [product, lot, line].map(defused);
  const bands = bandOf(howSure);
  const rows = fractions.map((f) => {
    const masses = [f.emptyG, f.fullG, f.netG];
    const shares = [f.retainedPct, f.coarserPct, f.passingPct];
    const band = bands.find(({ apertureUm }) => apertureUm === f.apertureUm);
    const ends = [band?.lowPct ?? null, band?.highPct ?? null];
    const over = apertures === undefined ? [] : [f.meanUm ?? null, atNominal(assessment, f.apertureUm)];
    return [f.apertureUm === 0 ? "pan" : f.apertureUm, ...masses, ...shares, ...texts, ...ends, ...over];
  });
  const heading = apertures === undefined ? [...COLUMNS] : [...COLUMNS, ...OVER_COLUMNS];
  return stringify([heading, ...rows], { record_delimiter: "windows" });
}

/** Spreadsheets run a cell that begins with one of these, also after white space; some drop a tab or line end before it. */
const RUNS = /^(?:[\t\r\n]|\s*[=+\-@|%＝＋－＠])/;
/** A text as a spreadsheet shows it and does not run it. */
export const defused = (text: string): string => (RUNS.test(text) ? `'${text}` : text);
