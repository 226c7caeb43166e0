import type { TakenOver } from "../record/takenOver.ts";
import type { Notice } from "./assessment.ts";

const momentOf = (at: string): string => `${at.slice(5, 10)} ${at.slice(11, 16)}`;

/**
 * Empty masses that were weighed in an earlier test: what was left in the mesh since then weighs with the fraction. Their
 * uncertainty is that of a mass weighed anew; of the grains nothing is known, so nothing is added for them.
 */
export function takenOverNotices(takenOver: readonly TakenOver[] = []): Notice[] {
  const numbers = [...new Set(takenOver.map(({ number }) => number))];
  return numbers.map((number) => {
    const at = takenOver.find((one) => one.number === number)?.at ?? "";
    const text = `empty masses of no. ${number} (${momentOf(at)}) taken over: grains left in the mesh since count as fraction`;
    return { id: "empties-taken-over", severity: "note", text };
  });
}
