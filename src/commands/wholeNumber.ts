import { InvalidArgumentError } from "commander";

export const LARGEST_SEED = 2 ** 31 - 1;

/** Reads the number of an option that is whole and within bounds. */
export const wholeNumber = (least: number, most: number) => (text: string) => {
  const number = Number(text);
  if (/^\d+$/.test(text) && number >= least && number <= most) return number;
  throw new InvalidArgumentError(`it is a whole number from ${least} to ${most}`);
};
