import type { Assessment } from "../assess.ts";
import type { Draft } from "../record/draft.ts";
import type { IndexRow } from "../record/indexRow.ts";
import type { Product } from "../record/product.ts";
import { usualOf } from "../run/usual.ts";
import { indexRowOf } from "../store/indexRowOf.ts";
import type { Store } from "../store/store.ts";
import type { Key } from "../terminal/keys.ts";
import * as answers from "./answers.ts";
import { bounceGuard } from "./bounce.ts";
import { pressed } from "./dispatch.ts";
import { monthRead } from "./log/logPlace.ts";
import type { App, Effect, Step } from "./place.ts";
import { startingApp, withLibraryAndLog } from "./reading.ts";

/** How many of a product's latest tests tell what is usual for it. */
const USUAL_TESTS = 12;

export interface Outside {
  readonly store: Store;
  readonly now: () => string;
  readonly programVersion: string;
  readonly bell: () => void;
  /** A clock that only runs forward, in ms, to tell a bouncing key from a wanted one. */
  readonly clockMs: () => number;
}

/** The screens' one piece of changing state, and everything that reaches out from them. */
export interface Shell {
  readonly app: () => App;
  readonly subscribe: (listener: () => void) => () => void;
  readonly press: (key: Key) => void;
  readonly tick: () => void;
  /** Resolves once the operator has left and everything accepted is on disk. */
  readonly left: Promise<void>;
}

/**
 * Runs the screens' pure steps one after the other and carries out what they ask for. Keys are never kept waiting by
 * the disk: an accepted entry shows its next prompt only once it is saved, but the next digits already type.
 */
export function createShell(outside: Outside): Shell {
  const { store, now, bell, clockMs } = outside;
  let app = startingApp(store, now(), outside.programVersion);
  const listeners = new Set<() => void>();
  const waiting: { readonly key: Key; readonly pressedMs: number }[] = [];
  const bounces = bounceGuard();
  let ready = false;
  let leave: () => void = () => undefined;
  const left = new Promise<void>((resolve) => {
    leave = resolve;
  });
  const pending = new Set<Promise<void>>();

  const show = (next: App) => {
    if (next === app) return;
    app = next;
    for (const listener of listeners) listener();
  };
  /** What the disk refused would be lost by leaving: that is asked once. */
  const quit = () => {
    const warning = `leaving now loses what is not on disk (${app.notOnDisk}): leave again to do so`;
    if (app.notOnDisk && app.message !== warning) return show({ ...app, message: warning });
    return void Promise.all(pending).then(leave);
  };
  const take = ({ app: next, effects }: Step) => {
    show(next);
    for (const effect of effects) {
      if (effect.do === "quit") return quit();
      const work = carryOut(effect).finally(() => pending.delete(work));
      pending.add(work);
    }
  };

  async function save(draft: Draft): Promise<void> {
    const saved = await store.saveDraft(draft);
    show(saved.ok ? answers.draftSaved(app, draft) : answers.draftNotSaved(app, saved.reason));
  }

  async function record(draft: Draft, by: string, { verdict, lossPct }: Assessment): Promise<void> {
    const { schema: _schema, stage: _stage, ...test } = draft;
    const at = now();
    const signed = { program: outside.programVersion, test: verdict.test, product: verdict.product, lossPct };
    const entry = await store.record({ kind: "test", at, by, test: { ...test, finishedAt: at, by, signed } });
    if (!entry.ok) return show(answers.notRecorded(app, entry.reason));
    if (entry.value.kind === "test") show(answers.testRecorded(app, entry.value, indexRowOf(entry.value)));
  }

  async function learnUsual(product: Product): Promise<void> {
    const rows = (app.recent ?? []).filter((row) => row.product === product.code && row.test !== "invalid");
    const entries = await Promise.all(rows.slice(0, USUAL_TESTS).map((row) => store.testEntry(row)));
    const tests = entries.flatMap((entry) => (entry.ok ? [entry.value.test] : []));
    const sameStack = tests.filter((test) => test.weighings.length === product.stackUm.length + 1);
    show(answers.usualLearnt(app, product.code, usualOf(sameStack)));
  }

  async function open(row: IndexRow): Promise<void> {
    const entry = await store.testEntry(row);
    show(entry.ok ? answers.testOpened(app, entry.value) : { ...app, message: entry.reason });
  }

  async function openDeck(rows: Extract<Effect, { do: "openDeck" }>["rows"]): Promise<void> {
    const [feed, oversize, undersize] = await Promise.all([
      store.testEntry(rows.feed),
      store.testEntry(rows.oversize),
      store.testEntry(rows.undersize),
    ]);
    if (!feed.ok) return show({ ...app, message: feed.reason });
    if (!oversize.ok) return show({ ...app, message: oversize.reason });
    if (!undersize.ok) return show({ ...app, message: undersize.reason });
    show(answers.deckOpened(app, { feed: feed.value, oversize: oversize.value, undersize: undersize.value }));
  }

  async function carryOut(effect: Exclude<Effect, { do: "quit" }>): Promise<void> {
    switch (effect.do) {
      case "save":
        return save(effect.draft);
      case "drop": {
        const dropped = await store.dropDraft(effect.draft.testId);
        return show(dropped.ok ? answers.draftDropped(app, effect.draft.testId) : { ...app, message: dropped.reason });
      }
      case "record":
        return record(effect.draft, effect.by, effect.assessment);
      case "recordCheck": {
        const { check } = effect;
        const entry = await store.record({ kind: "balance check", at: check.at, by: check.by, check });
        return show(entry.ok ? answers.balanceChecked(app, check) : answers.notRecorded(app, entry.reason));
      }
      case "readMonth":
        return store.indexRows(effect.month).then((rows) => take(monthRead(app, effect.month, rows)));
      case "open":
        return open(effect.row);
      case "openDeck":
        return openDeck(effect.rows);
      case "learnUsual":
        return learnUsual(effect.product);
      case "bell":
        return bell();
    }
  }

  const press = (key: Key, pressedMs = clockMs()) => {
    if (!ready) waiting.push({ key, pressedMs });
    else if (!bounces(app, key, pressedMs)) take(pressed({ ...app, now: now() }, key, now()));
  };

  void withLibraryAndLog(app, store).then((read) => {
    show(read);
    ready = true;
    for (const { key, pressedMs } of waiting.splice(0)) press(key, pressedMs);
  });

  return {
    app: () => app,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    press: (key) => press(key),
    tick: () => take(answers.ticked(app, now())),
    left,
  };
}
