import type { RunOtherwise } from "../entry/programRun.ts";

/** What ran otherwise as the trail keeps it: `strokeMm 1, durationS 480`. */
export const ranWords = (ran: RunOtherwise): string =>
  Object.entries(ran)
    .map(([setting, figure]) => `${setting} ${figure}`)
    .join(", ");

/** The settings that such words name, so that an earlier note can stand again. */
export const ranFrom = (words: string): RunOtherwise =>
  Object.fromEntries(
    words
      .split(", ")
      .map((part) => part.split(" "))
      .map(([setting, figure]) => [setting, Number(figure)]),
  );
