import type { Product } from "../../src/record/product.ts";
import type { Program } from "../../src/record/program.ts";
import { reduceRun } from "../../src/run/reduce.ts";
import { fieldsOf, type Run, type RunEvent, type SetOutField, type Setting } from "../../src/run/run.ts";
import { startRun } from "../../src/run/start.ts";
import { NOTHING_USUAL } from "../../src/run/usual.ts";

export const FILTER_SAND: Product = {
  schema: "sievewright.product/1",
  code: "TH-0510",
  name: "filter sand 0.5-1.0 mm",
  revision: 3,
  stackUm: [355, 1400, 1000, 710, 500],
  method: { maxLossPct: 0.3, program: "V10" },
  envelope: [
    { apertureUm: 1400, passingPct: { min: 95, max: 100 } },
    { apertureUm: 1000, passingPct: { min: 75, max: 95 } },
  ],
  values: [{ id: "percentileUm", passingPct: 50, min: 690, max: 790 }],
};

export const BARLEY: Product = {
  schema: "sievewright.product/1",
  code: "TH-BAR",
  name: "milled barley",
  revision: 1,
  stackUm: [2000, 1000, 500],
};

export const TEN_MINUTES: Program = {
  schema: "sievewright.program/1",
  code: "V10",
  name: "ten minutes",
  motion: "vertical throw",
  durationS: 600,
};

export const SETTING: Setting = {
  products: [FILTER_SAND, BARLEY],
  programs: [TEN_MINUTES],
  lines: ["Dryer 1", "Screen deck B"],
  samplingPoints: ["discharge", "belt 4"],
  last: new Map([["TH-BAR", { lot: "M2-7", line: "Screen deck B", samplingPoint: "belt 4" }]]),
  usual: NOTHING_USUAL,
  balance: { id: "B1", capacityG: 3100, readabilityG: 0.01 },
};

const LAST = { lot: "4471-B", line: "Dryer 1", samplingPoint: "discharge" };
const IDENTITY = { testId: "t1", station: "TH-DRY1", at: "2026-11-24T03:00:00+01:00" };

/** Masses that close: charge 300.20 g, recovered 299.90 g. Coarsest first, the pan last. */
export const EMPTY_G = [412.31, 398.74, 381.2, 366.95, 359.4, 354.1] as const;
export const NET_G = [5.71, 56.46, 112.3, 92.18, 28.75, 4.5] as const;
export const FULL_G = EMPTY_G.map((empty, i) => Math.round((empty + (NET_G[i] ?? 0)) * 100) / 100);

/** An operator's hands on a run: every deed is one event, each a second after the last. */
export class Hands {
  run: Run;
  private second = 0;

  constructor(setting: Setting = SETTING, product: Product = FILTER_SAND) {
    this.run = startRun(product, LAST, setting, IDENTITY);
  }

  moment(): string {
    this.second += 1;
    return new Date(Date.parse(IDENTITY.at) + this.second * 1000).toISOString();
  }

  does(event: RunEvent): this {
    this.run = reduceRun(this.run, event);
    return this;
  }

  types(text: string): this {
    for (const character of text) this.does({ type: "typed", text: character });
    return this;
  }

  enter(times = 1): this {
    for (let i = 0; i < times; i++) this.does({ type: "accepted", at: this.moment() });
    return this;
  }

  enters(text: string): this {
    return this.types(text).enter();
  }

  weighs(masses: readonly number[]): this {
    for (const grams of masses) this.enters(String(grams));
    return this;
  }

  /** Enters up to a field of the set-out page; back to it with Up where it was taken on the way. */
  toField(field: SetOutField): this {
    const fields = () => fieldsOf(this.run);
    while (this.run.at < fields().indexOf(field)) this.enter();
    while (this.run.at > fields().indexOf(field)) this.does({ type: "rowUp" });
    return this;
  }

  setsOut(chargeG = "300.2"): this {
    return this.enter(4).enters(chargeG);
  }

  shakes(): this {
    return this.does({ type: "shakingStarted", at: this.moment() }).does({ type: "shakingEnded", at: this.moment() });
  }

  /** A whole test up to its result. */
  tests(): this {
    return this.setsOut().weighs(EMPTY_G).shakes().weighs(FULL_G);
  }

  undoes(): this {
    return this.does({ type: "undone", at: this.moment() });
  }
}
