import { describe, expect, test } from "vitest";
import type { Product } from "../../../src/record/product.ts";
import type { Desk } from "../../../src/screens/effects/desk.ts";
import { carryOutProduct } from "../../../src/screens/effects/products.ts";
import type { App } from "../../../src/screens/place.ts";
import { libraryRead } from "../../../src/screens/products/productAnswers.ts";
import type { Store } from "../../../src/store/store.ts";
import { must, opened } from "../../store/opened.ts";
import { product } from "../../store/records.ts";
import { temporaryFolder } from "../../store/temporaryFolder.ts";
import { anApp } from "../stage.ts";

const AT = "2026-11-24T10:00:00+01:00";
const loading = { fromPath: "x.json", bytesSha256: "a".repeat(64), by: "SB", at: AT };
const release = { by: "SB", at: AT, effective: "2026-11-24", reason: "finer sand asked for" };

interface AtDesk {
  readonly desk: Desk;
  readonly store: Store;
}

async function atDesk(change: Partial<App> = {}, revisions: readonly Product[] = [product]): Promise<AtDesk> {
  const store = await opened(await temporaryFolder());
  for (const one of revisions) must(await store.addProduct(one, loading));
  const read = { shelf: await store.products(), drafts: [], programs: [] };
  let app = libraryRead(anApp({ place: { name: "product", product }, now: AT, ...change }), read);
  const desk: Desk = {
    store,
    now: () => AT,
    programVersion: "test",
    bell: () => undefined,
    clockMs: () => 0,
    app: () => app,
    show: (next) => {
      app = next;
    },
    take: (step) => {
      app = step.app;
    },
  } as Desk;
  return { desk, store };
}

const draft = { do: "draftProduct", code: "TH-0510", by: "KO" } as const;

describe("what is asked for with products", () => {
  test("a draft is made on the shelf and its envelope opened", async () => {
    const { desk, store } = await atDesk();
    await carryOutProduct(desk, draft);
    expect(desk.app().place).toMatchObject({ name: "envelope", code: "TH-0510", by: "KO" });
    expect(await store.productDrafts()).toMatchObject([{ revision: 4, author: "KO" }]);
  });

  test("the draft there is goes on; who wrote at it before is told", async () => {
    const { desk, store } = await atDesk();
    await carryOutProduct(desk, draft);
    await carryOutProduct(desk, { ...draft, by: "ML" });
    expect(desk.app().message).toBe("KO wrote at this draft before");
    expect(await store.productDrafts()).toMatchObject([{ author: "KO" }]);
  });

  test("a draft that a loaded revision has overtaken counts on from it, with its edits", async () => {
    const { desk, store } = await atDesk();
    await carryOutProduct(desk, draft);
    const [made] = await store.productDrafts();
    if (made === undefined) throw new Error("no draft was made");
    must(await store.saveProductDraft({ ...made, name: "finer" }));
    must(await store.addProduct({ ...product, revision: 4, name: "theirs" }, loading));
    await carryOutProduct(desk, draft);
    expect(await store.productDrafts()).toMatchObject([{ revision: 5, basedOn: 4, name: "finer" }]);
    expect(desk.app().message).toMatch(/^revision 4 came meanwhile: the draft is now of revision 5/);
  });

  test("a product that has no revision has nothing to go on from", async () => {
    const { desk } = await atDesk({}, []);
    await carryOutProduct(desk, draft);
    expect(desk.app().message).toBe("TH-0510 has no revision to go on from");
  });

  test("published, the new revision is in force on the screens at once", async () => {
    const { desk } = await atDesk();
    await carryOutProduct(desk, draft);
    await carryOutProduct(desk, { do: "publishProduct", code: "TH-0510", release });
    expect(desk.app().place).toMatchObject({ name: "product", product: { revision: 4 } });
    expect(desk.app().products.map(({ revision }) => revision)).toEqual([4]);
    expect(desk.app().productDrafts).toEqual([]);
  });

  test("what is refused is told where one is, and nothing else changes", async () => {
    const { desk } = await atDesk();
    const before = desk.app();
    await carryOutProduct(desk, { do: "publishProduct", code: "TH-0510", release });
    expect(desk.app()).toEqual({ ...before, message: expect.stringMatching(/^not published: there is no draft/) });
    await carryOutProduct(desk, { do: "importShared", by: "KO", dryRun: true });
    expect(desk.app().message).toBe("no sharedFolder in station.json");
  });

  test("discarded, the draft is gone from shelf and screens", async () => {
    const { desk, store } = await atDesk();
    await carryOutProduct(desk, draft);
    await carryOutProduct(desk, { do: "discardProductDraft", code: "TH-0510" });
    expect(desk.app().productDrafts).toEqual([]);
    expect(await store.productDrafts()).toEqual([]);
  });
});
