import { z } from "zod";
import { CareSchema, ReferenceMaterialSchema, RegisteredBalanceSchema, RegisteredWeightSchema } from "./care.ts";
import { text } from "./fields.ts";
import { SieveSchema, StackSchema } from "./sieve.ts";

/**
 * What a station sieves and weighs with. Each revision is told to the log whole: the latest one is in force, the earlier
 * ones stay readable. A stack is a set of sieves that are used together.
 */
export const RegisterItemSchema = z.discriminatedUnion("schema", [
  SieveSchema,
  StackSchema,
  RegisteredBalanceSchema,
  RegisteredWeightSchema,
  ReferenceMaterialSchema,
]);

export const registeredFields = {
  item: RegisterItemSchema,
  /** Why the register was changed; needed where the item was registered before. */
  reason: text(400).optional(),
};

export const careFields = { care: CareSchema };

export type RegisterItem = z.infer<typeof RegisterItemSchema>;

/** What the item is called on screens and pages. */
export const ITEM_WORDS = {
  "sievewright.sieve/1": "sieve",
  "sievewright.stack/1": "set",
  "sievewright.balance/1": "balance",
  "sievewright.checkWeight/1": "check weight",
  "sievewright.referenceMaterial/1": "reference material",
} as const satisfies Record<RegisterItem["schema"], string>;

/** The name by which an item is known among its kind: serial, code or id. */
export function nameOfItem(item: RegisterItem): string {
  switch (item.schema) {
    case "sievewright.sieve/1":
      return item.serial;
    case "sievewright.balance/1":
      return item.id;
    case "sievewright.checkWeight/1":
      return item.weight;
    default:
      return item.code;
  }
}

/** "sieve S-0710-2": what and which, in words and as a key. */
export const itemName = (item: RegisterItem): string => `${ITEM_WORDS[item.schema]} ${nameOfItem(item)}`;
