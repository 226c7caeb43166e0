/** Written out by hand, not taken from the code: what no terminal may be sent, the ends of lines apart. */
export const OBEYED =
  /(?!\r?\n)[\0-\x1f\x7f-\x9f\u00ad\u061c\u115f\u200b-\u200f\u2028-\u202e\u2060-\u206f\u3164\ufeff\u{e0000}-\u{e007f}]|\p{Surrogate}/u;

/** Texts that a terminal would act on. */
export const SEQUENCES: readonly (readonly [what: string, text: string])[] = [
  ["CSI: clear the screen", "a\u001b[2Jb"],
  ["CSI: eight bits", "a\u009b2Jb"],
  ["OSC: window title", "a\u001b]0;owned\u0007b"],
  ["OSC: a link", "a\u001b]8;;http://x.invalid\u001b\\b"],
  ["OSC: the clipboard", "a\u001b]52;c;ZXZpbA==\u0007b"],
  ["DCS", "a\u001bPq\u001b\\b"],
  ["a reset", "a\u001bcb"],
  ["a lone ESC at the end", "a\u001b"],
  ["bell", "a\u0007b"],
  ["backspaces over what stands there", "pass\b\b\b\bfail"],
  ["carriage return", "fail\rpass"],
  ["line feed", "a\nb"],
  ["NUL", "a\0b"],
  ["delete", "a\u007fb"],
  ["next line (C1)", "a\u0085b"],
  ["bidi override", "a\u202efail\u202cb"],
  ["bidi isolate", "a\u2067b\u2069"],
  ["line separator", "a\u2028b"],
];

/** Texts that are not seen as they are, though a field of text takes them. */
export const UNSEEN: readonly (readonly [what: string, text: string])[] = [
  ["zero-width space", "44\u200b71"],
  ["zero-width joiner", "44\u200d71"],
  ["right-to-left mark", "a\u200fb"],
  ["Arabic letter mark", "a\u061cb"],
  ["soft hyphen", "a\u00adb"],
  ["byte-order mark", "a\ufeffb"],
  ["tag characters", "a\u{e0041}b"],
  ["unseen filler", "a\u3164b"],
];

/** One text with everything unseen in it that fields of text take. */
export const ALL_UNSEEN = `u${UNSEEN.map(([, text]) => text.slice(1, -1)).join("")}`;

/** Names that objects inherit, or that change what they inherit. */
export const PROTOTYPE_NAMES = [
  "__proto__",
  "constructor",
  "prototype",
  "toString",
  "hasOwnProperty",
  "valueOf",
] as const;
