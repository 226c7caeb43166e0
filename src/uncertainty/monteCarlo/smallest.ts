/** Swaps from both ends of a stretch until all before the cut is at most the pivot and all after it at least. */
function split(list: Float64Array, left: number, right: number, pivot: number): { before: number; after: number } {
  let [i, j] = [left, right];
  while (i <= j) {
    while ((list[i] ?? 0) < pivot) i++;
    while ((list[j] ?? 0) > pivot) j--;
    if (i > j) break;
    const held = list[i] ?? 0;
    list[i++] = list[j] ?? 0;
    list[j--] = held;
  }
  return { before: j, after: i };
}

/**
 * The number that would stand at place `k` if the list were sorted; the list is put in an order in which nothing before
 * place k is larger and nothing after it smaller.
 *
 * @param k from 0 to the length less 1
 * @source C. A. R. Hoare, Algorithm 65, Comm. ACM 4 (1961) 321-322 (memory)
 * @example
 * smallest(Float64Array.of(3, 1, 2), 1) // => 2
 */
export function smallest(list: Float64Array, k: number): number {
  let [left, right] = [0, list.length - 1];
  while (left < right) {
    const { before, after } = split(list, left, right, list[k] ?? 0);
    if (before < k) left = after;
    if (k < after) right = before;
  }
  return list[k] ?? 0;
}
