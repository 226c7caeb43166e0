import type { Grading, GradingChoices } from "../../../src/grading/grading.ts";
import { CHARACTERISTIC_VALUES } from "../../../src/grading/values/table.ts";
import type { Determination } from "../../../src/record/determination.ts";
import type { ValueId } from "../../../src/record/valueIds.ts";
import { choices, numberOf, reasonOf } from "../stack.ts";

/** One characteristic value of a grading, by its row of the table. */
export function resultOf(id: ValueId, grading: Grading, some: Partial<GradingChoices> = {}): Determination {
  const row = CHARACTERISTIC_VALUES.find((value) => value.id === id);
  if (!row) throw new Error(`no row for ${id}`);
  return row.determine(grading, choices(some));
}

export const number = (...args: Parameters<typeof resultOf>): number => numberOf(resultOf(...args));
export const reason = (...args: Parameters<typeof resultOf>): string => reasonOf(resultOf(...args));
