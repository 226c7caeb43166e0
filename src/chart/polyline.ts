/** A place of a line; null breaks the line there. */
export interface Vertex {
  readonly x: number;
  readonly y: number | null;
}

/**
 * Height of the straight lines that join neighbouring vertices, in any order; null beyond the ends and on both sides of a
 * vertex without a height.
 */
export function polyline(vertices: readonly Vertex[]): (x: number) => number | null {
  const ordered = vertices.toSorted((a, b) => a.x - b.x);
  return (x) => {
    const after = ordered.findIndex((vertex) => vertex.x >= x);
    const right = ordered[after];
    const left = ordered[after - 1];
    if (right?.x === x) return right.y;
    if (!left || !right || left.y === null || right.y === null) return null;
    return left.y + ((x - left.x) / (right.x - left.x)) * (right.y - left.y);
  };
}
