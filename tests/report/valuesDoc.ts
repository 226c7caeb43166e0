import { CHARACTERISTIC_VALUES, type CharacteristicValue } from "../../src/grading/values/table.ts";

const HEAD = `# Characteristic values

Made by \`npm run docs:values\` from the program's own table of values; a test fails if this page is stale.
\`sievewright help NAME\` and the value page on screen say the same. "memory" after a source: recalled, not seen; check
it before quoting.
`;

const unitWords = (unit: string): string => (unit === "1" ? "a pure number" : unit);

const section = (row: CharacteristicValue): string => `
## ${row.label}

- **id**: \`${row.id}\`
- **unit**: ${unitWords(row.unit)}
- **formula**: ${row.formula}
- **convention**: ${row.convention}
- **needs**: ${row.needs}
- **source**: ${row.source}
`;

/** The page `docs/values.md`: every characteristic value in the order of the table. */
export const valuesDoc = (): string => `${HEAD}${CHARACTERISTIC_VALUES.map(section).join("")}`;
