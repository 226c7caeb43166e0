import { dayInForce } from "../record/dayInForce.ts";
import type { Product } from "../record/product.ts";
import { SAME_HANDS, sameHands } from "../record/productDraft.ts";
import { drawable, printedJson } from "../terminal/sanitise.ts";
import { done, type Ending, EXIT, ended, reached, type Step } from "./ending.ts";
import type { Io } from "./io.ts";
import { inStore, type ProductSignerOptions, refusedBy, type SignedStore } from "./productSigner.ts";
import { stationNow } from "./stationClock.ts";

export interface ProductPublishOptions extends ProductSignerOptions {
  readonly reason: string;
  readonly effective?: string;
  readonly json?: boolean;
}

/** `sievewright product publish CODE`: the draft becomes a revision. */
export async function productPublish(code: string, options: ProductPublishOptions, io: Io): Promise<Ending> {
  const published = await inStore(options, io, (signed) =>
    publishing(code, options, signed, stationNow(signed.store.station, io)),
  );
  if (!published.ok) return published.ending;
  const { value: product } = published;
  return done(options.json ? `${printedJson(product)}\n` : publishedText(product));
}

async function publishing(
  code: string,
  { reason, effective }: ProductPublishOptions,
  { store, by }: SignedStore,
  at: string,
): Promise<Step<Product>> {
  if (!(await store.productDrafts()).some((draft) => draft.code === code))
    return ended(EXIT.notFound, `there is no draft of ${code}: make one with "sievewright product draft ${code}"`);
  const day = effective ?? dayInForce(at, store.station.dayBegins);
  const product = await store.publishProduct(code, { by, at, effective: day, reason });
  return product.ok ? reached(product.value) : refusedBy(store, product.reason);
}

function publishedText(product: Product): string {
  const { code, revision, effective, author, approvedBy } = product;
  const hands = sameHands(product) ? `${SAME_HANDS}, ${author}` : `written by ${author}, approved by ${approvedBy}`;
  return `${drawable(`${code} revision ${revision} is published: in force from ${effective}, ${hands}`)}\n`;
}
