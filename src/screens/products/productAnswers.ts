import type { Product } from "../../record/product.ts";
import type { ProductDraft } from "../../record/productDraft.ts";
import type { Program } from "../../record/program.ts";
import type { TestRecord } from "../../record/test.ts";
import { type ImportReport, refusedCount } from "../../store/sharedReport.ts";
import type { ProductShelf } from "../../store/store.ts";
import { dayText } from "../../words/figures.ts";
import { say } from "../../words/say.ts";
import { type App, enter } from "../place.ts";
import { onDiskAgain, refusedByDisk } from "../unsaved.ts";
import { withInForce } from "./inForce.ts";
import type { Drafting, EnvelopePlace } from "./places.ts";

/** What lies in the library now. */
export interface LibraryRead {
  readonly shelf: ProductShelf;
  readonly drafts: readonly ProductDraft[];
  readonly programs: readonly Program[];
}

const kept = (app: App, draft: ProductDraft): Drafting => {
  const known = app.productDrafts.find((one) => one.draft.code === draft.code);
  return known ? { ...known, draft } : { draft, past: [], onDisk: true };
};

export const libraryRead = (app: App, { shelf, drafts, programs }: LibraryRead): App =>
  withInForce({
    ...app,
    programs,
    revisions: shelf.codes.flatMap((code) => shelf.revisions(code)),
    productDrafts: drafts.map((draft) => kept(app, draft)),
  });

const byCode = (a: Drafting, b: Drafting): number => (a.draft.code < b.draft.code ? -1 : 1);

/** The screens with one draft as it now is. */
export const withDrafting = (app: App, drafting: Drafting): App => ({
  ...app,
  productDrafts: [...app.productDrafts.filter(({ draft }) => draft.code !== drafting.draft.code), drafting].sort(
    byCode,
  ),
});

export const draftingOf = (app: App, code: string): Drafting | null =>
  app.productDrafts.find(({ draft }) => draft.code === code) ?? null;

const editing = (code: string, by: string): EnvelopePlace => ({
  name: "envelope",
  code,
  by,
  at: 0,
  side: "min",
  typed: "",
  adding: null,
  more: [],
  latest: null,
});

/** There is a draft, made just now or before: on to its envelope. */
export function draftOpened(app: App, draft: ProductDraft, by: string, told: string | null): App {
  const known = draftingOf(app, draft.code);
  const withDraft = withDrafting(app, { draft, past: known?.past ?? [], onDisk: true });
  const { place } = app;
  const asked: App = place.name === "product" ? { ...withDraft, place: { ...place, drafting: null } } : withDraft;
  return { ...enter(asked, editing(draft.code, by)), message: told };
}

/** The disk has the draft as it was then; what was edited since is on its way. */
export function productDraftSaved(app: App, draft: ProductDraft): App {
  const drafting = draftingOf(app, draft.code);
  return drafting?.draft === draft ? onDiskAgain(withDrafting(app, { ...drafting, onDisk: true })) : app;
}

export const productDraftNotSaved = (app: App, reason: string): App => refusedByDisk(app, reason);

export const productDraftDiscarded = (app: App, code: string, keptAs: string): App => ({
  ...app,
  productDrafts: app.productDrafts.filter(({ draft }) => draft.code !== code),
  message: say`the draft of ${code} is discarded; its file is kept as ${keptAs}`,
});

/** A draft has become a revision: its page, with the products behind it. */
export function productPublished(app: App, product: Product): App {
  const behind = app.behind.filter(({ name }) => name === "bench" || name === "products");
  const { code, revision, effective } = product;
  const message = say`published: ${code} revision ${revision}, in force from ${dayText(effective ?? "")}`;
  return { ...app, place: { name: "product", product }, behind, operator: product.approvedBy ?? app.operator, message };
}

/** The latest test of a product has been read; whoever has left its envelope meanwhile stays where they are. */
export function latestLearnt(app: App, code: string, latest: TestRecord): App {
  const { place } = app;
  return place.name === "envelope" && place.code === code ? { ...app, place: { ...place, latest } } : app;
}

function importWords(report: ImportReport): string | null {
  if (report.dryRun) return null;
  const loaded = report.files.filter(({ is }) => is === "new").length;
  const refused = refusedCount(report);
  return refused === 0 ? say`loaded: ${loaded}` : say`loaded: ${loaded}, refused: ${refused}`;
}

/** The shared folder has been looked through, or loaded from. */
export function sharedImported(app: App, report: ImportReport): App {
  const { place } = app;
  return place.name === "import" ? { ...app, place: { ...place, report, from: 0 }, message: importWords(report) } : app;
}
