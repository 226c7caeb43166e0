type Class = readonly [upperLimit: number, word: string];

/** A value on a limit belongs to the lower class (CP-8). */
const wordIn = (classes: readonly Class[], top: string, measured: number): string =>
  classes.find(([upperLimit]) => measured <= upperLimit)?.[1] ?? top;

/**
 * How well sorted a sediment is, in Folk and Ward's words, by its phi sorting.
 *
 * @source R. L. Folk and W. C. Ward, J. Sediment. Petrol. 27 (1957) 3-26; limits as in Folk 1968 and a USGS note
 * @example
 * sortingWords(0.61) // => "moderately well sorted"
 */
export const sortingWords = (sortingPhi: number): string =>
  wordIn(
    [
      [0.35, "very well sorted"],
      [0.5, "well sorted"],
      [0.71, "moderately well sorted"],
      [1, "moderately sorted"],
      [2, "poorly sorted"],
      [4, "very poorly sorted"],
    ],
    "extremely poorly sorted",
    sortingPhi,
  );

/**
 * To which side the tail of a phi distribution reaches; positive is the fine side.
 *
 * @source R. L. Folk and W. C. Ward 1957 (memory)
 * @example
 * skewnessWords(0.13) // => "fine-skewed"
 */
export const skewnessWords = (skewness: number): string =>
  wordIn(
    [
      [-0.3, "strongly coarse-skewed"],
      [-0.1, "coarse-skewed"],
      [0.1, "near-symmetrical"],
      [0.3, "fine-skewed"],
    ],
    "strongly fine-skewed",
    skewness,
  );

/**
 * How peaked a phi distribution is in its middle against its tails; a normal distribution has graphic kurtosis 1.
 *
 * @source R. L. Folk and W. C. Ward 1957 (memory)
 * @example
 * kurtosisWords(0.84) // => "platykurtic"
 */
export const kurtosisWords = (graphicKurtosis: number): string =>
  wordIn(
    [
      [0.67, "very platykurtic"],
      [0.9, "platykurtic"],
      [1.11, "mesokurtic"],
      [1.5, "leptokurtic"],
      [3, "very leptokurtic"],
    ],
    "extremely leptokurtic",
    graphicKurtosis,
  );
