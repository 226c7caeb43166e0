import { columnsOf, pad } from "../terminal/sanitise.ts";

/** Cells in columns as wide as their widest cell: the first and the last column to the left, the others to the right. */
export function inColumns(rows: readonly (readonly string[])[], gap = 2): string[] {
  const width = (column: number) => Math.max(0, ...rows.map((row) => columnsOf(row[column] ?? "")));
  const widths = (rows[0] ?? []).map((_, column) => width(column));
  return rows.map((row) =>
    row
      .map((cell, i) => pad(cell, widths[i] ?? 0, i === 0 || i === row.length - 1 ? "left" : "right"))
      .join(" ".repeat(gap))
      .trimEnd(),
  );
}

/** Words in lines of at most `width` columns; lines after the first are indented. A longer word has a line to itself. */
export function wrapped(text: string, width: number, indent = ""): string[] {
  const lines: string[] = [];
  for (const word of text.split(" ")) {
    const last = lines.at(-1);
    if (last !== undefined && columnsOf(last) + 1 + columnsOf(word) <= width)
      lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(last === undefined ? word : indent + word);
  }
  return lines;
}
