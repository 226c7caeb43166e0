import { expect } from "vitest";
import type { Draft } from "../../src/record/draft.ts";
import { frameOf } from "../../src/screens/frame.ts";
import { textOf } from "../../src/screens/line.ts";
import type { App, PlaceName, Size } from "../../src/screens/place.ts";
import { roomOf } from "../../src/screens/rooms.ts";
import { createShell, type Shell } from "../../src/screens/shell.ts";
import type { Store } from "../../src/store/store.ts";
import type { Key, NamedKey } from "../../src/terminal/keys.ts";
import { columnsOf } from "../../src/terminal/sanitise.ts";
import { ALL_UNSEEN, OBEYED, SEQUENCES } from "./evil.ts";

const SIZES: readonly Size[] = [
  { columns: 80, rows: 24 },
  { columns: 60, rows: 16 },
  { columns: 120, rows: 40 },
  { columns: 20, rows: 5 },
];
const ANY_NAMED: readonly NamedKey[] = [
  ...(["enter", "up", "down", "left", "right", "escape", "backspace", "delete", "tab", "shift+tab"] as const),
  ...(["home", "end", "page up", "page down", "f1", "f5", "ctrl+n", "ctrl+u", "ctrl+l", "insert"] as const),
];
/** So often the walk goes back to the bench and on from there, lest it spends itself in one long form. */
const STEPS_FROM_HOME = 35;
const LETTERS = "abcdefghijklmnoprstuvwxyz?/0123456789.,+-*# ";
const BURSTS: readonly string[] = [
  ...SEQUENCES.map(([, text]) => text.replace(/\p{Cc}/gu, "")), // the decoder lets no control character through
  ...["+  521.40 g", "TH-0510", "__proto__", "../../etc/passwd", "=1+1", "\u202eevil", ALL_UNSEEN, "9".repeat(300)],
  ...["x".repeat(5000), "1e999", "-0", "\ufffd", "石".repeat(90), "e\u0301".repeat(90), "412.31", "0,5", "no reason"],
];

/** A cheap generator (mulberry32): the same walk from the same seed. */
export function chanceFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

export interface WalkClock {
  readonly now: () => string;
  readonly goes: (seconds: number) => void;
}

/** Somebody who presses anything, but what does something most, and of that what was pressed least so far. */
export class Walk {
  readonly visited = new Map<PlaceName, number>();
  keys = 0;
  frames = 0;
  readonly #chance: () => number;
  readonly #pressed = new Map<string, number>();
  readonly #trails = new Map<string, Draft["trail"]>();
  readonly #lately: string[] = [];
  readonly #shell: Shell;
  readonly #clock: WalkClock;
  readonly #who: { readonly initials: string; readonly pin: string } | null;
  #ms = 0;
  #size: Size = { columns: 80, rows: 24 };

