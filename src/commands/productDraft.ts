import { contentDiff } from "../envelope/revisions/productDiff.ts";
import type { Product } from "../record/product.ts";
import { draftFrom, type ProductContent, type ProductDraft } from "../record/productDraft.ts";
import { readProductContent } from "../record/readExchanged.ts";
import { drawable, printedJson } from "../terminal/sanitise.ts";
import { done, type Ending, EXIT, ended, reached, type Step } from "./ending.ts";
import { inputFile, inputName } from "./inputFile.ts";
import type { Io } from "./io.ts";
import { inStore, type ProductSignerOptions, refusedBy, type SignedStore } from "./productSigner.ts";
import { stationNow } from "./stationClock.ts";

export interface ProductDraftOptions extends ProductSignerOptions {
  readonly from?: string;
  readonly json?: boolean;
}

/** `sievewright product draft CODE`: the draft of its next revision, new or as it stands, or filled from a file. */
export async function productDraft(code: string, options: ProductDraftOptions, io: Io): Promise<Ending> {
  const content = options.from === undefined ? reached(null) : await contentIn(options.from, code, io);
  if (!content.ok) return content.ending;
  const drafted = await inStore(options, io, (signed) =>
    drafting(code, content.value, signed, stationNow(signed.store.station, io)),
  );
  if (!drafted.ok) return drafted.ending;
  return done(options.json ? `${printedJson(drafted.value.draft)}\n` : draftText(drafted.value));
}

async function contentIn(name: string, code: string, io: Io): Promise<Step<ProductContent>> {
  const file = await inputFile(name, io);
  if (!file.ok) return file;
  const content = readProductContent(file.value);
  if (!content.ok) return ended(EXIT.badData, `${inputName(name)}: ${content.reason}`);
  if (content.value.code === code) return reached(content.value);
  return ended(EXIT.badData, `${inputName(name)} is of product ${content.value.code}, not of ${code}`);
}

interface Drafted {
  readonly draft: ProductDraft;
  readonly newest: Product | null;
}

/** A file gives what is judged and how; who, when and which revision are the draft's own. */
function filled(content: ProductContent, newest: Product | null, by: string, at: string): ProductDraft {
  const { effective: _e, approvedBy: _a, author: _w, reason: _r, ...kept } = content;
  const { since: _s, basedOn: _b, publishing: _p, schema: _k, ...bare } = kept as Partial<ProductDraft> & typeof kept;
  const revision = newest === null ? bare.revision : newest.revision + 1;
  const basedOn = newest?.revision ?? null;
  return { ...bare, schema: "sievewright.productDraft/1", revision, author: by, since: at, basedOn };
}

async function drafting(
  code: string,
  content: ProductContent | null,
  { store, by }: SignedStore,
  at: string,
): Promise<Step<Drafted>> {
  const newest = (await store.products()).revisions(code).at(-1) ?? null;
  const there = (await store.productDrafts()).find((draft) => draft.code === code);
  if (content === null && there !== undefined) return reached({ draft: there, newest });
  if (content === null && newest === null)
    return ended(EXIT.notFound, `product ${code} is not in the library: give its first revision with --from FILE`);
  const draft = content !== null ? filled(content, newest, by, at) : newest !== null ? draftFrom(newest, by, at) : null;
  if (draft === null) return ended(EXIT.notFound, `product ${code} is not in the library`);
  const saved = await store.saveProductDraft({ ...draft, since: there?.since ?? draft.since });
  return saved.ok ? reached({ draft, newest }) : refusedBy(store, saved.reason);
}

function draftText({ draft, newest }: Drafted): string {
  const { code, revision, author, since } = draft;
  const changes = newest === null ? [] : contentDiff(newest, draft).map(({ words }) => `  ${words}`);
  const lines = [
    `${code}: draft of revision ${revision} by ${author}, since ${since.slice(0, 16).replace("T", " ")}`,
    ...(changes.length === 0 ? ["  nothing is changed yet"] : changes),
    `edit it on the screens (products, ${code}, e) or fill it with --from FILE; publish it with product publish ${code}`,
  ];
  return `${lines.map(drawable).join("\n")}\n`;
}
