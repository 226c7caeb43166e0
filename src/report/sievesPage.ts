import { significant } from "../grading/rounding.ts";
import { nominalText } from "../series/apertureText.ts";
import type { ApertureDescription } from "../series/describe.ts";
import type { Standing } from "../series/standing.ts";
import { publication, standardAperture } from "../series/table.ts";
import type { ApertureTolerance } from "../series/tolerance.ts";
import { SIGNS } from "../terminal/signs.ts";
import { inColumns, wrapped } from "./columns.ts";
import { labelled } from "./paragraphs.ts";

/** How well a figure is founded, as a person reads it. */
const STANDING: Readonly<Record<Standing, string>> = {
  seen: "seen",
  memory: "recalled",
  computed: "computed",
  own: "own choice",
};

const LABEL_COLUMNS = 19;
const DIGITS = 3;
const NONE = SIGNS.none;

/** What Y, X and Z bound. */
export const LIMITS_EXPLAINED =
  "Y: the mean aperture lies within nominal +/- Y. X: no aperture is larger than nominal + X. " +
  "Z: at most 6 % of the apertures lie between nominal + Z and nominal + X (older scheme of ISO 3310-1).";

/** What must be done before a sieve is judged by a figure of this page. */
export const COMPARE =
  "Figures told as recalled or computed are for orientation: compare with your copy of the standard before you judge a sieve.";

const lasting = (text: string, width: number): string[] => wrapped(text, width, "  ");

const paragraph = (label: string, text: string, width: number): string[] => labelled(label, LABEL_COLUMNS, text, width);

/**
 * All that is known of one aperture as a page: names, series, wire, aperture limits by formula and by table, each with
 * its standing and publication.
 */
export function sievesPage(description: ApertureDescription, width: number): string {
  const { apertureUm, designations, series, founded, notes } = description;
  const facts = [
    ["designations", designations.length > 0 ? designations.join(", ") : NONE],
    ["series", series.length > 0 ? series.join(", ") : NONE],
    ["wire", wireText(description)],
  ] as const;
  const sources = founded.map(({ figure, standing, source }) => [figure, `${STANDING[standing]}: ${source}`] as const);
  return [
    `sieve with apertures of ${nominalText(apertureUm)}`,
    SIGNS.rule.repeat(width),
    ...facts.flatMap(([label, text]) => paragraph(label, text, width)),
    ...notes.flatMap((note) => lasting(`note: ${note}`, width)),
    ...limitRows(description, width),
    "",
    ...(sources.length > 0 ? ["where the figures come from"] : []),
    ...sources.flatMap(([figure, source]) => paragraph(`  ${figure}`, source, width)),
    ...(sources.length > 0 ? [""] : []),
    ...lasting(COMPARE, width),
    "",
  ].join("\n");
}

function wireText({ apertureUm, wireUm }: ApertureDescription): string {
  if (wireUm === null) return NONE;
  const limits = standardAperture(apertureUm)?.wireLimits;
  const range = limits ? `, allowed ${limits.fromUm} to ${limits.toUm} um (${STANDING[limits.status]})` : "";
  return `${wireUm} um nominal${range}`;
}

interface Limits extends Omit<ApertureTolerance, "intermediateUm"> {
  readonly intermediateUm?: number;
}

function limitRows({ apertureUm, byFormula }: ApertureDescription, width: number): string[] {
  const row = standardAperture(apertureUm);
  const rows = [
    ...(byFormula ? [limitCells("by formula", rounded(byFormula), "computed")] : []),
    ...(row?.tabulated ? [limitCells("by table", row.tabulated, STANDING[row.tabulated.status])] : []),
    ...(row?.recalled ? [limitCells("ASTM E11", row.recalled, STANDING[row.recalled.status])] : []),
  ];
  if (rows.length === 0) return [];
  const heading = ["limits in um", "mean Y", "largest X", "band Z", "standing"];
  const printed = row?.tabulated ? publication(row.tabulated) : undefined;
  return [
    "",
    ...inColumns([heading, ...rows]),
    ...(printed === undefined ? [] : lasting(`table: ${printed}, printed to 10 um`, width)),
    ...lasting(LIMITS_EXPLAINED, width),
  ];
}

const rounded = ({ meanUm, maxUm, intermediateUm }: ApertureTolerance) => ({
  meanUm: Number(significant(meanUm, DIGITS)),
  maxUm: Number(significant(maxUm, DIGITS)),
  intermediateUm: Number(significant(intermediateUm, DIGITS)),
});

const limitCells = (name: string, { meanUm, maxUm, intermediateUm }: Limits, standing: string): string[] => [
  name,
  `+/- ${meanUm}`,
  `+ ${maxUm}`,
  intermediateUm === undefined ? NONE : `+ ${intermediateUm}`,
  standing,
];