  /** @param who signs on where that is asked for */
  constructor(store: Store, clock: WalkClock, seed: number, who: { initials: string; pin: string } | null = null) {
    this.#who = who;
    this.#chance = chanceFrom(seed);
    this.#clock = clock;
    this.#shell = createShell({
      store,
      now: clock.now,
      programVersion: "test",
      bell: () => undefined,
      clockMs: () => this.#ms,
    });
  }

  async ready(): Promise<void> {
    while (this.#app().recent === null) await this.#breath();
  }

  async goes(steps: number): Promise<void> {
    for (let i = 0; i < steps; i += 1) {
      if (i % STEPS_FROM_HOME === 0) await this.#home();
      await this.#step();
      this.#looks();
    }
  }

  /** Leaves in order; everything that was asked of the disk is done by then. */
  async leaves(): Promise<void> {
    for (let tries = 0; tries < 3; tries += 1) this.#shell.press({ name: "ctrl+c" });
    await this.#shell.left;
  }

  /** Of every test in which a mass was ever accepted: all that its trail had to tell. */
  accepted(): ReadonlyMap<string, Draft["trail"]> {
    const weighed = [...this.#trails].filter(([, trail]) => trail.some(({ field }) => field.endsWith("G")));
    return new Map(weighed);
  }

  /** The last keys, for whoever looks for the fault. */
  story(): string {
    return `at ${this.#app().place.name} after ${this.keys} keys, the last of them: ${this.#lately.join(" ")}`;
  }

  #app(): App {
    return this.#shell.app();
  }

  #oneOf<T>(items: readonly T[]): T {
    return items[Math.floor(this.#chance() * items.length)] as T;
  }

  async #breath(): Promise<void> {
    await new Promise((resolve) => setImmediate(resolve));
  }

  /** Back to the bench; signed on again where the walk was signed off. Every other time into a test. */
  async #home(): Promise<void> {
    for (let i = 0; i < 8 && this.#app().place.name !== "bench"; i += 1) this.#press({ name: "escape" });
    if (this.#who !== null && this.#app().session === null) await this.#signsOn(this.#who);
    if (this.#chance() < 0.5) return;
    this.#press({ name: "char", text: "n" });
    for (let i = 0; i < 4; i += 1) this.#press({ name: "enter" });
    this.#enter("300.2");
  }

  async #signsOn({ initials, pin }: { initials: string; pin: string }): Promise<void> {
    this.#clock.goes(3600); // wrong PINs must have been waited for
    if (this.#app().place.name === "bench") this.#press({ name: "char", text: "o" });
    for (let i = 0; i < 12; i += 1) this.#press({ name: "backspace" });
    this.#enter(initials);
    this.#enter(pin);
    for (let i = 0; i < 200 && this.#app().session === null; i += 1) await this.#breath();
  }

  async #step(): Promise<void> {
    const chance = this.#chance();
    if (this.#app().place.name === "run" && chance < 0.3) this.#enter((50 + 500 * this.#chance()).toFixed(2));
    else if (chance < 0.5) this.#press(this.#binding());
    else if (chance < 0.65)
      this.#enter(this.#oneOf(["412.31", "418.02", "300.2", "5", "1", "reason", "KO", "ML", "x"]));
    else if (chance < 0.75) this.#press({ name: "char", text: this.#oneOf([...LETTERS]) });
    else if (chance < 0.83) this.#press({ name: this.#oneOf(ANY_NAMED) });
    else if (chance < 0.9) this.#press({ name: "entry", text: this.#oneOf(BURSTS), ended: this.#chance() < 0.5 });
    else if (chance < 0.94) this.#press({ name: "enter" });
    else if (chance < 0.97) this.#tick();
    else this.#size = this.#oneOf(SIZES);
    await this.#breath();
    if (this.#chance() < 0.3) await this.#breath();
  }

  #tick(): void {
    this.#clock.goes(this.#oneOf([1, 30, 700]));
    this.#lately.push("(tick)");
    this.#shell.tick();
  }

  /** Of the keys of this place, the one pressed least so far. */
  #binding(): Key {
    const app = this.#app();
    const keys = roomOf(app.place)
      .keys(app)
      .filter(({ word }) => word !== "leave");
    const timesOf = (word: string) => this.#pressed.get(`${app.place.name} ${word}`) ?? 0;
    const least = Math.min(...keys.map(({ word }) => timesOf(word)));
    const binding = this.#oneOf(keys.filter(({ word }) => timesOf(word) === least));
    if (binding === undefined) return { name: "escape" };
    this.#pressed.set(`${app.place.name} ${binding.word}`, least + 1);
    const key = this.#oneOf(binding.keys);
    return key.length === 1 ? { name: "char", text: key } : { name: key as NamedKey };
  }

  #enter(text: string): void {
    for (const character of text) this.#press({ name: "char", text: character });
    this.#press({ name: "enter" });
  }

  #press(key: Key): void {
    this.keys += 1;
    this.#ms += this.#chance() < 0.95 ? 500 : 5;
    this.#lately.push(JSON.stringify("text" in key ? key.text.slice(0, 20) : key.name));
    this.#lately.splice(0, this.#lately.length - 25);
    this.#shell.press(key);
    this.#remember();
  }

  /** No trail ever loses an item while its test is in work. */
  #remember(): void {
    const app = this.#app();
    this.visited.set(app.place.name, (this.visited.get(app.place.name) ?? 0) + 1);
    for (const { testId, trail } of app.drafts) {
      const before = this.#trails.get(testId) ?? [];
      if (trail === before) continue;
      expect(trail.slice(0, before.length), `the trail of ${testId}, ${this.story()}`).toEqual(before);
      this.#trails.set(testId, trail);
    }
  }

  #looks(): void {
    const { columns, rows } = this.#size;
    const lines = frameOf(this.#app(), this.#size).map(textOf);
    this.frames += 1;
    expect(lines.length, this.story()).toBeLessThan(rows);
    for (const line of lines) {
      expect(columnsOf(line), `${columns}x${rows} ${this.story()}: ${line}`).toBeLessThanOrEqual(columns);
      expect(OBEYED.test(line), `${this.story()}: ${JSON.stringify(line)}`).toBe(false);
    }
  }
}
