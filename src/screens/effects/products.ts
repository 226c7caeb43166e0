import { resolve } from "node:path";
import { accepted, type Outcome, refused } from "../../entry/outcome.ts";
import { draftFrom, type ProductDraft, type Release } from "../../record/productDraft.ts";
import { importShared } from "../../store/sharedImport.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import type { ProductEffect } from "../products/places.ts";
import * as answers from "../products/productAnswers.ts";
import type { Desk } from "./desk.ts";

const told = (desk: Desk, message: string): void => desk.show({ ...desk.app(), message });

/** Carries out what was asked for with products. */
export function carryOutProduct(desk: Desk, effect: ProductEffect): Promise<void> {
  switch (effect.do) {
    case "draftProduct":
      return draftProduct(desk, effect.code, effect.by);
    case "saveProductDraft":
      return saveProductDraft(desk, effect.draft);
    case "discardProductDraft":
      return discard(desk, effect.code);
    case "publishProduct":
      return publish(desk, effect.code, effect.release);
    case "learnLatest":
      return learnLatest(desk, effect.code);
    case "importShared":
      return importFrom(desk, effect.by, effect.dryRun);
  }
}

async function readAgain(desk: Desk): Promise<void> {
  const { store } = desk;
  const [shelf, drafts, programs] = await Promise.all([store.products(), store.productDrafts(), store.programs()]);
  desk.show(answers.libraryRead(desk.app(), { shelf, drafts, programs }));
}

interface Opened {
  readonly draft: ProductDraft;
  readonly told: string | null;
}

/** The draft there is, or a new one after the newest revision; one that a newer revision has overtaken is counted on. */
async function draftOf(desk: Desk, code: string, by: string): Promise<Outcome<Opened>> {
  const { store } = desk;
  const newest = (await store.products()).revisions(code).at(-1);
  if (newest === undefined) return refused(say`${code} has no revision to go on from`);
  const there = (await store.productDrafts()).find((draft) => draft.code === code);
  if (there !== undefined && there.revision > newest.revision)
    return accepted({
      draft: there,
      told: there.author === by ? null : say`${there.author} wrote at this draft before`,
    });
  const draft: ProductDraft =
    there === undefined
      ? draftFrom(newest, by, desk.now())
      : { ...there, revision: newest.revision + 1, basedOn: newest.revision };
  const saved = await store.saveProductDraft(draft);
  if (!saved.ok) return saved;
  const overtaken = say`revision ${newest.revision} came meanwhile: the draft is now of revision ${draft.revision}; c shows what it changes`;
  return accepted({ draft, told: there === undefined ? null : overtaken });
}

async function draftProduct(desk: Desk, code: string, by: string): Promise<void> {
  const opened = await draftOf(desk, code, by);
  if (!opened.ok) return told(desk, opened.reason);
  desk.show(answers.draftOpened(desk.app(), opened.value.draft, by, opened.value.told));
  await learnLatest(desk, code);
}

async function saveProductDraft(desk: Desk, draft: ProductDraft): Promise<void> {
  const saved = await desk.store.saveProductDraft(draft);
  desk.show(
    saved.ok ? answers.productDraftSaved(desk.app(), draft) : answers.productDraftNotSaved(desk.app(), saved.reason),
  );
}

async function discard(desk: Desk, code: string): Promise<void> {
  const gone = await desk.store.discardProductDraft(code);
  if (!gone.ok) return told(desk, gone.reason);
  desk.show(answers.productDraftDiscarded(desk.app(), code, gone.value));
}

async function publish(desk: Desk, code: string, release: Release): Promise<void> {
  const product = await desk.store.publishProduct(code, release);
  if (!product.ok) return told(desk, say`not published: ${spoken(product.reason)}`);
  await readAgain(desk);
  desk.show(answers.productPublished(desk.app(), product.value));
}

async function learnLatest(desk: Desk, code: string): Promise<void> {
  const row = (desk.app().recent ?? []).find((one) => one.product === code && one.test !== "invalid");
  const entry = row === undefined ? null : await desk.store.testEntry(row);
  if (entry?.ok) desk.show(answers.latestLearnt(desk.app(), code, entry.value.test));
}

async function importFrom(desk: Desk, by: string, dryRun: boolean): Promise<void> {
  const { sharedFolder } = desk.app().station;
  if (sharedFolder === undefined) return told(desk, say`no sharedFolder in station.json`);
  const folder = resolve(desk.store.folder, sharedFolder);
  const report = await importShared(desk.store, folder, { by, at: desk.now(), dryRun });
  if (!report.ok) return told(desk, report.reason);
  if (!dryRun) await readAgain(desk);
  desk.show(answers.sharedImported(desk.app(), report.value));
}
