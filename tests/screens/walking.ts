import { expect } from "vitest";
import { fillStation } from "../../src/demo/fillStation.ts";
import { demoProducts } from "../../src/demo/library.ts";
import { DEMO_STATION } from "../../src/demo/station.ts";
import type { App, PlaceName, Size } from "../../src/screens/place.ts";
import { createShell } from "../../src/screens/shell.ts";
import { indexRowOf } from "../../src/store/indexRowOf.ts";
import { openStore } from "../../src/store/openStore.ts";
import type { Store } from "../../src/store/store.ts";
import type { NamedKey } from "../../src/terminal/keys.ts";
import { registered, SERIALS, sieve } from "../store/careWorld.ts";
import { must } from "../store/opened.ts";

const NOW_MS = Date.UTC(2026, 10, 25, 2, 12);

/** A demo plant with a season of tests, in a folder of its own. */
export async function demoPlant(folder: string): Promise<Store> {
  const now = () => new Date(NOW_MS).toISOString().replace("Z", "+00:00");
  const station = { ...DEMO_STATION, sharedFolder: folder };
  const store = must(await openStore(folder, { now, indexRowOf, create: station, declares: true }));
  must(await fillStation(store, { tests: 60, seed: 7, untilMs: NOW_MS, programVersion: "test" }));
  for (const serial of SERIALS) await store.record(registered(sieve(serial))); // refused where the demo plant has it
  const [mortar] = demoProducts().filter(({ code }) => code === "TH-MAS");
  if (!mortar) throw new Error("no TH-MAS");
  const next = { ...mortar, revision: mortar.revision + 1, name: `${mortar.name}, washed`, effective: "2026-11-20" };
  must(await store.addProduct(next, { fromPath: "x", bytesSha256: "0".repeat(64), by: "SB", at: now() }));
  return store;
}

/** Someone who walks through the program by its keys, on a real store; tells each place they stand in. */
export class Walker {
  readonly #shell;
  readonly #stands: (app: App, what: string) => void;
  #ms = NOW_MS;
  #clockMs = 0;
  #window: Size = { columns: 80, rows: 24 };

  constructor(store: Store, stands: (app: App, what: string) => void) {
    this.#stands = stands;
    this.#shell = createShell({
      store,
      now: () => new Date(this.#ms).toISOString().replace("Z", "+00:00"),
      programVersion: "test",
      bell: () => undefined,
      clockMs: () => (this.#clockMs += 1000),
      size: () => this.#window,
    });
  }

  get app(): App {
    return this.#shell.app();
  }

  async comes(to: PlaceName | ((app: App) => boolean)): Promise<this> {
    const is = typeof to === "string" ? (app: App) => app.place.name === to : to;
    await expect
      .poll(() => (is(this.app) ? "there" : `${this.app.place.name}: ${this.app.message ?? ""}`), {
        timeout: 20_000,
        interval: 5,
      })
      .toBe("there");
    return this;
  }

  types(text: string): this {
    for (const character of text) this.#shell.press({ name: "char", text: character });
    return this;
  }

  presses(...names: NamedKey[]): this {
    for (const name of names) {
      this.#ms += 1000;
      this.#shell.press({ name });
    }
    return this;
  }

  enters(text: string): this {
    return this.types(text).presses("enter");
  }

  waits(seconds: number): this {
    this.#ms += seconds * 1000;
    this.#shell.tick();
    return this;
  }

  resizes(window: Size): this {
    this.#window = window;
    return this;
  }

  /** Looks at the screen as it is, or would be with a change. */
  looks(what = "", change: Partial<App> = {}): this {
    this.#stands({ ...this.app, ...change }, what);
    return this;
  }
}
