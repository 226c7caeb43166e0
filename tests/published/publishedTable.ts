import type { PublishedCheck } from "./record.ts";

const HEAD = `# Figures from outside, checked

Made by \`npm run docs:published\` from \`tests/published/cases\`; a test fails if this page is stale. Each row compares
a figure that was published, or generated with other software, with what Sievewright computes from the same input.

- **seen**: inputs or figures were read in a copy of the source; **memory**: recalled, not seen, verify before quoting;
  **generated**: no published figure, made with a formula or another library.
- Allowed is half a step of the last printed digit. Where a published figure is not what its own input gives, the
  difference is larger; a number in brackets points to the reason below the table.

| value | source | status | published | ours | difference |
| --- | --- | --- | ---: | ---: | ---: |
`;

const shown = (figure: number): string => String(Number(figure.toPrecision(8)));

/** The difference with two digits; what is below the last digits of a double counts as none. */
function differenceOf({ published, ours }: PublishedCheck): string {
  const difference = ours - published;
  const none = Math.abs(difference) < 1e-11 * Math.max(1, Math.abs(published));
  return none ? "0" : String(Number(difference.toPrecision(2)));
}

/** The page `docs/published-checks.md` for these checks, in their order. */
export function publishedTable(checks: readonly PublishedCheck[]): string {
  const reasons = [...new Set(checks.flatMap(({ disagreement }) => (disagreement ? [disagreement.why] : [])))];
  const rows = checks.map((check) => {
    const { value, source, status, published, ours, disagreement } = check;
    const mark = disagreement ? ` (${reasons.indexOf(disagreement.why) + 1})` : "";
    return `| ${value} | ${source} | ${status} | ${published} | ${shown(ours)} | ${differenceOf(check)}${mark} |\n`;
  });
  return `${HEAD}${rows.join("")}\n${reasons.map((why, i) => `${i + 1}. ${why}\n`).join("")}`;
}
