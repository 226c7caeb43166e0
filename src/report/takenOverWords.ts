import { type TakenOver, takenOverIn } from "../record/takenOver.ts";
import type { TestRecord } from "../record/test.ts";
import { apertureText } from "./figures.ts";

type Taken = Pick<TestRecord, "weighings" | "trail">;

const numbersOf = (takenOver: readonly TakenOver[]): number[] => [...new Set(takenOver.map(({ number }) => number))];

/** Which empty masses of a test were not weighed in it, and where they come from; a line for each test they come from. */
export function takenOverWords(test: Taken): string[] {
  const takenOver = takenOverIn(test);
  return numbersOf(takenOver).map((number) => {
    const own = takenOver.filter((one) => one.number === number);
    const rows = own.map(({ apertureUm }) => apertureText(apertureUm)).join(", ");
    const when = (own[0]?.at ?? "").slice(0, 16).replace("T", " ");
    return `empty masses taken over from no. ${number}, weighed ${when}: ${rows}`;
  });
}

/** The numbers of the tests that empty masses were taken over from: "57", "57 58"; nothing where all were weighed. */
export const takenOverNumbers = (test: Taken): string => numbersOf(takenOverIn(test)).join(" ");
