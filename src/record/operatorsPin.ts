/** A PIN has this many digits; anything else is a passphrase, and longer. */
export const PIN_DIGITS = { least: 4, most: 12 } as const;
export const PASSPHRASE_CHARACTERS = { least: 10, most: 64 } as const;
const LEAST_DIFFERENT = 5;

const ONLY_DIGITS = /^\d*$/;

/** Each digit differs from the one before by the same step: 0000, 1234, 9876, 2468; 9 is followed by 0. */
function isStaircase(digits: string): boolean {
  const steps = [...digits].slice(1).map((digit, i) => (Number(digit) - Number(digits[i]) + 10) % 10);
  return new Set(steps).size === 1;
}

/** The same one, two or three digits over and over: 1212, 123123. */
const isRepeated = (digits: string): boolean => /^(\d{1,3})\1+$/.test(digits);

/** 19xx and 20xx: years of birth are the first that a colleague tries. */
const isYear = (digits: string): boolean => /^(?:19|20)\d\d$/.test(digits);

function digitsRefusal(digits: string): string | null {
  const { least, most } = PIN_DIGITS;
  if (digits.length < least || digits.length > most) return `a PIN has ${least} to ${most} digits`;
  const trivial = isStaircase(digits) || isRepeated(digits) || isYear(digits);
  return trivial ? "this PIN is among the first that anybody tries: choose another" : null;
}

function passphraseRefusal(words: string, whose: readonly string[]): string | null {
  const { least, most } = PASSPHRASE_CHARACTERS;
  const length = [...words].length;
  if (length < least) return `a PIN is digits alone; with other characters it takes at least ${least} of them`;
  if (length > most) return `at most ${most} characters`;
  const bare = words.toLowerCase().replace(/[^\p{L}\p{N}]/gu, "");
  const own = whose.map((name) => name.toLowerCase().replace(/[^\p{L}\p{N}]/gu, ""));
  const trivial = new Set(bare).size < LEAST_DIFFERENT || own.some((name) => bare === name);
  return trivial ? "this passphrase is too easily guessed: choose another" : null;
}

/**
 * Why somebody can't have this PIN, in words: 4 to 12 digits that are no staircase, no repetition and no year, or a
 * passphrase of 10 to 64 characters, 5 of them different, that is not the name; null when it will do.
 *
 * @param whose initials and name of whom it is for
 */
export const pinRefusal = (pin: string, whose: readonly string[] = []): string | null =>
  ONLY_DIGITS.test(pin) ? digitsRefusal(pin) : passphraseRefusal(pin, whose);
