/** A label under a column. `unit` is added to the last one shown of those that share it. */
export interface ColumnLabel {
  readonly column: number;
  readonly label: string;
  readonly unit?: string;
}

export interface PlacedLabel {
  readonly column: number;
  readonly text: string;
}

/** The ends first, then the middle, then the middles of the halves: what is shown of many is spread evenly. */
function spreadOrder(count: number): number[] {
  const order = count > 0 ? [count - 1, 0] : [];
  const gaps: [number, number][] = [[0, count - 1]];
  for (let gap = gaps.shift(); gap; gap = gaps.shift()) {
    const [from, to] = gap;
    const middle = Math.round((from + to) / 2);
    if (middle <= from || middle >= to) continue;
    order.push(middle);
    gaps.push([from, middle], [middle, to]);
  }
  return order;
}

/** Texts of the chosen labels, each number centred under its column, its unit behind it, all within 0 to `width`. */
function place(chosen: readonly ColumnLabel[], width: number): PlacedLabel[] {
  return chosen.map(({ column, label, unit }, i) => {
    const text = unit !== undefined && chosen[i + 1]?.unit !== unit ? `${label} ${unit}` : label;
    const centred = column - Math.floor((label.length - 1) / 2);
    return { column: Math.max(0, Math.min(centred, width - text.length)), text };
  });
}

const haveRoom = (placed: readonly PlacedLabel[], width: number): boolean =>
  placed.every(({ column, text }, i) => {
    const end = placed[i + 1] === undefined ? width : (placed[i + 1]?.column ?? 0) - 1;
    return column + text.length <= end;
  });

/**
 * As many labels as fit in one row of `width` columns with a space between each two: the ends before the middle.
 * `labels` are in order of their columns.
 */
export function fitLabels(labels: readonly ColumnLabel[], width: number): PlacedLabel[] {
  let chosen: readonly ColumnLabel[] = [];
  for (const i of new Set(spreadOrder(labels.length))) {
    const more = labels.filter((label, j) => j === i || chosen.includes(label));
    if (haveRoom(place(more, width), width)) chosen = more;
  }
  return place(chosen, width);
}
