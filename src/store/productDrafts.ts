import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { contradictions } from "../envelope/contradictions.ts";
import type { LogEntry, NewEntry } from "../record/logEntry.ts";
import { faultInWords } from "../record/migrate.ts";
import type { Product } from "../record/product.ts";
import { type ProductDraft, publishedFrom, type Release, ReleaseSchema } from "../record/productDraft.ts";
import { sealOf } from "../record/seal.ts";
import { type Cabinet, report } from "./cabinet.ts";
import { filingDay } from "./filingDay.ts";
import type { Library } from "./library.ts";
import type { Drawers } from "./recording.ts";

type Record = (entry: NewEntry) => Promise<Outcome<LogEntry>>;
type Begun = ProductDraft & { readonly publishing: Release };

const isBegun = (draft: ProductDraft): draft is Begun => draft.publishing !== undefined;
const withoutRelease = ({ publishing: _given, ...draft }: ProductDraft): ProductDraft => draft;

/**
 * Products being written, one draft a code, and how a draft becomes a revision: the draft says that it is about to be
 * published, the log tells of it, the revision goes on the shelf, the draft goes. A crash in between leaves a draft that
 * says so; what the log knows of is carried to its end when the library is next asked for, anything else is a draft again.
 */
export class ProductDrafts {
  readonly #drawers: Drawers;
  readonly #library: Library;
  readonly #record: Record;

  constructor(drawers: Drawers, library: Library, record: Record) {
    this.#drawers = drawers;
    this.#library = library;
    this.#record = record;
  }

  list(): Promise<readonly ProductDraft[]> {
    return this.#library.productDrafts.list();
  }

  async save(draft: ProductDraft): Promise<Outcome<void>> {
    const settled = await this.settle();
    const done = settled.find(({ code }) => code === draft.code);
    if (done !== undefined) return refused(`${draft.code} revision ${done.revision} is published; draft the next one`);
    const before = await this.#draftOf(draft.code);
    const why = this.#writerRefusal(draft) ?? (await this.#revisionRefusal(draft)) ?? stillBegun(before);
    return why === null ? this.#library.productDrafts.put(withoutRelease(draft)) : refused(why);
  }

  /** The draft's file is kept beside under the name that comes back; nothing reads it. */
  async discard(code: string): Promise<Outcome<string>> {
    await this.settle();
    const draft = await this.#draftOf(code);
    if (draft === null) return refused(noDraft(code));
    const why = this.#writerRefusal() ?? stillBegun(draft);
    if (why !== null) return refused(why);
    const keptAs = `${code}.json.discarded`;
    const taken = await this.#library.productDrafts.take(code, keptAs);
    return taken.ok ? accepted(`library/product-drafts/${keptAs}`) : taken;
  }

  async publish(code: string, release: Release): Promise<Outcome<Product>> {
    const settled = await this.settle();
    const done = settled.find((product) => product.code === code);
    if (done !== undefined) return accepted(done);
    const draft = await this.#draftOf(code);
    if (draft === null) return refused(noDraft(code));
    const product = publishedFrom(draft, release);
    const why = stillBegun(draft) ?? (await this.#releaseRefusal(product, release));
    if (why !== null) return refused(why);
    const begun = await this.#library.productDrafts.put({ ...draft, publishing: release });
    if (!begun.ok) return begun;
    const logged = await this.#record(entryOf(product, release));
    if (logged.ok) return this.#carriedOut(product);
    const arrived = (await this.settle()).find((one) => one.code === code);
    return arrived === undefined ? logged : accepted(arrived);
  }

  /** Carries out publications that the log knows of and takes back those that it doesn't; the products that came of it. */
  async settle(): Promise<readonly Product[]> {
    if (this.#cabinet.readOnly() !== null) return [];
    const done: Product[] = [];
    for (const draft of (await this.list()).filter(isBegun)) {
      const product = publishedFrom(draft, draft.publishing);
      const known = await this.#inLog(product, draft.publishing);
      if (known === false) await this.#library.productDrafts.put(withoutRelease(draft));
      const carried = known === true ? await this.#carriedOut(product) : null;
      if (carried?.ok) done.push(carried.value);
      if (carried?.ok === false) report(this.#cabinet, carried.reason);
    }
    return done;
  }

  get #cabinet(): Cabinet {
    return this.#drawers.cabinet;
  }

  async #draftOf(code: string): Promise<ProductDraft | null> {
    return (await this.list()).find((draft) => draft.code === code) ?? null;
  }

  /** Null: the log of that day can't be read just now. */
  async #inLog(product: Product, release: Release): Promise<boolean | null> {
    const day = await filingDay(release.at, this.#drawers.station, this.#cabinet);
    const found = day.ok ? await this.#drawers.log.day(day.value) : null;
    if (found?.is === "absent") return false;
    if (found?.is !== "read") return null;
    const { sha256, code, revision } = entryOf(product, release);
    const isIt = (one: LogEntry): boolean =>
      one.kind === "product published" && one.code === code && one.revision === revision && one.sha256 === sha256;
    return found.content.entries.some(isIt);
  }

  async #carriedOut(product: Product): Promise<Outcome<Product>> {
    const put = await this.#library.shelve(product);
    if (!put.ok)
      return refused(`${put.reason}. The log has it as published: publish it again, or start the program anew`);
    const gone = await this.#library.productDrafts.take(product.code);
    if (!gone.ok) report(this.#cabinet, `${gone.reason}; its revision is published and it goes at the next start`);
    return accepted(product);
  }

  /** Where sign-on is required a draft bears the name of whoever is signed on; any role may write one. */
  #writerRefusal(draft?: ProductDraft): string | null {
    const { rule, session } = this.#drawers.operators;
    if (rule === "none") return null;
    if (session === null) return "nobody is signed on: to draft a product, sign on with initials and PIN";
    const own = draft === undefined || draft.author === session.initials;
    return own ? null : `${session.initials} is signed on: ${draft.author} must sign on to put a name to this`;
  }

  async #revisionRefusal({ code, revision }: ProductDraft): Promise<string | null> {
    const newest = (await this.#library.products()).revisions(code).at(-1)?.revision ?? 0;
    return revision > newest ? null : `${code} is at revision ${newest} already; this draft is of revision ${revision}`;
  }

  async #releaseRefusal(product: Product, release: Release): Promise<string | null> {
    const parsed = ReleaseSchema.safeParse(release);
    if (!parsed.success) return `it can't be published: ${faultInWords(parsed.error)}`;
    const today = await filingDay(release.at, this.#drawers.station, this.#cabinet);
    if (today.ok && release.effective < today.value)
      return `${release.effective} is past: a revision is in force from today (${today.value}) or a later day`;
    const [never] = contradictions(product).filter(({ impossible }) => impossible);
    if (never !== undefined) return `it can't be published: ${never.text}`;
    const coming = await this.#library.admission(product);
    if (!coming.ok) return coming.reason;
    return coming.value === "new" ? null : `${product.code} revision ${product.revision} is there already`;
  }
}

const noDraft = (code: string): string =>
  `there is no draft of ${code}: make one with "sievewright product draft ${code}"`;

const stillBegun = (draft: ProductDraft | null): string | null =>
  draft?.publishing === undefined
    ? null
    : `a publication of ${draft.code} was begun on ${draft.publishing.at.slice(0, 10)} and the log of that day can't be read: put that right first`;

const entryOf = (product: Product, { by, at, effective, reason }: Release) => ({
  kind: "product published" as const,
  at,
  by,
  code: product.code,
  revision: product.revision,
  author: product.author ?? by,
  effective,
  reason,
  sha256: sealOf(product),
});
