/** Exit codes: those of `evaluate`, then those of BSD sysexits. */
export const EXIT = {
  ok: 0,
  fail: 1,
  incomplete: 1,
  borderline: 2,
  testInvalid: 3,
  usage: 64,
  badData: 65,
  notFound: 66,
  internal: 70,
  ioError: 74,
  notPermitted: 77,
} as const;

export type FaultCode = 64 | 65 | 66 | 70 | 74 | 77;

/**
 * How a command ended: with something to print, or with one line on what is wrong, where, and what to do. A `remark`,
 * asked for after printing, tells on standard error what is missing from the result, and makes the exit code 1.
 */
export type Ending =
  | { readonly code: number; readonly out: string | AsyncIterable<string>; readonly remark?: () => string | null }
  | { readonly code: FaultCode; readonly fault: string };

/** A step of a command on its way: what it found, or how the command ends here. */
export type Step<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly ending: Ending };

export const done = (out: string, code: number = EXIT.ok): Ending => ({ code, out });
export const faulty = (code: FaultCode, fault: string): Ending => ({ code, fault });

export const reached = <T>(value: T): Step<T> => ({ ok: true, value });
export const ended = (code: FaultCode, fault: string): Step<never> => ({ ok: false, ending: faulty(code, fault) });
