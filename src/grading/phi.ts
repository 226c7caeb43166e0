/**
 * Size on the phi scale of the sedimentologists, `phi = -log2(x / 1 mm)`: coarse is small, each step halves the size.
 *
 * @source W. C. Krumbein, J. Sediment. Petrol. 4 (1934) 65-77 (memory)
 * @example
 * phiOf(250) // => 2
 */
export const phiOf = (sizeUm: number): number => -Math.log2(sizeUm / 1000);
