import { EXIT, ended, reached, type Step } from "./ending.ts";

const NUMBER = /^[+-]?(\d+([.,]\d*)?|[.,]\d+)(e[+-]?\d+)?$/i;

/** The number of an option, with point or comma, to any number of digits: programs write these lines too. */
export function numberOption(name: string, text: string): Step<number> {
  const trimmed = text.trim();
  const number = NUMBER.test(trimmed) ? Number(trimmed.replace(",", ".")) : Number.NaN;
  if (Number.isFinite(number)) return reached(number);
  return ended(EXIT.usage, `${name} ${text}: give a number, such as 1.2`);
}
