import type { IndexRow } from "../../src/record/indexRow.ts";
import type { TestEntry } from "../../src/record/logEntry.ts";
import type { Station } from "../../src/record/station.ts";
import { draftSaved } from "../../src/screens/answers.ts";
import { pressed } from "../../src/screens/dispatch.ts";
import { frameOf } from "../../src/screens/frame.ts";
import { textOf } from "../../src/screens/line.ts";
import type { App, Effect, Size } from "../../src/screens/place.ts";
import { NOBODY_LISTED } from "../../src/screens/signOn/people.ts";
import { indexRowOf } from "../../src/store/indexRowOf.ts";
import type { Key, NamedKey } from "../../src/terminal/keys.ts";
import { BARLEY, FILTER_SAND, Hands, TEN_MINUTES } from "../run/hands.ts";

export const STATION: Station = {
  schema: "sievewright.station/1",
  station: "TH-DRY1",
  plant: "Tessel Hollow (invented)",
  timeZone: "Europe/Berlin",
  dayBegins: "06:00",
  balances: [{ id: "B1", capacityG: 3100, readabilityG: 0.01 }],
  lines: ["Dryer 1", "Screen deck B"],
  samplingPoints: ["discharge", "belt 4"],
  operators: [{ initials: "KO", name: "K. Orr" }],
};

export function recordedEntry(number = 1, lot = "4470-A"): TestEntry {
  const { schema: _schema, stage: _stage, ...entered } = new Hands().tests().run.draft;
  const at = `2026-11-2${number % 5}T02:0${number % 10}:00+01:00`;
  const signed = { program: "test", test: "valid", product: "pass", lossPct: 0.1 } as const;
  const test = {
    ...entered,
    testId: `t-${number}`,
    lot,
    disposition: "release" as const,
    finishedAt: at,
    by: "KO",
    signed,
  };
  return {
    kind: "test",
    number,
    at,
    day: at.slice(0, 10),
    station: "TH-DRY1",
    by: "KO",
    previous: "0".repeat(64),
    test,
  };
}

export const recordedRow = (number = 1, lot = "4470-A"): IndexRow => indexRowOf(recordedEntry(number, lot));

export const anApp = (change: Partial<App> = {}): App => ({
  place: { name: "bench", at: 0 },
  behind: [],
  station: STATION,
  programVersion: "test",
  now: "2026-11-24T03:12:00+01:00",
  readOnly: null,
  problems: [],
  drafts: [],
  recent: [recordedRow()],
  months: ["2026-11"],
  revisions: [FILTER_SAND, BARLEY],
  products: [FILTER_SAND, BARLEY],
  productDrafts: [],
  programs: [TEN_MINUTES],
  holds: [],
  earlier: [],
  lineEvents: [],
  balanceCheck: null,
  session: null,
  people: NOBODY_LISTED,
  touchedAt: "2026-11-24T03:12:00+01:00",
  operator: "KO",
  saved: new Map(),
  rung: new Set(),
  message: null,
  ...change,
});

/** An operator at the screens without a terminal: keys in, lines of text out, effects collected. */
export class Stage {
  app: App;
  readonly effects: Effect[] = [];
  keysPressed = 0;
  private ms = Date.parse("2026-11-24T02:12:00Z");

  constructor(app: App = anApp()) {
    this.app = app;
  }

  now(): string {
    return new Date(this.ms).toISOString();
  }

  waits(seconds: number): this {
    this.ms += seconds * 1000;
    this.app = { ...this.app, now: this.now() };
    return this;
  }

  key(key: Key): this {
    this.keysPressed += 1;
    this.ms += 250;
    const { app, effects } = pressed(this.app, key, this.now());
    this.app = app;
    this.effects.push(...effects);
    for (const effect of effects) if (effect.do === "save") this.app = draftSaved(this.app, effect.draft);
    return this;
  }

  types(text: string): this {
    for (const character of text) this.key({ name: "char", text: character });
    return this;
  }

  presses(...names: NamedKey[]): this {
    for (const name of names) this.key({ name });
    return this;
  }

  enters(text: string): this {
    return this.types(text).presses("enter");
  }

  scans(text: string, ended = true): this {
    return this.key({ name: "entry", text, ended });
  }

  lines(size: Size = { columns: 80, rows: 24 }): string[] {
    return frameOf(this.app, size).map(textOf);
  }

  screen(size?: Size): string {
    return this.lines(size).join("\n");
  }
}
