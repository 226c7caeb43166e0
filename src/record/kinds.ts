import { type BackupManifest, BackupManifestSchema } from "./backup.ts";
import { type Draft, DraftSchema } from "./draft.ts";
import { type IndexMonth, IndexMonthSchema } from "./indexRow.ts";
import { type DayFile, DayFileSchema, type Head, HeadSchema } from "./logEntry.ts";
import type { Kind } from "./migrate.ts";
import { type Operators, OperatorsSchema } from "./operators.ts";
import { type Product, ProductSchema } from "./product.ts";
import { type Program, ProgramSchema } from "./program.ts";
import { type ScreenChoice, ScreenChoiceSchema } from "./screen.ts";
import { type Sieve, SieveSchema, type Stack, StackSchema } from "./sieve.ts";
import { type Station, StationSchema } from "./station.ts";

/** Every kind of file that a station keeps, with its lifts from older versions (none so far). */
export const stationKind: Kind<Station> = { name: "station", schema: StationSchema, lifts: [] };
export const operatorsKind: Kind<Operators> = { name: "operators", schema: OperatorsSchema, lifts: [] };
export const draftKind: Kind<Draft> = { name: "draft", schema: DraftSchema, lifts: [] };
/** Lifts of a day serve reading alone: seals are taken over the entries as they lie in the file. */
export const dayKind: Kind<DayFile> = { name: "day", schema: DayFileSchema, lifts: [] };
export const headKind: Kind<Head> = { name: "head", schema: HeadSchema, lifts: [] };
export const indexKind: Kind<IndexMonth> = { name: "index", schema: IndexMonthSchema, lifts: [] };
export const productKind: Kind<Product> = { name: "product", schema: ProductSchema, lifts: [] };
export const programKind: Kind<Program> = { name: "program", schema: ProgramSchema, lifts: [] };
export const sieveKind: Kind<Sieve> = { name: "sieve", schema: SieveSchema, lifts: [] };
export const stackKind: Kind<Stack> = { name: "stack", schema: StackSchema, lifts: [] };
export const screenKind: Kind<ScreenChoice> = { name: "screen", schema: ScreenChoiceSchema, lifts: [] };
export const backupKind: Kind<BackupManifest> = { name: "backup", schema: BackupManifestSchema, lifts: [] };
