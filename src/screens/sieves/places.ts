import type { CareKnown } from "../../care/known.ts";
import type { Outcome } from "../../entry/outcome.ts";
import type { AperturesRead } from "../../record/apertureCsv.ts";
import type { Inspection, ReferenceCheck, ReferenceMaterial } from "../../record/care.ts";
import type { IndexRow } from "../../record/indexRow.ts";
import type { UntimedEntry } from "../../record/logEntry.ts";
import type { RegisterItem } from "../../record/register.ts";
import type { Sieve } from "../../record/sieve.ts";
import type { SieveTold } from "../../store/careReading.ts";
import type { SuspectReading } from "../../store/suspectReading.ts";

/** What is registered: the sieves, or all else. */
export interface SievesPlace {
  readonly name: "sieves";
  readonly list: "sieves" | "others";
  readonly filter: string;
  readonly at: number;
}

/** A place with what is known of sieves and balance; null until it has been read. */
export type WithCare<P> = P & { readonly known: CareKnown | null };

export const SIEVE_PAGES = ["sieve", "life", "empties", "checks", "effective"] as const;
export type SievePage = (typeof SIEVE_PAGES)[number];

/** One sieve: how it stands, its life, its empty masses, what its tests say of its aperture. */
export interface SievePlace {
  readonly name: "sieve";
  readonly serial: string;
  readonly page: SievePage;
  readonly told: SieveTold | null;
  /** Worked out when first looked at. */
  readonly effective: Outcome<SuspectReading> | "working" | null;
}

/** What is done to sieves by a form. */
export const CARE_FORMS = ["cleaning", "repair", "quarantine", "return to service", "retirement"] as const;
/** What is registered by a form. */
export const REGISTER_FORMS = ["sieve", "set", "balance", "check weight", "file"] as const;
export type CareFormName = (typeof CARE_FORMS)[number] | (typeof REGISTER_FORMS)[number] | "what";

/** Questions one after the other, which end in an entry of the care log or of the register. */
export interface CareFormPlace {
  readonly name: "careForm";
  readonly form: CareFormName;
  /** The sieve that it is about; empty for none. */
  readonly serial: string;
  /** The item as it is registered, where it is changed; null for a new one. */
  readonly before: RegisterItem | null;
  readonly known: CareKnown;
  readonly answers: readonly string[];
  readonly typed: string;
  /** The signature is asked for. */
  readonly signing: boolean;
}

/** Steps of a guided inspection after the looks. */
export type InspectStep = "looks" | "whether" | "cloth" | "warp" | "weft" | "file" | "instrument" | "note" | "sign";

/** A sieve being inspected. */
export interface InspectPlace {
  readonly name: "inspect";
  readonly sieve: Sieve;
  readonly step: InspectStep;
  readonly looks: Inspection["looks"];
  readonly inCloth: number | null;
  readonly warpUm: readonly number[];
  readonly weftUm: readonly number[];
  readonly instrument: string;
  readonly note: string;
  readonly typed: string;
}

/** A reference material run like a test: which material, which test, what it says of each sieve. */
export interface ReferencePlace {
  readonly name: "reference";
  readonly known: CareKnown;
  readonly step: "material" | "test" | "result";
  readonly material: ReferenceMaterial | null;
  /** Recorded tests to choose from, newest first; null until they have been read. */
  readonly rows: readonly IndexRow[] | null;
  readonly check: ReferenceCheck | null;
  readonly filter: string;
  readonly at: number;
  readonly typed: string;
}

export type CarePlace = SievesPlace | SievePlace | CareFormPlace | InspectPlace | ReferencePlace;

export type CareEffect =
  | { readonly do: "readSieve"; readonly serial: string }
  | { readonly do: "recordCare"; readonly entry: Extract<UntimedEntry, { kind: "care" | "registered" }> }
  | { readonly do: "registerFile"; readonly path: string; readonly by: string; readonly reason: string }
  | { readonly do: "readEffective"; readonly serial: string }
  | { readonly do: "readApertures"; readonly path: string }
  | { readonly do: "readReferenceRows" }
  | { readonly do: "readReference"; readonly row: IndexRow; readonly material: ReferenceMaterial };

/** What came of reading a file of apertures. */
export type AperturesAnswer = AperturesRead & { readonly path: string };
