import type { EditedOn, Side } from "../../envelope/revisions/edits.ts";
import type { Product } from "../../record/product.ts";
import type { ProductContent, ProductDraft, Release } from "../../record/productDraft.ts";
import type { TestRecord } from "../../record/test.ts";
import type { ImportReport } from "../../store/sharedReport.ts";

/** A draft on the station's shelf, what it was before each edit of this sitting, and whether it is on disk as it stands. */
export interface Drafting {
  readonly draft: ProductDraft;
  readonly past: readonly ProductDraft[];
  readonly onDisk: boolean;
}

export interface ProductsPlace {
  readonly name: "products";
  readonly filter: string;
  readonly at: number;
}

export interface ProductPlace {
  readonly name: "product";
  readonly product: Product;
  /** Initials of whoever is about to write the next revision, while they are typed. */
  readonly drafting?: string | null;
}

/** What is about to be limited besides the rows there are. */
export interface Adding {
  readonly what: "aperture" | "value";
  readonly text: string;
  readonly at: number;
}

/** The envelope of a draft being edited. */
export interface EnvelopePlace {
  readonly name: "envelope";
  readonly code: string;
  /** Whoever edits. */
  readonly by: string;
  readonly at: number;
  readonly side: Side;
  readonly typed: string;
  readonly adding: Adding | null;
  /** Limits wished for that have no bound yet. */
  readonly more: readonly Extract<EditedOn, { kind: "aperture" }>[];
  /** The latest test of the product, drawn over its envelope; null when there is none, or it is not read yet. */
  readonly latest: TestRecord | null;
}

/** What changed from one revision to another, or to a draft. */
export interface DiffPlace {
  readonly name: "diff";
  readonly before: Product;
  readonly after: ProductContent;
  readonly isDraft: boolean;
  readonly from: number;
}

export const PUBLISH_FIELDS = ["reason", "effective", "by"] as const;

/** A draft on its way to being a revision. */
export interface PublishPlace {
  readonly name: "publish";
  readonly code: string;
  readonly field: (typeof PUBLISH_FIELDS)[number];
  readonly reason: string;
  readonly effective: string;
  readonly by: string;
}

/** What the plant's shared folder has for this station. */
export interface ImportPlace {
  readonly name: "import";
  readonly by: string;
  readonly report: ImportReport | null;
  readonly from: number;
}

export type ProductEffect =
  | { readonly do: "draftProduct"; readonly code: string; readonly by: string }
  | { readonly do: "saveProductDraft"; readonly draft: ProductDraft }
  | { readonly do: "discardProductDraft"; readonly code: string }
  | { readonly do: "publishProduct"; readonly code: string; readonly release: Release }
  | { readonly do: "learnLatest"; readonly code: string }
  | { readonly do: "importShared"; readonly by: string; readonly dryRun: boolean };
