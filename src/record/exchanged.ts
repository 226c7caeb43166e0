import { z } from "zod";
import { ReferenceMaterialSchema, RegisteredBalanceSchema, RegisteredWeightSchema } from "./care.ts";
import { EvaluationSchema } from "./evaluation.ts";
import { LogEntrySchema } from "./logEntry.ts";
import { ProductSchema } from "./product.ts";
import { ProgramSchema } from "./program.ts";
import { SheetSchema } from "./sheet.ts";
import { SieveSchema, StackSchema } from "./sieve.ts";

/** Every kind of file or line that stations, plants and other programs exchange, by the name of its JSON Schema. */
export const EXCHANGED = {
  balance: { title: "A balance of the register", schema: RegisteredBalanceSchema },
  checkWeight: { title: "A check weight of the register", schema: RegisteredWeightSchema },
  evaluation: { title: "Result of sievewright evaluate --json", schema: EvaluationSchema },
  logEntry: { title: "One line of sievewright log --json", schema: LogEntrySchema },
  product: { title: "One revision of a product", schema: ProductSchema },
  program: { title: "How the shaker runs", schema: ProgramSchema },
  referenceMaterial: { title: "A certified reference material", schema: ReferenceMaterialSchema },
  sheet: { title: "A weighing sheet", schema: SheetSchema },
  sieve: { title: "One physical test sieve", schema: SieveSchema },
  stack: { title: "Sieves used together", schema: StackSchema },
} as const;

export type Exchanged = keyof typeof EXCHANGED;

/**
 * The JSON Schema (draft 2020-12) of an exchanged kind as the text of its file. Rules between fields that JSON Schema
 * can't say are checked by the program alone.
 */
export function jsonSchemaText(kind: Exchanged): string {
  const { title, schema } = EXCHANGED[kind];
  const { $schema, ...rules } = z.toJSONSchema(schema, { target: "draft-2020-12" });
  return `${JSON.stringify({ $schema, $id: `urn:sievewright:schema:${kind}:1`, title, ...rules }, null, 2)}\n`;
}
