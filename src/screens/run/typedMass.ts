import { readingOf } from "../../entry/reading.ts";
import { decimalsOf, massText } from "../../report/figures.ts";
import type { Run } from "../../run/run.ts";

/**
 * What stands in the field of a mass: what was typed; of a line of the balance that has no room there, the mass it says, so
 * that no digit of what Enter would accept is cut off.
 */
export function typedMass({ typed, setting, draft }: Run, room: number): string {
  if (typed.length <= room) return typed;
  const { massG } = readingOf(typed, setting.marks);
  return massG.ok ? massText(massG.value, decimalsOf(draft.balance.readabilityG)) : typed;
}
