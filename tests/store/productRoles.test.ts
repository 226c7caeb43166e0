import { fileURLToPath } from "node:url";
import { describe, expect, test, vi } from "vitest";
import { draftFrom } from "../../src/record/productDraft.ts";
import { importShared } from "../../src/store/sharedImport.ts";
import type { Store } from "../../src/store/store.ts";
import { must, mustNot } from "./opened.ts";
import { type Known, ROLE_OF, staffedAt, whoOf } from "./peopleAt.ts";
import { product } from "./records.ts";
import { temporaryFolder } from "./temporaryFolder.ts";

vi.setConfig({ testTimeout: 60_000 });

const SAMPLE = fileURLToPath(new URL("../../shared", import.meta.url));
const AT = "2026-11-24T10:00:00+01:00";
const PEOPLE = Object.keys(ROLE_OF) as Known[];
const ofRole = (role: string): Known => {
  const found = PEOPLE.find((one) => ROLE_OF[one] === role);
  if (found === undefined) throw new Error(`nobody is ${role}`);
  return found;
};
const loading = (by: string) => ({ fromPath: "x.json", bytesSha256: "a".repeat(64), by, at: AT });
const draftBy = (by: string) => ({ ...draftFrom(product, by, AT), name: "finer" });
const release = (by: string) => ({ by, at: AT, effective: "2026-11-24", reason: "finer sand asked for" });

/** A station that asks people to sign on, with the product loaded by quality. */
async function staffed(): Promise<Store> {
  const { store } = await staffedAt(await temporaryFolder());
  must(await store.signOn(whoOf(ofRole("quality"))));
  must(await store.addProduct(product, loading(ofRole("quality"))));
  must(await store.signOff("off"));
  return store;
}

describe("where people sign on", () => {
  test.each(["operator", "quality", "administrator"])("%s may draft, in their own name only", async (role) => {
    const store = await staffed();
    const who = ofRole(role);
    must(await store.signOn(whoOf(who)));
    must(await store.saveProductDraft(draftBy(who)));
    const other = PEOPLE.find((one) => one !== who) ?? who;
    expect(mustNot(await store.saveProductDraft(draftBy(other)))).toBe(
      `${who} is signed on: ${other} must sign on to put a name to this`,
    );
  });

  test("nobody signed on drafts nothing and discards nothing", async () => {
    const store = await staffed();
    expect(mustNot(await store.saveProductDraft(draftBy("KO")))).toMatch(/^nobody is signed on/);
    const who = ofRole("operator");
    must(await store.signOn(whoOf(who)));
    must(await store.saveProductDraft(draftBy(who)));
    must(await store.signOff("off"));
    expect(mustNot(await store.discardProductDraft(product.code))).toMatch(/^nobody is signed on/);
  });

  test("only quality publishes: an operator is refused, and the draft is as it was", async () => {
    const store = await staffed();
    const who = ofRole("operator");
    must(await store.signOn(whoOf(who)));
    must(await store.saveProductDraft(draftBy(who)));
    expect(mustNot(await store.publishProduct(product.code, release(who)))).toMatch(
      /^to publish a product takes somebody of quality/,
    );
    expect(await store.productDrafts()).toEqual([draftBy(who)]);
    expect((await store.products()).revisions(product.code)).toHaveLength(1);
    must(await store.signOn(whoOf(ofRole("quality"))));
    const published = must(await store.publishProduct(product.code, release(ofRole("quality"))));
    expect(published).toMatchObject({ author: who, approvedBy: ofRole("quality") });
    expect((await store.entriesOfDay("2026-11-24")).at(-1)).toMatchObject({
      kind: "product published",
      signedOn: true,
    });
  });

  test("quality can't publish in another name", async () => {
    const store = await staffed();
    must(await store.signOn(whoOf(ofRole("quality"))));
    must(await store.saveProductDraft(draftBy(ofRole("quality"))));
    expect(mustNot(await store.publishProduct(product.code, release("XX")))).toMatch(/XX must sign on/);
  });

  test("only quality loads from the shared folder; anybody may look", async () => {
    const store = await staffed();
    const who = ofRole("operator");
    must(await store.signOn(whoOf(who)));
    const how = { by: who, at: AT, dryRun: false };
    expect(mustNot(await importShared(store, SAMPLE, how))).toMatch(/^to publish a product takes somebody of quality/);
    must(await importShared(store, SAMPLE, { ...how, dryRun: true }));
    expect((await store.products()).codes).toEqual([product.code]);
  });
});
