import { CHARACTERISTIC_VALUES } from "../../grading/values/table.ts";

/** "percentileUm@50" -> "d50", "finenessModulus" -> the trade's word. */
export const shownName = (id: string): string =>
  id.startsWith("percentileUm@")
    ? `d${id.slice("percentileUm@".length)}`
    : (CHARACTERISTIC_VALUES.find((row) => row.id === id)?.label ?? id);
