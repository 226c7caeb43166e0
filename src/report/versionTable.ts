import { assessTest } from "../assess/assessTest.ts";
import type { Change } from "../record/amendment.ts";
import type { TestRecord } from "../record/test.ts";
import { SIGNS } from "../terminal/signs.ts";
import { phrase, say } from "../words/say.ts";
import { spoken } from "../words/spoken.ts";
import { apertureText, decimalsOf, massText, NO_FIGURE, pctText, valueText } from "./figures.ts";
import { shownIds, shownValues } from "./shown.ts";
import { PRODUCT_WORDS, TEST_WORDS } from "./verdictWords.ts";

/** One figure of a test through its versions, the original first. */
export interface VersionRow {
  readonly label: string;
  readonly cells: readonly string[];
  /** Whether a version differs here from the one before it. */
  readonly differs: readonly boolean[];
}

/** What can be corrected, in words. */
export const FIELD_WORDS: Readonly<Record<Change["field"], string>> = {
  lot: phrase("lot"),
  line: phrase("line"),
  samplingPoint: phrase("sampling point"),
  chargeG: phrase("charge g"),
  washedG: phrase("dry after washing g"),
  moistG: phrase("moist portion g"),
  dryG: phrase("dry portion g"),
  emptyG: phrase("empty g"),
  fullG: phrase("full g"),
  disposition: phrase("disposition"),
  remark: phrase("remark"),
};

/** A field of a test, with its sieve where it has one: "710 um full g". */
export const fieldText = ({
  field,
  ...of
}: {
  readonly field: Change["field"];
  readonly apertureUm?: number;
}): string =>
  of.apertureUm === undefined
    ? spoken(FIELD_WORDS[field])
    : `${apertureText(of.apertureUm)} ${spoken(FIELD_WORDS[field])}`;

type Read = (test: TestRecord) => string;

const WORDS = ["lot", "line", "samplingPoint"] as const;
const MASSES = ["chargeG", "washedG", "moistG", "dryG"] as const;

const words = (text: string | null): string => (text === null || text === "" ? NO_FIGURE : text);

function massRows({ balance, weighings }: TestRecord): [string, Read][] {
  const shown = (massG: number | null | undefined) => massText(massG ?? null, decimalsOf(balance.readabilityG));
  const sieves = weighings.flatMap(({ apertureUm }) =>
    (["emptyG", "fullG"] as const).map((field): [string, Read] => [
      fieldText({ field, apertureUm }),
      (test) => shown(test.weighings.find((one) => one.apertureUm === apertureUm)?.[field]),
    ]),
  );
  return [...MASSES.map((field): [string, Read] => [fieldText({ field }), (test) => shown(test[field])]), ...sieves];
}

/** The values that the product's people want to see, d50 and the loss among them. */
function figureRows(test: TestRecord): [string, Read][] {
  const product = { ...test.product, show: [...new Set([...shownIds(test.product), "percentileUm@50"])] };
  const assessed = assessTest(test);
  const labels = assessed.ok ? shownValues(assessed.value, product).map(({ label }) => label) : [];
  const values = labels.map((label, i): [string, Read] => [
    spoken(label),
    (version) => {
      const now = assessTest(version);
      return now.ok ? valueText(shownValues(now.value, product)[i]?.found) : NO_FIGURE;
    },
  ]);
  const loss: Read = ({ signed }) => (signed.lossPct === null ? NO_FIGURE : `${pctText(signed.lossPct, 2)} %`);
  return [...values, [say`loss`, loss], ...passingRows(test)];
}

const passingRows = (test: TestRecord): [string, Read][] =>
  test.weighings
    .filter(({ apertureUm }) => apertureUm > 0)
    .map(({ apertureUm }): [string, Read] => [
      say`passing ${apertureText(apertureUm)}`,
      (version) => {
        const assessed = assessTest(version);
        const found = assessed.ok ? assessed.value.fractions.find((f) => f.apertureUm === apertureUm) : undefined;
        return found ? `${pctText(found.passingPct, 2)} %` : NO_FIGURE;
      },
    ]);

const rowsOf = (test: TestRecord): [string, Read][] => [
  ...WORDS.map((field): [string, Read] => [fieldText({ field }), (version) => words(version[field])]),
  ...massRows(test),
  [fieldText({ field: "disposition" }), ({ disposition }) => spoken(words(disposition))],
  [fieldText({ field: "remark" }), ({ remark }) => words(remark)],
  ...figureRows(test),
  [say`test`, ({ signed }) => spoken(TEST_WORDS[signed.test])],
  [say`product`, ({ signed }) => spoken(PRODUCT_WORDS[signed.product])],
];

/**
 * Versions of one test side by side: everything that can be corrected, and the figures and verdicts that follow from it.
 * Verdicts and loss are those that were signed; the other figures are computed. What no version has is left out.
 */
export function versionRows(versions: readonly TestRecord[]): readonly VersionRow[] {
  const [first] = versions;
  if (first === undefined) return [];
  return rowsOf(first)
    .map(([label, read]) => {
      const cells = versions.map(read);
      return { label, cells, differs: cells.map((cell, i) => i > 0 && cell !== cells[i - 1]) };
    })
    .filter(({ cells }) => cells.some((cell) => cell !== NO_FIGURE));
}

/** The rows in which some version differs from the one before it. */
export const differingRows = (versions: readonly TestRecord[]): readonly VersionRow[] =>
  versionRows(versions).filter(({ differs }) => differs.includes(true));

/** What stands before a figure that differs from the version before; seen without colour, too. */
export const DIFFERS = "*";

/** A cell with its mark, so that figures stay in line. */
export const markedCell = ({ cells, differs }: VersionRow, version: number): string =>
  `${differs[version] === true ? DIFFERS : " "} ${cells[version] ?? SIGNS.none}`;
