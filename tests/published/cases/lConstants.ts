import { type ChartConstants, chartConstants } from "../../../src/control/constants/chartConstants.ts";
import constants from "../examples/l-constants.json" with { type: "json" };
import table from "../examples/l-constants-table.json" with { type: "json" };
import { furthestOff, type PublishedCheck } from "../record.ts";
import integrated from "../reference/fixtures/control.json" with { type: "json" };

const seen = (source: string) => ({ source, status: "seen" }) as const;
const memory = (source: string) => ({ source, status: "memory" }) as const;
const made = (source: string) => ({ source, status: "generated" }) as const;

type Letter = keyof ChartConstants;

const LAST_DIGIT =
  "Off in its last digit: d2 and d3, integrated twice, give another. Old tables were reckoned from rounded d2 and d3.";

/** Figures of the table that are not what d2 and d3 give. */
const OFF: Readonly<Partial<Record<Letter, readonly number[]>>> = { d3: [19], D3: [19, 22, 24], D4: [3, 18, 19, 22] };

function integratedAt(letter: Letter, n: number): number {
  const { d2, d3 } = integrated.rangeMoments.find((one) => one.n === n) ?? { d2: Number.NaN, d3: Number.NaN };
  return letter === "d3" ? d3 : 1 + ((letter === "D3" ? -3 : 3) * d3) / d2;
}

function columnChecks(letter: Letter, figures: readonly number[]): PublishedCheck[] {
  const tolerance = letter === "c4" ? 0.5e-4 : 0.5e-3;
  const rows = table.inputs.n.map((n, i) => ({
    n,
    figure: figures[i] ?? Number.NaN,
    ours: chartConstants(n)[letter],
    off: OFF[letter]?.includes(n) ?? false,
  }));
  const agreeing = rows.filter(({ off }) => !off);
  const told = memory(table.source);
  return [
    furthestOff({
      ...told,
      value: `${letter} for samples of 2 to 25`,
      published: agreeing.map(({ figure }) => figure),
      ours: agreeing.map(({ ours }) => ours),
      tolerance,
    }),
    ...rows
      .filter(({ off }) => off)
      .map(({ n, figure, ours }) => ({
        ...told,
        value: `${letter} for samples of ${n}`,
        published: figure,
        ours,
        tolerance,
        disagreement: { recomputed: integratedAt(letter, n), tolerance: 1e-6, why: LAST_DIGIT },
      })),
  ];
}

function computedConstants(): PublishedCheck[] {
  const { recomputed, expected, source } = constants;
  const sizes = Object.entries(recomputed.constants);
  const letters = ["d2", "d3", "c4", "A2", "D3", "D4", "A3", "B3", "B4"] as const;
  return [
    ...letters.map((letter) =>
      furthestOff({
        ...made("integrated from the range distribution and the gamma function"),
        value: `${letter} for samples of 2, 3, 4, 5, 7, 10`,
        published: sizes.map(([, row]) => row[letter]),
        ours: sizes.map(([n]) => chartConstants(Number(n))[letter]),
        tolerance: 1e-6,
      }),
    ),
    {
      ...seen(source),
      value: "D4 for samples of 5",
      published: expected.D4_n5_nist,
      ours: chartConstants(5).D4,
      tolerance: 0.0005,
      disagreement: {
        recomputed: recomputed.constants["5"].D4,
        tolerance: 1e-6,
        why: "D4 for samples of 5 is 2.11450 to five decimals but 2.114499 to six: 2.115 was rounded twice.",
      },
    },
  ];
}

export const checks: PublishedCheck[] = [
  ...computedConstants(),
  ...(Object.entries(table.expected) as [Letter, number[]][]).flatMap(([letter, figures]) =>
    columnChecks(letter, figures),
  ),
];
