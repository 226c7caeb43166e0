import type { ClassMean } from "../../record/product.ts";

/** How percentiles are read, told with every value that rests on them. */
export const READ_FROM_CURVE =
  "Read from the passing curve by the product's interpolation (log-linear unless it says otherwise); never beyond the sieves.";

/** How classes get their size, told with every value that rests on them. */
export const classWords = (mean: ClassMean): string =>
  `Class size: ${mean} mean of its two apertures, unless the product says otherwise. The top class ends at the next coarser size of R20/3, the pan's class at half the finest aperture, unless the product gives a top size, gives the pan a size or leaves it out.`;

export const S319 = "ANSI/ASAE S319 (memory; sieve list seen in the 1970 committee report)";
export const FOLK_AND_WARD = "R. L. Folk and W. C. Ward, J. Sediment. Petrol. 27 (1957) 3-26";
export const MOMENTS = "Krumbein and Pettijohn; Boggs, Principles of Sedimentology and Stratigraphy (memory)";
export const PHI = "phi = -log2(size in mm); phi percentiles count from the coarse side, so phi16 is d84.";
export const PHI_READ = `${PHI} ${READ_FROM_CURVE}`;
export const PHI_CLASSES = `${PHI} ${classWords("geometric")}`;
